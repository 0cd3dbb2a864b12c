import { HEXADECIMAL_DIGITS } from "./hexadecimal.ts";

/** Most bytes of one message: a fast packet of 32 frames, 6 bytes in the first, 7 in each other. */
export const MOST_BYTES = 223;

/** Most bytes of one that is sent in pieces by the bus's transport protocol (ISO 11783-3); only those above are kept. */
const MOST_IN_PIECES = 1785;

/** A frame of the bus itself holds no more. */
export const BYTES_IN_A_FRAME = 8;

const HIGHEST_IDENTIFIER = 0x1fffffff;
/** Numbers above are no parameter groups: gateways tell of themselves in them. */
const HIGHEST_PGN = 0x3ffff;
const HIGHEST_LISTED = 999_999;
const HIGHEST_ADDRESS = 255;
const HIGHEST_PRIORITY = 7;

/** Digits of an identifier of 29 bits; those of 11 bits have three and are not of this bus. */
const IDENTIFIER_DIGITS = 8;

const [TAB, SPACE, NUMBER_SIGN, OPEN, CLOSE, COMMA] = [0x09, 0x20, 0x23, 0x28, 0x29, 0x2c];
const [OPEN_MARK, CLOSE_MARK] = [0x3c, 0x3e];

/** What stands before an identifier between marks: <0x. */
const MARK = [OPEN_MARK, 0x30, 0x78] as const;
const [ZERO, OPEN_SQUARE, CLOSE_SQUARE, CAPITAL_R, SMALL_R] = [0x30, 0x5b, 0x5d, 0x52, 0x72];

const isSpace = (byte: number | undefined): boolean => byte === SPACE || byte === TAB;

/** What a line proved to be: a frame of the bus, something that is none, or one that is damaged. */
export type LineKind = "frame" | "other" | "damaged";

/**
 * One frame of NMEA 2000, or one message put together from several, as a line of text has it:
 *
 *     (1502979132.106111) can0 09F50374#000A00FFFF00FFFF
 *     (1502979132.106111)  can0  09F50374   [8]  00 0A 00 FF FF 00 FF FF
 *     <0x09f50374> [8] 00 0a 00 ff ff 00 ff ff
 *     2017-08-17T14:12:12.106Z,2,128259,116,255,8,00,0a,00,ff,ff,00,ff,ff
 *
 * (the last: time, priority, parameter group, source, destination, count of bytes, bytes). Nothing here throws.
 */
export class CanFrame {
  /** Parameter group number. */
  pgn = 0;
  /** Address of the device that sent it. */
  source = 0;
  readonly data = new Uint8Array(MOST_BYTES);
  length = 0;
  /** What stands before the frame in its line: its time, if there is any. */
  stampFrom = 0;
  stampTo = 0;
  /** The name of the interface; of no length where the line has none. */
  busFrom = 0;
  busTo = 0;
  /** What a damaged line should have held, and whether it ends too early. */
  expected = "";
  isCut = false;

  #bytes: Uint8Array = new Uint8Array(0);
  #at = 0;
  #to = 0;

  /** Reads a line that lies between two places. */
  read(bytes: Uint8Array, from: number, to: number): LineKind {
    this.#bytes = bytes;
    this.#to = to;
    this.#at = from;
    this.expected = "";
    this.#skipSpaces();
    this.stampFrom = this.#at;
    this.stampTo = this.#at;
    this.busFrom = this.#at;
    this.busTo = this.#at;
    if (this.#peek() === OPEN) return this.#readStampedInBrackets();
    const comma = bytes.indexOf(COMMA, this.#at);
    const isList = comma >= 0 && comma < to && (comma === this.#at || this.#isDigit(this.#at));
    return isList ? this.#readFields(comma) : this.#readBusLine();
  }

  #readStampedInBrackets(): LineKind {
    const close = this.#bytes.indexOf(CLOSE, this.#at);
    if (close < 0 || close >= this.#to) return this.#damaged("a time in brackets");
    this.stampFrom = this.#at + 1;
    this.stampTo = close;
    this.#at = close + 1;
    return this.#readBusLine();
  }

  /** Interface, identifier and data of a frame. */
  #readBusLine(): LineKind {
    const hasStamp = this.stampTo > this.stampFrom;
    this.#skipSpaces();
    if (this.#peek() === OPEN_MARK) return this.#readMarked();
    this.busFrom = this.#at;
    this.#skipWord();
    this.busTo = this.#at;
    for (let words = 0; words < 5; words++) {
      this.#skipSpaces();
      const start = this.#at;
      const digits = this.#hexadecimalDigits();
      const next = this.#peek();
      if (digits > 0 && next === NUMBER_SIGN) return this.#readIdentified(start, digits, true);
      if (digits > 2 && isSpace(next) && this.#isBeforeSquare())
        return this.#readIdentified(start, digits, false);
      this.#at = start;
      this.#skipWord();
    }
    return hasStamp ? this.#damaged("a frame") : "other";
  }

  /** A frame without an interface, its identifier between marks. */
  #readMarked(): LineKind {
    this.#at += MARK.length;
    const start = this.#at;
    const digits = this.#hexadecimalDigits();
    const isMarked = MARK.every((byte, index) => this.#bytes[start - MARK.length + index] === byte);
    if (!isMarked || this.#peek() !== CLOSE_MARK) return "other";
    this.#at++;
    return this.#isBeforeSquare() ? this.#readIdentified(start, digits, false) : this.#damaged("a frame");
  }

  #readIdentified(start: number, digits: number, isPacked: boolean): LineKind {
    if (digits === 3) return "other";
    if (digits !== IDENTIFIER_DIGITS) return this.#damaged("an identifier of 8 digits");
    const identifier = this.#hexadecimal(start, digits);
    if (identifier > HIGHEST_IDENTIFIER) return "other";
    this.#takeIdentifier(identifier);
    return isPacked ? this.#readPacked() : this.#readSpaced();
  }

  /** ISO 11783: priority, page, format, specific part (a destination below format 240) and source. */
  #takeIdentifier(identifier: number): void {
    const group = (identifier >>> 8) & HIGHEST_PGN;
    const format = (identifier >>> 16) & 0xff;
    this.pgn = format < 240 ? group & ~0xff : group;
    this.source = identifier & 0xff;
  }

  /** Data as digits without spaces behind a number sign. */
  #readPacked(): LineKind {
    this.#at++;
    const first = this.#peek();
    if (first === NUMBER_SIGN || first === CAPITAL_R) return "other";
    const start = this.#at;
    const digits = this.#hexadecimalDigits();
    const isEnded = this.#at === this.#to || isSpace(this.#peek());
    if (!isEnded || digits % 2 !== 0 || digits > 2 * BYTES_IN_A_FRAME)
      return this.#damaged("up to 8 bytes of two hexadecimal digits");
    this.length = digits / 2;
    for (let index = 0; index < this.length; index++)
      this.data[index] = this.#hexadecimal(start + 2 * index, 2);
    return "frame";
  }

  /** Data as bytes behind their count in square brackets. */
  #readSpaced(): LineKind {
    this.#skipSpaces();
    this.#at++;
    const count = this.#decimal(BYTES_IN_A_FRAME);
    if (Number.isNaN(count) || this.#peek() !== CLOSE_SQUARE) return this.#damaged("[0] to [8]");
    this.#at++;
    for (let index = 0; index < count; index++) {
      this.#skipSpaces();
      const start = this.#at;
      const digits = this.#hexadecimalDigits();
      if (index === 0 && digits === 0 && count > 0 && this.#peek() === SMALL_R) return "other";
      if (digits !== 2) return this.#damaged(`${count} bytes of two hexadecimal digits`);
      this.data[index] = this.#hexadecimal(start, 2);
    }
    this.length = count;
    return "frame";
  }

  /** Time, priority, parameter group, source, destination, count, bytes: separated by commas. */
  #readFields(comma: number): LineKind {
    this.stampTo = comma;
    this.#at = comma + 1;
    const priority = this.#field(HIGHEST_PRIORITY);
    const pgn = this.#field(HIGHEST_LISTED);
    const source = this.#field(HIGHEST_ADDRESS);
    const destination = this.#field(HIGHEST_ADDRESS);
    const count = this.#field(MOST_IN_PIECES);
    if (Number.isNaN(priority + pgn + source + destination + count))
      return this.#damaged("time, priority, parameter group, source, destination and count of bytes");
    this.pgn = pgn;
    this.source = source;
    this.length = Math.min(count, MOST_BYTES);
    const kind = this.#readListed(count);
    return kind === "frame" && pgn > HIGHEST_PGN ? "other" : kind;
  }

  #readListed(count: number): LineKind {
    for (let index = 0; index < count; index++) {
      this.#skipSpaces();
      const start = this.#at;
      const digits = this.#hexadecimalDigits();
      this.#skipSpaces();
      const isLast = index === count - 1;
      const isEnded = isLast ? this.#isAtEnd() : this.#peek() === COMMA;
      if (digits < 1 || digits > 2 || !isEnded) return this.#damaged(`${count} bytes in hexadecimal digits`);
      this.data[index] = this.#hexadecimal(start, digits);
      this.#at++;
    }
    return "frame";
  }

  #damaged(expected: string): LineKind {
    this.expected = expected;
    this.isCut = this.#at >= this.#to;
    return "damaged";
  }

  #peek(): number | undefined {
    return this.#at < this.#to ? this.#bytes[this.#at] : undefined;
  }

  #isDigit(at: number): boolean {
    const digit = this.#bytes[at]! - ZERO;
    return at < this.#to && digit >= 0 && digit <= 9;
  }

  /** Whether nothing but spaces and one comma follows. */
  #isAtEnd(): boolean {
    let at = this.#at;
    if (at < this.#to && this.#bytes[at] === COMMA) at++;
    while (at < this.#to && isSpace(this.#bytes[at])) at++;
    return at === this.#to;
  }

  #isBeforeSquare(): boolean {
    let at = this.#at;
    while (at < this.#to && isSpace(this.#bytes[at])) at++;
    return at < this.#to && this.#bytes[at] === OPEN_SQUARE;
  }

  #skipSpaces(): void {
    while (this.#at < this.#to && isSpace(this.#bytes[this.#at])) this.#at++;
  }

  #skipWord(): void {
    while (this.#at < this.#to && !isSpace(this.#bytes[this.#at])) this.#at++;
  }

  /** Steps over a run of hexadecimal digits; returns how many. */
  #hexadecimalDigits(): number {
    const start = this.#at;
    while (this.#at < this.#to && HEXADECIMAL_DIGITS[this.#bytes[this.#at]!]! >= 0) this.#at++;
    return this.#at - start;
  }

  #hexadecimal(start: number, digits: number): number {
    let value = 0;
    for (let at = start; at < start + digits; at++)
      value = value * 16 + HEXADECIMAL_DIGITS[this.#bytes[at]!]!;
    return value;
  }

  /** A whole number of at most six digits up to a highest; NaN where there is none. */
  #decimal(highest: number): number {
    const start = this.#at;
    let value = 0;
    while (this.#isDigit(this.#at) && this.#at < start + 6)
      value = value * 10 + this.#bytes[this.#at++]! - ZERO;
    return this.#at === start || value > highest ? Number.NaN : value;
  }

  /** The whole number of the next field, whose comma is stepped over. */
  #field(highest: number): number {
    this.#skipSpaces();
    const value = this.#decimal(highest);
    this.#skipSpaces();
    const isEnded = this.#peek() === COMMA;
    this.#at++;
    return isEnded ? value : Number.NaN;
  }
}
