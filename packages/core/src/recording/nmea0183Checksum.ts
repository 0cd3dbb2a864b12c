import { HEXADECIMAL_DIGITS } from "./hexadecimal.ts";

/** A name of this module's own, which the compiler need not look up at each sentence. */
const DIGITS = HEXADECIMAL_DIGITS;

/** The `*` and the two digits behind it. */
export const SUM_LENGTH = 3;

const HEXADECIMAL = "0123456789ABCDEF";

/** Whether two hexadecimal digits stand at a place. Never throws. */
export const isHexadecimalPair = (bytes: Uint8Array, at: number): boolean =>
  at + 1 < bytes.length && DIGITS[bytes[at]!]! >= 0 && DIGITS[bytes[at + 1]!]! >= 0;

/** Whether the two hexadecimal digits of a sum, 0 to 255, stand at a place. Never throws. */
export const isSumAt = (sum: number, bytes: Uint8Array, at: number): boolean =>
  at + 1 < bytes.length && DIGITS[bytes[at]!] === sum >> 4 && DIGITS[bytes[at + 1]!] === (sum & 15);

/**
 * M30. The checksum of an NMEA 0183 sentence: exclusive or of all characters between `$` and `*`.
 *
 * @param body what stands between `$` and `*`, ASCII
 * @returns 0 to 255; 0 for an empty body. Never throws.
 * @see E. S. Raymond and others, *NMEA Revealed*, gpsd project (www/NMEA.adoc), section on sentence framing
 * @example
 * // read in marine-api's documentation: $IIMWV,199,R,5.9,N,A*2E
 * nmea0183Checksum("IIMWV,199,R,5.9,N,A").toString(16) // "2e"
 */
export function nmea0183Checksum(body: string): number {
  let sum = 0;
  for (let index = 0; index < body.length; index++) sum ^= body.charCodeAt(index);
  return sum & 0xff;
}

/**
 * The whole sentence `$body*hh`, without line end, its checksum (M30) in two capital hexadecimal digits. Never throws.
 *
 * @example
 * nmea0183Sentence("IIMWV,199,R,5.9,N,A") // "$IIMWV,199,R,5.9,N,A*2E"
 */
export function nmea0183Sentence(body: string): string {
  const sum = nmea0183Checksum(body);
  return `$${body}*${HEXADECIMAL.charAt(sum >> 4)}${HEXADECIMAL.charAt(sum & 15)}`;
}
