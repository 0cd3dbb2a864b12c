import { EXACT_DIGITS, POWERS_OF_TEN, WHOLE_DIGITS } from "./decimal.ts";
import { isLineEnd } from "./lineCutter.ts";
import { COMMA_MASK, type SentenceFields } from "./sentenceFields.ts";

const [STAR, COMMA, MINUS, POINT, ZERO] = [0x2a, 0x2c, 0x2d, 0x2e, 0x30] as const;

// names of this module's own, which the compiler need not look up at each field
const [MASK, MOST_DIGITS, MOST_OF_A_PART, SCALES] = [COMMA_MASK, EXACT_DIGITS, WHOLE_DIGITS, POWERS_OF_TEN];

/**
 * Scans a sentence in one pass: that is where the time of reading goes. The fields' places and the checksum (M30) are told, and the
 * numbers of those fields that hold a plain one.
 *
 * @param from where its `$` stands, in a line that has an end
 * @returns the place of the `*` or of the line's end, behind the last field; −1 where a byte stands before that which few
 * sentences have, and nothing is told. Never throws.
 */
export function plainScan(bytes: Uint8Array, from: number, fields: SentenceFields): number {
  const { commas, numbers } = fields;
  let sum = 0;
  let count = 0;
  // `| 0` keeps whole numbers the processor's for the compiler, which makes doubles of them otherwise
  let at = (from + 1) | 0;
  for (; ; at = (at + 1) | 0) {
    let byte = bytes[at]!;
    const sign = byte === MINUS ? -1 : 1;
    if (sign < 0) {
      sum ^= byte;
      at = (at + 1) | 0;
      byte = bytes[at]!;
    }
    let number = Number.NaN;
    let whole = 0;
    const start = at;
    for (; (byte - ZERO) >>> 0 < 10; byte = bytes[at]!) {
      sum ^= byte;
      whole = (Math.imul(whole, 10) + byte - ZERO) | 0;
      at = (at + 1) | 0;
    }
    const digits = (at - start) | 0;
    if (byte === POINT) {
      sum ^= byte;
      at = (at + 1) | 0;
      let fraction = 0;
      const first = at;
      for (byte = bytes[at]!; (byte - ZERO) >>> 0 < 10; byte = bytes[at]!) {
        sum ^= byte;
        fraction = (Math.imul(fraction, 10) + byte - ZERO) | 0;
        at = (at + 1) | 0;
      }
      const decimals = (at - first) | 0;
      const isExact = digits <= MOST_OF_A_PART && decimals <= MOST_DIGITS - MOST_OF_A_PART;
      if (digits > 0 && isExact && byte <= COMMA) {
        const scale = SCALES[decimals]!;
        number = (sign * (whole * scale + fraction)) / scale;
      }
    } else if (digits > 0 && digits <= MOST_OF_A_PART && byte <= COMMA) number = sign * whole;
    numbers[count & MASK] = number;
    for (; byte > COMMA; byte = bytes[at]!) {
      sum ^= byte;
      at = (at + 1) | 0;
    }
    if (byte !== COMMA) break;
    sum ^= byte;
    commas[count++ & MASK] = at;
  }
  if (bytes[at] !== STAR && !isLineEnd(bytes[at]!)) return -1;
  fields.describe(bytes, count, at);
  fields.sum = sum;
  return at;
}
