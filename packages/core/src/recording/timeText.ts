import type { Seconds } from "../units.ts";
import { dayNumber, SECONDS_IN_A_DAY } from "./calendar.ts";
import { decimal } from "./decimal.ts";

const [SPACE, PLUS, COMMA, MINUS, POINT, SLASH, ZERO, COLON] = [32, 43, 44, 45, 46, 47, 48, 58] as const;
const [CAPITAL_T, CAPITAL_Z, UNDERSCORE] = [0x54, 0x5a, 0x5f] as const;

/** Codes of A, P and M without the bit that tells small letters from capitals. */
const [LETTER_A, LETTER_P, LETTER_M, CAPITAL_BITS] = [0x41, 0x50, 0x4d, 0xdf] as const;

/** Digits of an epoch in seconds, milliseconds, microseconds or nanoseconds, and how many of the unit make a second. */
export const EPOCH_UNITS: readonly (readonly [
  fewestDigits: number,
  mostDigits: number,
  unitsInASecond: number,
])[] = [
  [9, 10, 1],
  [12, 13, 1e3],
  [15, 16, 1e6],
  [18, 19, 1e9],
];

/** Digits of a date without marks between them (ISO 8601 basic format). */
const BASIC_DATE_DIGITS = 8;

/** More digits than these of a fraction of a second say nothing that a double holds. */
const MOST_FRACTION_DIGITS = 15;

/** No byte is this. */
const NO_BYTE = -1;

export const isDigit = (byte: number | undefined): boolean =>
  byte !== undefined && byte >= ZERO && byte <= ZERO + 9;

/** A time as text tells it: `zone` is seconds east of UTC, NaN where none is told. */
export interface ToldTime {
  /** Seconds since 1970 by the clock that the text shows. */
  readonly seconds: Seconds;
  readonly zone: Seconds;
}

/** Reads times byte by byte. Nothing here throws. */
export class TimeText {
  bytes: Uint8Array;
  at: number;
  to: number;

  constructor(bytes: Uint8Array, from: number, to: number) {
    this.bytes = bytes;
    this.at = from;
    this.to = to;
  }

  peek(): number | undefined {
    return this.at < this.to ? this.bytes[this.at] : undefined;
  }

  /** Steps over one of up to four bytes, if it is the next. */
  take(one: number, two = NO_BYTE, three = NO_BYTE, four = NO_BYTE): boolean {
    const next = this.peek();
    const isNext = next === one || next === two || next === three || next === four;
    if (isNext) this.at++;
    return isNext;
  }

  /** How many digits follow. */
  digits(): number {
    let end = this.at;
    while (end < this.to && isDigit(this.bytes[end])) end++;
    return end - this.at;
  }

  /** A whole number of so many digits; NaN if they are not there. */
  whole(fewest: number, most: number): number {
    const count = this.digits();
    const from = this.at;
    this.at += count;
    return count >= fewest && count <= most ? decimal(this.bytes, from, this.at) : Number.NaN;
  }

  /** The next two digits; NaN if they are not there. */
  pair(): number {
    const value = this.at + 2 <= this.to ? decimal(this.bytes, this.at, this.at + 2) : Number.NaN;
    this.at += 2;
    return value;
  }

  /** What follows a decimal mark, one of two, or 0. */
  fraction(point: number, other = NO_BYTE): number {
    const mark = this.peek();
    const isMark = mark === point || mark === other;
    if (!(isMark && this.at + 1 < this.to && isDigit(this.bytes[this.at + 1]))) return 0;
    this.at++;
    const from = this.at;
    const count = this.digits();
    this.at = from + count;
    const told = Math.min(count, MOST_FRACTION_DIGITS);
    return decimal(this.bytes, from, from + told) / 10 ** told;
  }
}

/** Seconds since 1970 from a count of digits that only an epoch has (9 digits and more); undefined if it is none. */
export function epochSeconds(text: TimeText): Seconds | undefined {
  const digits = text.digits();
  const unit = EPOCH_UNITS.find(([fewest, most]) => digits >= fewest && digits <= most)?.[2];
  if (unit === undefined) return undefined;
  const whole = text.whole(digits, digits);
  return (whole + text.fraction(POINT)) / unit;
}

/** The hour of a day by a twelve-hour clock where AM or PM follows; else the hour as it stands. */
function hourByHalfDay(text: TimeText, hour: number): number {
  const { bytes, to } = text;
  const at = bytes[text.at] === SPACE ? text.at + 1 : text.at;
  const half = at + 1 < to ? bytes[at]! & CAPITAL_BITS : 0;
  const isMarked = (half === LETTER_A || half === LETTER_P) && (bytes[at + 1]! & CAPITAL_BITS) === LETTER_M;
  if (!isMarked) return hour;
  text.at = at + 2;
  return hour >= 1 && hour <= 12 ? (hour % 12) + (half === LETTER_P ? 12 : 0) : Number.NaN;
}

/** Seconds of the day from HH:MM, HH:MM:SS or with a fraction, AM or PM allowed; NaN if there is no such time. */
export function clockSeconds(text: TimeText, needsSeconds = true): Seconds {
  const hour = text.whole(1, 2);
  if (!text.take(COLON)) return Number.NaN;
  const minutes = text.whole(2, 2);
  const hasSeconds = text.take(COLON);
  if (!hasSeconds && needsSeconds) return Number.NaN;
  const seconds = hasSeconds ? text.whole(2, 2) + text.fraction(POINT, COMMA) : 0;
  const hours = hourByHalfDay(text, hour);
  const exists = hours < 24 && minutes < 60 && seconds < 61;
  return exists ? hours * 3600 + minutes * 60 + seconds : Number.NaN;
}

/** Seconds east of UTC by a zone such as Z, +02, +0200 or −02:00; NaN if none is told. */
export function zoneSeconds(text: TimeText): Seconds {
  if (text.take(CAPITAL_Z)) return 0;
  const isWest = text.peek() === MINUS;
  if (!text.take(PLUS, MINUS)) return Number.NaN;
  const hours = text.pair();
  text.take(COLON);
  const minutes = isDigit(text.peek()) ? text.pair() : 0;
  return (isWest ? -1 : 1) * (hours * 3600 + minutes * 60);
}

/** Days since 1970 from year, month and day with - or / between, or from eight digits; NaN if it is no date. */
function isoDay(text: TimeText): number {
  if (text.digits() === BASIC_DATE_DIGITS) {
    const date = text.whole(BASIC_DATE_DIGITS, BASIC_DATE_DIGITS);
    return dayNumber(Math.floor(date / 10_000), Math.floor(date / 100) % 100, date % 100);
  }
  const year = text.whole(4, 4);
  if (!text.take(MINUS, SLASH)) return Number.NaN;
  const month = text.whole(1, 2);
  if (!text.take(MINUS, SLASH)) return Number.NaN;
  return dayNumber(year, month, text.whole(1, 2));
}

/** Seconds of the day from hhmmss, with a fraction (ISO 8601 basic format); NaN if there is no such time. */
function basicClockSeconds(text: TimeText): Seconds {
  const [hours, minutes, seconds] = [text.pair(), text.pair(), text.pair()];
  const exists = hours < 24 && minutes < 60 && seconds <= 60;
  return exists ? hours * 3600 + minutes * 60 + seconds + text.fraction(POINT, COMMA) : Number.NaN;
}

/** A date and time by ISO 8601, a space, underscore or hyphen allowed for its T; undefined if it is none. */
export function isoTime(text: TimeText): ToldTime | undefined {
  const day = isoDay(text);
  if (!text.take(CAPITAL_T, SPACE, UNDERSCORE, MINUS)) return undefined;
  const ofDay = text.digits() === 6 ? basicClockSeconds(text) : clockSeconds(text, false);
  const seconds = day * SECONDS_IN_A_DAY + ofDay;
  return Number.isNaN(seconds) ? undefined : { seconds, zone: zoneSeconds(text) };
}
