import { COMMA_PLACES, LONGEST_LINE, SentenceFields } from "./sentenceFields.ts";

const [TAB, LINE_FEED, CARRIAGE_RETURN, SPACE] = [0x09, 0x0a, 0x0d, 0x20];
const [EXCLAMATION_MARK, DOLLAR, STAR, COMMA] = [0x21, 0x24, 0x2a, 0x2c];

const LAST_OF_ASCII = 0x7f;

/** Keeps the count of commas within their array in lines that prove too long. */
const COMMA_MASK = COMMA_PLACES - 1;

const isLineEnd = (byte: number): boolean => byte === LINE_FEED || byte === CARRIAGE_RETURN;

/** The last line end from a place on; −1 where there is none. */
function lastLineEnd(bytes: Uint8Array, from: number): number {
  let at = bytes.length - 1;
  while (at >= from && !isLineEnd(bytes[at]!)) at--;
  return at >= from ? at : -1;
}

/**
 * Cuts a stream of bytes into lines (ended by LF, CR or both) and, in the same pass, each line's sentence into fields.
 * Lines are looked at where they lie in the chunk; only one that spans chunks is copied, up to the longest line's
 * length, so that an endless line takes no memory. Never throws.
 */
export class LineScanner {
  /** The fields of the line's last sentence. */
  readonly fields = new SentenceFields();
  /** Where the line lies in `fields.bytes`. */
  from = 0;
  to = 0;
  /** The place after the last `$` or `!`; −1 where there is none. */
  sentence = -1;
  /** Whether the sentence began with `!`, as those do that pack bits into letters. */
  isPacked = false;
  /** The place of the `*` before the checksum; −1 where there is none. */
  star = -1;
  /** M30. Exclusive or of the bytes from the sentence's start up to the `*`. */
  sum = 0;
  isTooLong = false;

  readonly #onLine: () => void;
  /** A line begun in an earlier chunk, with room for its end; its whole length so far. */
  readonly #carry = new Uint8Array(LONGEST_LINE + 2);
  #carried = 0;
  #endedByReturn = false;

  /** @param onLine called once for each line, while this object describes it */
  constructor(onLine: () => void) {
    this.#onLine = onLine;
  }

  push(bytes: Uint8Array): void {
    let at = 0;
    if (this.#endedByReturn && bytes.length > 0) {
      if (bytes[0] === LINE_FEED) at = 1;
      this.#endedByReturn = false;
    }
    if (this.#carried > 0) at = this.#endCarried(bytes, at);
    const last = lastLineEnd(bytes, at);
    while (at <= last) {
      const end = this.#scan(bytes, at);
      this.#describe(at, end);
      at = this.#next(bytes, end);
    }
    this.#append(bytes, at, bytes.length);
  }

  /** Ends the stream; what follows the last line end is a line too. */
  finish(): void {
    if (this.#carried > 0) this.#handOnCarried();
  }

  /** The place after a line end, CR LF being one. */
  #next(bytes: Uint8Array, end: number): number {
    const next = end + 1;
    if (bytes[end] === LINE_FEED) return next;
    this.#endedByReturn = next === bytes.length;
    return next < bytes.length && bytes[next] === LINE_FEED ? next + 1 : next;
  }

  #endCarried(bytes: Uint8Array, from: number): number {
    let end = from;
    while (end < bytes.length && !isLineEnd(bytes[end]!)) end++;
    this.#append(bytes, from, end);
    if (end === bytes.length) return end;
    this.#handOnCarried();
    return this.#next(bytes, end);
  }

  #append(bytes: Uint8Array, from: number, to: number): void {
    const kept = Math.min(this.#carried, this.#carry.length);
    this.#carry.set(bytes.subarray(from, Math.min(to, from + this.#carry.length - kept)), kept);
    this.#carried += to - from;
  }

  #handOnCarried(): void {
    const length = Math.min(this.#carried, LONGEST_LINE + 1);
    this.#carried = 0;
    this.#carry[length] = LINE_FEED;
    this.#scan(this.#carry, 0);
    this.#describe(0, length);
  }

  #describe(from: number, to: number): void {
    this.from = from;
    this.to = to;
    this.isTooLong = to - from > LONGEST_LINE;
    this.#onLine();
  }

  /** Whether the line holds bytes that text does not. */
  get isBinary(): boolean {
    const { bytes } = this.fields;
    for (let at = this.from; at < this.to; at++) {
      const byte = bytes[at]!;
      if (byte > LAST_OF_ASCII || (byte < SPACE && byte !== TAB)) return true;
    }
    return false;
  }

  /** Scans a line, which has an end, and returns where that is. */
  #scan(bytes: Uint8Array, from: number): number {
    const commas = this.fields.commas;
    let sentence = -1;
    let isPacked = false;
    let star = -1;
    let sum = 0;
    let sumBeforeStar = 0;
    let count = 0;
    let countBeforeStar = 0;
    let at = from;
    for (; ; at++) {
      let byte = bytes[at]!;
      while (byte > COMMA) {
        sum ^= byte;
        byte = bytes[++at]!;
      }
      if (byte === COMMA) commas[count++ & COMMA_MASK] = at;
      else if (byte === LINE_FEED || byte === CARRIAGE_RETURN) break;
      else if (byte === STAR && star < 0) {
        star = at;
        sumBeforeStar = sum;
        countBeforeStar = count;
      } else if (byte === DOLLAR || byte === EXCLAMATION_MARK) {
        sentence = at + 1;
        isPacked = byte === EXCLAMATION_MARK;
        star = -1;
        sum = 0;
        count = 0;
        continue;
      }
      sum ^= byte;
    }
    const fields = this.fields;
    fields.bytes = bytes;
    fields.expected = "";
    fields.count = star >= 0 ? countBeforeStar : count;
    commas[fields.count & COMMA_MASK] = star >= 0 ? star : at;
    this.sentence = sentence;
    this.isPacked = isPacked;
    this.star = star;
    this.sum = sumBeforeStar;
    return at;
  }
}
