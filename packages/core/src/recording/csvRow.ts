import type { Delimiter } from "./csvDialect.ts";
import { EXACT_DIGITS, POWERS_OF_TEN } from "./decimal.ts";

const [SPACE, TAB, QUOTE, MINUS, ZERO] = [0x20, 0x09, 0x22, 0x2d, 0x30] as const;
const [LINE_FEED, CARRIAGE_RETURN] = [0x0a, 0x0d] as const;

/** What stands in some logs where there is no reading. */
const MISSING: ReadonlySet<string> = new Set(["", "nan", "na", "n/a", "null", "none", "-", "--", "---"]);

const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/;

/** Below it a decimal digit can be added without leaving 31 bits. */
const LAST_OF_31_BITS = 214_748_363;

/** Longer fields are no numbers. */
const LONGEST_NUMBER = 40;

/** What is done with a column. */
const [SKIPPED, NUMERIC, TEXT] = [0, 1, 2] as const;

export interface CsvRowOptions {
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
  /** How many columns there are. */
  readonly columns: number;
  /** Indices of the columns that are read as numbers, and of those whose text is kept in its place. */
  readonly numbers: readonly number[];
  readonly texts: readonly number[];
}

/**
 * Reads the rows of a log in columns where they lie among its bytes: numbers straight into an array, no text made. A number is
 * the double nearest to its digits. An empty field is NaN, never 0. Never throws.
 */
export class CsvRow {
  /** Numbers by column; NaN where there is none. */
  readonly numbers: Float64Array;
  /** Where the texts of columns begin and end. */
  readonly textFrom: Int32Array;
  readonly textTo: Int32Array;
  bytes: Uint8Array = new Uint8Array(0);
  /** How many fields the row has. */
  count = 0;
  /** The first column that should hold a number and does not; −1 as long as all is well. */
  faulty = -1;

  readonly #delimiter: number;
  readonly #decimal: number;
  readonly #kinds: Uint8Array;

  constructor({ delimiter, decimal, columns, numbers, texts }: CsvRowOptions) {
    this.#delimiter = delimiter.charCodeAt(0);
    this.#decimal = decimal.charCodeAt(0);
    // a place more for the column after the last, which a row with too many fields has
    this.#kinds = new Uint8Array(columns + 1).fill(SKIPPED);
    for (const column of numbers) this.#kinds[column] = NUMERIC;
    for (const column of texts) this.#kinds[column] = TEXT;
    this.numbers = new Float64Array(columns + 1).fill(Number.NaN);
    this.textFrom = new Int32Array(columns + 1);
    this.textTo = new Int32Array(columns + 1);
  }

  /** Reads the row that begins at a place, and returns the place of its end, which is there. */
  read(bytes: Uint8Array, from: number): number {
    const kinds = this.#kinds;
    const delimiter = this.#delimiter;
    const last = kinds.length - 1;
    this.bytes = bytes;
    this.faulty = -1;
    let column = 0;
    let at = from;
    for (;;) {
      const kind = column < last ? kinds[column]! : SKIPPED;
      if (kind === NUMERIC) at = this.#readNumber(column, at);
      else at = this.#readText(kind === TEXT ? column : last, at);
      column++;
      if (bytes[at] !== delimiter) break;
      at++;
    }
    this.count = column;
    return at;
  }

  #readNumber(column: number, from: number): number {
    const bytes = this.bytes;
    const decimal = this.#decimal;
    let at = from;
    let byte = bytes[at]!;
    const isNegative = byte === MINUS;
    if (isNegative) byte = bytes[++at]!;
    let mantissa = 0;
    let digit = byte - ZERO;
    const start = at;
    // whole numbers that fit 31 bits are quicker than doubles
    while (digit >= 0 && digit <= 9 && mantissa < LAST_OF_31_BITS) {
      mantissa = (mantissa * 10 + digit) | 0;
      byte = bytes[++at]!;
      digit = byte - ZERO;
    }
    let whole: number = mantissa;
    while (digit >= 0 && digit <= 9) {
      whole = whole * 10 + digit;
      byte = bytes[++at]!;
      digit = byte - ZERO;
    }
    let digits = at - start;
    let decimals = 0;
    if (byte === decimal) {
      const point = ++at;
      let part = 0;
      byte = bytes[at]!;
      digit = byte - ZERO;
      while (digit >= 0 && digit <= 9 && part < LAST_OF_31_BITS) {
        part = (part * 10 + digit) | 0;
        byte = bytes[++at]!;
        digit = byte - ZERO;
      }
      decimals = at - point;
      digits += decimals;
      whole = whole * POWERS_OF_TEN[decimals]! + part;
    }
    const isEnd = byte === this.#delimiter || byte === LINE_FEED || byte === CARRIAGE_RETURN;
    if (!isEnd || digits === 0 || digits > EXACT_DIGITS) return this.#readLoose(column, from);
    const value = decimals === 0 ? whole : whole / POWERS_OF_TEN[decimals]!;
    this.numbers[column] = isNegative ? -value : value;
    return at;
  }

  /** A number with spaces or quotes about it, with an exponent or many digits; or none at all. */
  #readLoose(column: number, from: number): number {
    const at = this.#readText(column, from);
    const [start, end] = [this.textFrom[column]!, this.textTo[column]!];
    const isLong = end - start > LONGEST_NUMBER;
    const text = isLong ? "too long" : String.fromCharCode(...this.bytes.subarray(start, end));
    const plain = text.toLowerCase().replace(String.fromCharCode(this.#decimal), ".");
    const value = NUMBER.test(plain) ? Number(plain) : Number.NaN;
    this.numbers[column] = Number.isFinite(value) ? value : Number.NaN;
    const isFault = !Number.isFinite(value) && !MISSING.has(text.trim().toLowerCase());
    if (isFault && this.faulty < 0) this.faulty = column;
    return at;
  }

  /** Finds where a field ends; its text, without spaces and quotes about it, is told at a place. */
  #readText(place: number, from: number): number {
    const bytes = this.bytes;
    let at = from;
    while (bytes[at] === SPACE || (bytes[at] === TAB && this.#delimiter !== TAB)) at++;
    const isQuoted = bytes[at] === QUOTE;
    const start = isQuoted ? ++at : at;
    let end = isQuoted ? this.#closingQuote(start) : -1;
    if (isQuoted) at = end;
    while (!this.#isFieldEnd(bytes[at]!)) at++;
    if (!isQuoted) end = at;
    while (end > start && bytes[end - 1] === SPACE) end--;
    this.textFrom[place] = start;
    this.textTo[place] = end;
    return at;
  }

  /** The quote that closes a field, or the line's end where a line leaves it open. */
  #closingQuote(from: number): number {
    const bytes = this.bytes;
    for (let at = from; ; at++) {
      const byte = bytes[at]!;
      if (byte === LINE_FEED || byte === CARRIAGE_RETURN) return at;
      if (byte !== QUOTE) continue;
      if (bytes[at + 1] !== QUOTE) return at;
      at++;
    }
  }

  #isFieldEnd(byte: number): boolean {
    return byte === this.#delimiter || byte === LINE_FEED || byte === CARRIAGE_RETURN;
  }
}
