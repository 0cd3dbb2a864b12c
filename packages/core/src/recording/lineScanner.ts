import { LONGEST_LINE, SentenceFields } from "./sentenceFields.ts";

const [TAB, LINE_FEED, CARRIAGE_RETURN, SPACE] = [0x09, 0x0a, 0x0d, 0x20];
const [EXCLAMATION_MARK, DOLLAR, STAR, COMMA] = [0x21, 0x24, 0x2a, 0x2c];

/** Bytes of no ASCII text have this bit. */
const HIGH_BIT = 0x80;

const isLineEnd = (byte: number): boolean => byte === LINE_FEED || byte === CARRIAGE_RETURN;

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
  /** Whether bytes occur that text does not hold. */
  isBinary = false;
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
    while (at < bytes.length) {
      const end = this.#scan(bytes, at, bytes.length);
      if (end === bytes.length) {
        this.#append(bytes, at, end);
        return;
      }
      this.#describe(at, end);
      at = this.#next(bytes, end);
    }
  }

  /** Ends the stream; what follows the last line end is a line too. */
  finish(): void {
    if (this.#carried > 0) this.#handOnCarried();
  }

  /** The place after a line end, CR LF being one. */
  #next(bytes: Uint8Array, end: number): number {
    if (bytes[end] === LINE_FEED) return end + 1;
    this.#endedByReturn = end + 1 === bytes.length;
    return bytes[end + 1] === LINE_FEED ? end + 2 : end + 1;
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
    const length = Math.min(this.#carried, this.#carry.length);
    this.#carried = 0;
    this.#scan(this.#carry, 0, length);
    this.#describe(0, length);
  }

  #describe(from: number, to: number): void {
    this.from = from;
    this.to = to;
    this.isTooLong = to - from > LONGEST_LINE;
    this.#onLine();
  }

  /** Scans a line up to its end or to a limit, and returns that place. */
  #scan(bytes: Uint8Array, from: number, limit: number): number {
    const commas = this.fields.commas;
    let [sentence, star, sum, sumBeforeStar, count, countBeforeStar, seen] = [-1, -1, 0, 0, 0, 0, 0];
    let isPacked = false;
    let at = from;
    for (; at < limit; at++) {
      const byte = bytes[at]!;
      if (byte > COMMA) {
        sum ^= byte;
        seen |= byte;
      } else if (byte === COMMA) {
        if (count <= LONGEST_LINE) commas[count++] = at;
        sum ^= byte;
      } else if (byte === STAR && star < 0) {
        star = at;
        sumBeforeStar = sum;
        countBeforeStar = count;
      } else if (byte === DOLLAR || byte === EXCLAMATION_MARK) {
        sentence = at + 1;
        star = -1;
        sum = 0;
        count = 0;
        isPacked = byte === EXCLAMATION_MARK;
      } else if (byte === LINE_FEED || byte === CARRIAGE_RETURN) break;
      else {
        sum ^= byte;
        if (byte < SPACE && byte !== TAB) seen |= HIGH_BIT;
      }
    }
    const hasStar = star >= 0;
    this.fields.bytes = bytes;
    this.fields.expected = "";
    this.fields.count = hasStar ? countBeforeStar : count;
    commas[this.fields.count] = hasStar ? star : at;
    this.sentence = sentence;
    this.isPacked = isPacked;
    this.star = star;
    this.sum = sumBeforeStar;
    this.isBinary = (seen & HIGH_BIT) !== 0;
    return at;
  }
}
