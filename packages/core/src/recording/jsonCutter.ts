const [LINE_FEED, CARRIAGE_RETURN, TAB, SPACE] = [0x0a, 0x0d, 0x09, 0x20];
const [QUOTE, COMMA, OPEN_LIST, BACKSLASH, CLOSE_LIST] = [0x22, 0x2c, 0x5b, 0x5c, 0x5d];
const [OPEN, CLOSE] = [0x7b, 0x7d];

/** The three bytes of a mark that some programs put before text in UTF-8. */
const BYTE_ORDER_MARK = new Set([0xef, 0xbb, 0xbf]);

/** A piece of a stream: a whole object, text that belongs to none, or an object that the end of its line cut off. */
export type JsonPiece = "object" | "stray" | "cut";

/**
 * Told of each piece: where it lies among bytes, the line in which it begins, counted from 1, and whether it is longer than what
 * of it is here.
 */
export type JsonCutterListener = (
  piece: JsonPiece,
  bytes: Uint8Array,
  from: number,
  to: number,
  line: number,
  isTooLong: boolean,
) => void;

/** What stands between objects: spaces, and what makes a list of them. */
const isBetween = (byte: number): boolean =>
  byte === SPACE ||
  byte === TAB ||
  byte === CARRIAGE_RETURN ||
  byte === COMMA ||
  byte === OPEN_LIST ||
  byte === CLOSE_LIST;

/**
 * Cuts a stream of bytes into JSON objects: one a line, several a line, or the members of one list, which may be spread over
 * lines. Where the first object ends within its line, so must all others: what is cut there is told, and reading goes on with
 * the next line. An endless object takes no memory beyond a bound. Never throws.
 */
export class JsonCutter {
  readonly #longest: number;
  readonly #onPiece: JsonCutterListener;
  #carry = new Uint8Array(1024);
  #carried = 0;
  #state: "between" | "object" | "stray" = "between";
  #depth = 0;
  #isInText = false;
  #isEscaped = false;
  /** Whether objects end within their line; undefined until the first one tells. */
  #isLines: boolean | undefined;
  #line = 1;
  #pieceLine = 1;
  #isAtStart = true;

  constructor(longest: number, onPiece: JsonCutterListener) {
    this.#longest = longest;
    this.#onPiece = onPiece;
  }

  push(bytes: Uint8Array): void {
    let start = this.#state === "between" ? -1 : 0;
    for (let at = 0; at < bytes.length; at++) {
      const byte = bytes[at]!;
      if (this.#state === "between") {
        if (this.#begins(byte)) start = at;
      } else if (this.#ends(byte)) {
        const isObject = this.#state === "object" && byte === CLOSE;
        this.#handOn(
          isObject ? "object" : this.#state === "object" ? "cut" : "stray",
          bytes,
          start,
          isObject ? at + 1 : at,
        );
        start = -1;
      }
      if (byte === LINE_FEED) this.#line++;
    }
    if (start >= 0) this.#keep(bytes, start, bytes.length);
  }

  /** Ends the stream; what was begun is cut. */
  finish(): void {
    if (this.#state === "between") return;
    this.#handOn(this.#state === "object" ? "cut" : "stray", new Uint8Array(0), 0, 0);
  }

  /** Whether a byte between objects begins a piece. */
  #begins(byte: number): boolean {
    if (this.#isAtStart && BYTE_ORDER_MARK.has(byte)) return false;
    this.#isAtStart = false;
    if (byte === LINE_FEED || isBetween(byte)) return false;
    this.#state = byte === OPEN ? "object" : "stray";
    this.#pieceLine = this.#line;
    this.#depth = 1;
    this.#isInText = false;
    this.#isEscaped = false;
    return true;
  }

  /** Whether a byte ends the piece that is under way; the brace that closes an object belongs to it, a line feed to none. */
  #ends(byte: number): boolean {
    if (this.#state === "stray") return byte === LINE_FEED;
    if (byte === LINE_FEED) {
      this.#isLines ??= false;
      return this.#isLines;
    }
    if (this.#isInText) this.#readText(byte);
    else if (byte === QUOTE) this.#isInText = true;
    else if (byte === OPEN) this.#depth++;
    else if (byte === CLOSE) this.#depth--;
    if (this.#depth > 0) return false;
    this.#isLines ??= true;
    return true;
  }

  #readText(byte: number): void {
    if (this.#isEscaped) this.#isEscaped = false;
    else if (byte === BACKSLASH) this.#isEscaped = true;
    else if (byte === QUOTE) this.#isInText = false;
  }

  #handOn(piece: JsonPiece, bytes: Uint8Array, from: number, to: number): void {
    this.#state = "between";
    if (this.#carried === 0) {
      this.#onPiece(piece, bytes, from, to, this.#pieceLine, to - from > this.#longest);
      return;
    }
    this.#keep(bytes, from, to);
    const length = this.#carried;
    this.#carried = 0;
    this.#onPiece(
      piece,
      this.#carry,
      0,
      Math.min(length, this.#longest),
      this.#pieceLine,
      length > this.#longest,
    );
  }

  /** Keeps part of a piece, up to one byte more than may be of use. */
  #keep(bytes: Uint8Array, from: number, to: number): void {
    const kept = Math.min(this.#carried, this.#longest + 1);
    const part = bytes.subarray(from, Math.min(to, from + this.#longest + 1 - kept));
    if (kept + part.length > this.#carry.length) this.#grow(kept + part.length);
    this.#carry.set(part, kept);
    this.#carried += to - from;
  }

  #grow(needed: number): void {
    const grown = new Uint8Array(Math.max(needed, 2 * this.#carry.length));
    grown.set(this.#carry);
    this.#carry = grown;
  }
}
