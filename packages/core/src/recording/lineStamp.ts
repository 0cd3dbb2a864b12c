import type { Seconds } from "../units.ts";
import { decimal } from "./decimal.ts";
import type { StampKind } from "./logClock.ts";

const [SPACE, PLUS, COMMA, MINUS, POINT, SLASH, ZERO, COLON] = [32, 43, 44, 45, 46, 47, 48, 58];
const [BACKSLASH, STAR, SMALL_C, CAPITAL_T, CAPITAL_Z, UNDERSCORE] = [0x5c, 0x2a, 0x63, 0x54, 0x5a, 0x5f];

export interface LineStamp {
  readonly kind: StampKind;
  readonly seconds: Seconds;
}

/** Digits of an epoch in seconds, milliseconds, microseconds or nanoseconds, and how many of the unit make a second. */
const EPOCH_UNITS: readonly (readonly [fewestDigits: number, mostDigits: number, unitsInASecond: number])[] =
  [
    [9, 10, 1],
    [12, 13, 1e3],
    [15, 16, 1e6],
    [18, 19, 1e9],
  ];

const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= ZERO && byte <= ZERO + 9;

/** Reads what stands before a sentence in its line, byte by byte. */
class Head {
  readonly bytes: Uint8Array;
  at: number;
  readonly to: number;

  constructor(bytes: Uint8Array, from: number, to: number) {
    this.bytes = bytes;
    this.at = from;
    this.to = to;
  }

  peek(): number | undefined {
    return this.at < this.to ? this.bytes[this.at] : undefined;
  }

  /** Steps over one of some bytes, if it is the next. */
  take(...choices: readonly number[]): boolean {
    const next = this.peek();
    const isNext = next !== undefined && choices.includes(next);
    if (isNext) this.at++;
    return isNext;
  }

  /** Where the run of digits from here ends. */
  digitsEnd(): number {
    let end = this.at;
    while (end < this.to && isDigit(this.bytes[end])) end++;
    return end;
  }

  /** A whole number of so many digits; NaN if they are not there. */
  whole(fewest: number, most: number): number {
    const end = this.digitsEnd();
    const count = end - this.at;
    const value = count >= fewest && count <= most ? decimal(this.bytes, this.at, end) : Number.NaN;
    this.at = end;
    return value;
  }

  /** What follows a decimal point, or 0. */
  fraction(...points: readonly number[]): number {
    if (!(points.includes(this.peek() ?? -1) && isDigit(this.bytes[this.at + 1]) && this.at + 1 < this.to))
      return 0;
    this.at++;
    const from = this.at;
    this.at = Math.min(this.digitsEnd(), from + 15);
    return decimal(this.bytes, from, this.at) / 10 ** (this.at - from);
  }
}

/** Seconds since 1970 from a count of digits that only an epoch has; undefined if it is none. */
function epochSeconds(head: Head): Seconds | undefined {
  const digits = head.digitsEnd() - head.at;
  const unit = EPOCH_UNITS.find(([fewest, most]) => digits >= fewest && digits <= most)?.[2];
  if (unit === undefined) return undefined;
  const whole = head.whole(digits, digits);
  return (whole + head.fraction(POINT)) / unit;
}

/** Seconds of the day from HH:MM:SS with an optional fraction; NaN if there is no such time. */
function clockSeconds(head: Head): Seconds {
  const hours = head.whole(1, 2);
  if (!head.take(COLON)) return Number.NaN;
  const minutes = head.whole(2, 2);
  if (!head.take(COLON)) return Number.NaN;
  const seconds = head.whole(2, 2);
  if (!(hours < 24 && minutes < 60 && seconds <= 60)) return Number.NaN;
  return hours * 3600 + minutes * 60 + seconds + head.fraction(POINT, COMMA);
}

/** Seconds east of UTC by a zone such as Z, +02, +0200 or −02:00; NaN if none is told. */
function zoneSeconds(head: Head): Seconds {
  if (head.take(CAPITAL_Z)) return 0;
  const isWest = head.peek() === MINUS;
  if (!head.take(PLUS, MINUS)) return Number.NaN;
  const hours = wholePair(head);
  head.take(COLON);
  const minutes = isDigit(head.peek()) ? wholePair(head) : 0;
  return (isWest ? -1 : 1) * (hours * 3600 + minutes * 60);
}

function wholePair(head: Head): number {
  const value = head.at + 2 <= head.to ? decimal(head.bytes, head.at, head.at + 2) : Number.NaN;
  head.at += 2;
  return value;
}

/** A date and time by ISO 8601, a space or underscore allowed for its T; undefined if it is none. */
function isoStamp(head: Head): LineStamp | undefined {
  const year = head.whole(4, 4);
  if (!head.take(MINUS, SLASH)) return undefined;
  const month = head.whole(1, 2);
  if (!head.take(MINUS, SLASH)) return undefined;
  const day = head.whole(1, 2);
  if (!head.take(CAPITAL_T, SPACE, UNDERSCORE)) return undefined;
  const seconds = Date.UTC(year, month - 1, day) / 1000 + clockSeconds(head);
  if (Number.isNaN(seconds) || month > 12 || day > 31) return undefined;
  const zone = zoneSeconds(head);
  return Number.isNaN(zone) ? { kind: "local", seconds } : { kind: "utc", seconds: seconds - zone };
}

/** The time `c:` of an NMEA tag block (\…\), whose checksum must be right (M30); undefined without one. */
function tagBlockStamp(head: Head): LineStamp | undefined {
  const { bytes, at: from, to } = head;
  let star = from;
  let sum = 0;
  while (star < to && bytes[star] !== STAR) sum ^= bytes[star++]!;
  const isWhole =
    star + 3 <= to && Number.parseInt(String.fromCharCode(bytes[star + 1]!, bytes[star + 2]!), 16) === sum;
  for (let at = from; isWhole && at + 2 < star; at++) {
    if (bytes[at] !== SMALL_C || bytes[at + 1] !== COLON || (at > from && bytes[at - 1] !== COMMA)) continue;
    const seconds = epochSeconds(new Head(bytes, at + 2, star));
    return seconds === undefined ? undefined : { kind: "utc", seconds };
  }
  return undefined;
}

/**
 * The time that stands before a sentence in its line: epoch (s, ms, µs or ns), ISO 8601, HH:MM:SS, or a tag block.
 * What follows the time does not matter.
 *
 * @param from where the line starts
 * @param to where the sentence starts
 * @returns undefined where no such time stands there. Never throws.
 */
export function lineStamp(bytes: Uint8Array, from: number, to: number): LineStamp | undefined {
  const head = new Head(bytes, from, to);
  while (
    head.peek() !== undefined &&
    !isDigit(head.peek()) &&
    head.peek() !== BACKSLASH &&
    head.at < from + 4
  )
    head.at++;
  if (head.take(BACKSLASH)) return tagBlockStamp(head);
  const start = head.at;
  const epoch = epochSeconds(head);
  if (epoch !== undefined) return { kind: "utc", seconds: epoch };
  const digits = head.digitsEnd() - start;
  if (digits === 4) return isoStamp(head);
  const seconds = digits > 0 ? clockSeconds(head) : Number.NaN;
  return Number.isNaN(seconds) ? undefined : { kind: "localTimeOfDay", seconds };
}
