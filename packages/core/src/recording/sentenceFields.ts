import { type Radians, radians, type Seconds } from "../units.ts";
import { dayNumber, fullYear } from "./calendar.ts";
import { afterSpaces, signedDecimal } from "./decimal.ts";

/** Longest line that is read. The standard allows 82 characters; stamps, tag blocks and long XDR lists need more. */
export const LONGEST_LINE = 1024;

/** Room for the commas of the longest line; a power of two. */
const COMMA_PLACES = 2 * LONGEST_LINE;

/** Keeps the count of commas within their array in lines that prove too long. */
export const COMMA_MASK = COMMA_PLACES - 1;

/**
 * The fields of one sentence, read where they lie among the bytes of the log: no text is made. Field 0 is the address,
 * field 1 what follows the first comma. A field that is empty or not there is NaN (or no letter), never 0; one that
 * should hold something else than it does sets `expected`. Nothing here throws.
 */
export class SentenceFields {
  bytes: Uint8Array = new Uint8Array(0);
  /** Place of the comma before field n + 1; the place after the last field stands at the end. */
  readonly commas = new Int32Array(COMMA_PLACES);
  /** The number that each field holds, by field, as far as it was read together with its place; else NaN. */
  readonly numbers = new Float64Array(COMMA_PLACES);
  /** The last field's number. */
  count = 0;
  /** M30. Exclusive or of the bytes of the fields and their commas. */
  sum = 0;
  /** What the first faulty field should have held; "" as long as all is well. */
  expected = "";
  /** The last date read as its six digits make a number, and as days since 1970-01-01. */
  #date = { digits: Number.NaN, day: Number.NaN };

  /** Tells which bytes the fields lie in, how many commas there are, and where the last field ends. */
  describe(bytes: Uint8Array, count: number, end: number): void {
    if (this.bytes !== bytes) this.bytes = bytes;
    this.expected = "";
    this.count = count;
    this.commas[count & COMMA_MASK] = end;
  }

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
    const value = this.numbers[field]!;
    return field > this.count || Number.isNaN(value) ? this.#unusualNumber(field) : value;
  }

  #unusualNumber(field: number): number {
    if (this.isEmpty(field)) return Number.NaN;
    const [from, to] = [this.from(field), this.to(field)];
    const value = signedDecimal(this.bytes, from, to);
    const isFaulty = Number.isNaN(value) && afterSpaces(this.bytes, from, to) < to;
    return isFaulty ? this.fault(field, "a number") : value;
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

  /** An angle written in degrees, within half a turn either way, of a field that holds one. */
  halfTurn(field: number): Radians {
    const value = this.number(field);
    if (Number.isNaN(value)) return this.fault(field, "a number");
    return value > 180 || value < -180
      ? this.fault(field, "an angle of at most 180 degrees")
      : radians(value);
  }

  /** A direction written in degrees from 0 to 360. */
  direction(field: number): Radians {
    const value = this.number(field);
    return value > 360 || value < 0 ? this.fault(field, "degrees from 0 to 360") : radians(value);
  }

  /** The code of the one letter in a field; 0, no letter's code, where it is empty. */
  letter(field: number): number {
    if (field > this.count) return 0;
    const from = this.commas[field - 1]! + 1;
    const length = this.commas[field]! - from;
    if (length === 1) return this.bytes[from]!;
    if (length > 1) this.fault(field, "one letter");
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
    const value = this.number(field);
    if (Number.isNaN(value)) return value;
    const whole = value | 0;
    const hours = (whole / 10_000) | 0;
    const minutes = ((whole / 100) | 0) % 100;
    const seconds = whole % 100;
    const exists = value >= 0 && hours < 24 && minutes < 60 && seconds <= 60;
    return exists
      ? hours * 3600 + minutes * 60 + seconds + (value - whole)
      : this.fault(field, "a time hhmmss");
  }

  /** Days since 1970-01-01 from a date ddmmyy; NaN where the field is empty. The same date as before is not worked out anew. */
  date(field: number): number {
    const digits = this.number(field);
    if (digits === this.#date.digits) return this.#date.day;
    if (Number.isNaN(digits)) return digits;
    const day = dayNumber(
      fullYear(digits % 100),
      Math.floor(digits / 100) % 100,
      Math.floor(digits / 10_000),
    );
    if (Number.isNaN(day)) return this.fault(field, "a date ddmmyy");
    this.#date = { digits, day };
    return day;
  }
}
