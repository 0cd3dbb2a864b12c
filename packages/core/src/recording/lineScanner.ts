import { isBinaryText } from "./binaryText.ts";
import { isLineEnd, LineCutter } from "./lineCutter.ts";
import { isSumAt } from "./nmea0183Checksum.ts";
import { COMMA_PLACES, LONGEST_LINE, SentenceFields } from "./sentenceFields.ts";
import { withoutZeroRuns } from "./zeroRuns.ts";

const [EXCLAMATION_MARK, DOLLAR, STAR, COMMA] = [0x21, 0x24, 0x2a, 0x2c];

/** Keeps the count of commas within their array in lines that prove too long. */
const COMMA_MASK = COMMA_PLACES - 1;

/** The star and two digits of a checksum. */
const SUM_LENGTH = 3;

/**
 * Cuts a stream of bytes into lines and, in the same pass, each line's sentence into fields. Runs of zero bytes count as one.
 * Never throws.
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
  /** Whether the line is one sentence with its right checksum and nothing else, the usual case; else the others tell. */
  isPlain = false;

  readonly #onLine: () => void;
  /** Whether the line that was scanned holds zero bytes. */
  #hasZeros = false;
  readonly #cutter = new LineCutter(
    LONGEST_LINE,
    (bytes, from) => {
      let end = this.#scanPlain(bytes, from);
      this.isPlain = end >= 0;
      if (end < 0) end = this.#scanAny(bytes, from);
      else this.#place(from, end);
      this.#onLine();
      return end;
    },
    withoutZeroRuns,
  );

  /** @param onLine called once for each line, while this object describes it */
  constructor(onLine: () => void) {
    this.#onLine = onLine;
  }

  push(bytes: Uint8Array): void {
    this.#cutter.push(bytes);
  }

  /** Ends the stream; what follows the last line end is a line too. */
  finish(): void {
    this.#cutter.finish();
  }

  #place(from: number, to: number): void {
    this.from = from;
    this.to = to;
    this.isTooLong = to - from > LONGEST_LINE;
  }

  /** Whether the line holds bytes that text does not. */
  get isBinary(): boolean {
    return isBinaryText(this.fields.bytes, this.from, this.to);
  }

  /** Scans a line that is a plain sentence, and returns where its end is; −1 where the line is anything else. */
  #scanPlain(bytes: Uint8Array, from: number): number {
    if (bytes[from] !== DOLLAR) return -1;
    const { commas } = this.fields;
    let sum = 0;
    let count = 0;
    // `| 0` keeps the place a whole number of the processor's for the compiler, which makes it a double otherwise
    let at = (from + 1) | 0;
    for (; ; at = (at + 1) | 0) {
      let byte = bytes[at]!;
      while (byte > COMMA) {
        sum ^= byte;
        at = (at + 1) | 0;
        byte = bytes[at]!;
      }
      if (byte !== COMMA) break;
      commas[count++ & COMMA_MASK] = at;
      sum ^= byte;
    }
    const end = at + SUM_LENGTH;
    const isPlain = bytes[at] === STAR && isSumAt(sum, bytes, at + 1) && isLineEnd(bytes[end]!);
    if (!isPlain || end - from > LONGEST_LINE) return -1;
    this.#describe(bytes, count, at);
    this.sentence = from + 1;
    this.isPacked = false;
    this.star = at;
    this.sum = sum;
    return end;
  }

  /** Scans a line of any kind, which has an end, and returns where that is. */
  #scanAny(bytes: Uint8Array, from: number): number {
    const end = this.#scan(bytes, from);
    this.#place(from, end);
    if (!this.#hasZeros) return end;
    const line = withoutZeroRuns(bytes.slice(from, end + 1));
    this.#place(0, this.#scan(line, 0));
    return end;
  }

  /** What both ways of scanning tell of the fields. @param end where the last field ends */
  #describe(bytes: Uint8Array, count: number, end: number): void {
    const fields = this.fields;
    if (fields.bytes !== bytes) fields.bytes = bytes;
    fields.expected = "";
    fields.count = count;
    fields.commas[count & COMMA_MASK] = end;
  }

  #scan(bytes: Uint8Array, from: number): number {
    const { commas } = this.fields;
    let sentence = -1;
    let isPacked = false;
    let star = -1;
    let sum = 0;
    let sumBeforeStar = 0;
    let count = 0;
    let countBeforeStar = 0;
    let hasZeros = false;
    let at = from | 0;
    for (; ; at = (at + 1) | 0) {
      let byte = bytes[at]!;
      while (byte > COMMA) {
        sum ^= byte;
        at = (at + 1) | 0;
        byte = bytes[at]!;
      }
      if (byte === COMMA) commas[count++ & COMMA_MASK] = at;
      else if (isLineEnd(byte)) break;
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
      } else if (byte === 0) hasZeros = true;
      sum ^= byte;
    }
    this.#describe(bytes, star >= 0 ? countBeforeStar : count, star >= 0 ? star : at);
    this.sentence = sentence;
    this.isPacked = isPacked;
    this.star = star;
    this.sum = sumBeforeStar;
    this.#hasZeros = hasZeros;
    return at;
  }
}
