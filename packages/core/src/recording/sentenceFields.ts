import { type Radians, radians, type Seconds } from "../units.ts";

/** Longest line that is read. The standard allows 82 characters; stamps, tag blocks and long XDR lists need more. */
export const LONGEST_LINE = 1024;

const COMMA_PLACES = LONGEST_LINE + 2;

/** Up to this many digits a number is exact in a double, and so is its quotient by a power of ten: correctly rounded. */
const EXACT_DIGITS = 15;
const POWERS_OF_TEN = Float64Array.from({ length: EXACT_DIGITS + 1 }, (_, power) => 10 ** power);

const [SPACE, PLUS, MINUS, POINT, ZERO] = [0x20, 0x2b, 0x2d, 0x2e, 0x30];

/**
 * The fields of one sentence, read where they lie among the bytes of the log: no text is made. Field 0 is the address,
 * field 1 what follows the first comma. A field that is empty or not there is NaN (or no letter), never 0; one that
 * should hold something else than it does sets `expected`. Nothing here throws.
 */
export class SentenceFields {
  bytes: Uint8Array = new Uint8Array(0);
  /** Place of the comma before field n + 1; the place after the last field stands at the end. */
  readonly commas = new Int32Array(COMMA_PLACES);
  /** The last field's number. */
  count = 0;
  /** What the first faulty field should have held; "" as long as all is well. */
  expected = "";

  /** Where a field starts. */
  from(field: number): number {
    return this.commas[field - 1]! + 1;
  }

  /** Where a field ends. */
  to(field: number): number {
    return this.commas[field]!;
  }

  isEmpty(field: number): boolean {
    return field > this.count || this.from(field) >= this.to(field);
  }

  fault(field: number, what: string): number {
    if (this.expected === "") this.expected = `${what} in field ${field}`;
    return Number.NaN;
  }

  /** A decimal number; NaN where the field is empty. */
  number(field: number): number {
    if (field > this.count) return Number.NaN;
    const bytes = this.bytes;
    let at = this.commas[field - 1]! + 1;
    let to = this.commas[field]!;
    while (at < to && bytes[at] === SPACE) at++;
    while (at < to && bytes[to - 1] === SPACE) to--;
    if (at >= to) return Number.NaN;
    const sign = bytes[at]!;
    if (sign === MINUS || sign === PLUS) at++;
    const value = decimal(bytes, at, to);
    if (Number.isNaN(value)) return this.fault(field, "a number");
    return sign === MINUS ? -value : value;
  }

  /** A number that is not negative. */
  size(field: number): number {
    const value = this.number(field);
    return value < 0 ? this.fault(field, "a number that is not negative") : value;
  }

  /** An angle written in degrees, within a full turn either way. */
  angle(field: number): Radians {
    const value = this.number(field);
    return value > 360 || value < -360
      ? this.fault(field, "an angle of at most 360 degrees")
      : radians(value);
  }

  /** A direction written in degrees from 0 to 360. */
  direction(field: number): Radians {
    const value = this.number(field);
    return value > 360 || value < 0 ? this.fault(field, "degrees from 0 to 360") : radians(value);
  }

  /** The code of the one letter in a field; 0, no letter's code, where it is empty. */
  letter(field: number): number {
    if (this.isEmpty(field)) return 0;
    if (this.to(field) - this.from(field) === 1) return this.bytes[this.from(field)]!;
    this.fault(field, "one letter");
    return 0;
  }

  /** 1 or −1 by the letter in a field: that of the positive or of the negative side; NaN where it is empty. */
  side(field: number, positive: number, negative: number): number {
    const letter = this.letter(field);
    if (letter === positive) return 1;
    if (letter === negative) return -1;
    if (letter === 0) return Number.NaN;
    return this.fault(field, `${String.fromCharCode(positive)} or ${String.fromCharCode(negative)}`);
  }

  /** An angle whose side stands in the field after it; NaN unless both are there. */
  sidedAngle(field: number, positive: number, negative: number): Radians {
    const size = this.angle(field);
    return Number.isNaN(size) ? size : size * this.side(field + 1, positive, negative);
  }

  /** M31. Degrees and decimal minutes (ddmm.mmm), hemisphere in the next field; NaN unless both are there. */
  position(field: number, positive: number, negative: number, limit: number): Radians {
    const value = this.size(field);
    if (Number.isNaN(value)) return value;
    const whole = Math.floor(value / 100);
    const minutes = value - whole * 100;
    if (minutes >= 60 || value > limit * 100)
      return this.fault(field, "degrees and minutes of a place on Earth");
    return radians(whole + minutes / 60) * this.side(field + 1, positive, negative);
  }

  /** Seconds of the day from hhmmss or hhmmss.sss; NaN where the field is empty. A leap second (60) passes. */
  timeOfDay(field: number): Seconds {
    if (this.isEmpty(field)) return Number.NaN;
    const from = this.from(field);
    const hours = this.twoDigits(from, field);
    const minutes = this.twoDigits(from + 2, field);
    const seconds = this.twoDigits(from + 4, field);
    const to = this.to(field);
    const fraction = to > from + 7 ? decimal(this.bytes, from + 6, to) : 0;
    if (!(hours < 24 && minutes < 60 && seconds <= 60 && fraction < 1))
      return this.fault(field, "a time hhmmss");
    return hours * 3600 + minutes * 60 + seconds + fraction;
  }

  /** The number that two digits make, from a place on; NaN where they are no digits of the field. */
  twoDigits(from: number, field: number): number {
    const tens = this.bytes[from]! - ZERO;
    const ones = this.bytes[from + 1]! - ZERO;
    const within = from + 2 <= this.to(field) && tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9;
    return within ? tens * 10 + ones : Number.NaN;
  }
}

/**
 * The number written between two places, without sign: the double nearest to it, as `Number` of the text would give.
 * NaN where it is no plain decimal number. Never throws.
 */
export function decimal(bytes: Uint8Array, from: number, to: number): number {
  let mantissa = 0;
  let decimals = -1;
  for (let at = from; at < to; at++) {
    const digit = bytes[at]! - ZERO;
    if (digit >= 0 && digit <= 9) {
      mantissa = mantissa * 10 + digit;
      if (decimals >= 0) decimals++;
    } else if (digit === POINT - ZERO && decimals < 0) decimals = 0;
    else return Number.NaN;
  }
  const digits = to - from - (decimals >= 0 ? 1 : 0);
  if (digits === 0) return Number.NaN;
  if (digits > EXACT_DIGITS) return Number(String.fromCharCode(...bytes.subarray(from, to)));
  return decimals > 0 ? mantissa / POWERS_OF_TEN[decimals]! : mantissa;
}
