import { isBinaryText } from "./binaryText.ts";
import { isLineEnd } from "./lineCutter.ts";
import { isSumAt, SUM_LENGTH } from "./nmea0183Checksum.ts";
import { plainScan } from "./plainScan.ts";
import { COMMA_MASK, LONGEST_LINE, SentenceFields } from "./sentenceFields.ts";
import { withoutZeroRuns } from "./zeroRuns.ts";

const [EXCLAMATION_MARK, DOLLAR, STAR, COMMA] = [0x21, 0x24, 0x2a, 0x2c];

/** The place of the next byte that begins a sentence, ends the line or is zero. */
function textEnd(bytes: Uint8Array, from: number): number {
  for (let at = from; ; at++) {
    while (bytes[at]! > DOLLAR) at++;
    const byte = bytes[at]!;
    if (byte === DOLLAR || byte === EXCLAMATION_MARK || byte === 0 || isLineEnd(byte)) return at;
  }
}

/**
 * Scans lines: in one pass a line's sentence is cut into fields and its checksum reckoned. A run of zero bytes counts as one.
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
  /** Whether the sentence has its right checksum. */
  isSound = false;
  /** Whether the line is a sound sentence and nothing else. */
  isPlain = false;
  /** Whether the line that was scanned last holds zero bytes. */
  #hasZeros = false;

  /** Scans the line that begins at a place and has an end, and returns where that is. */
  scan(bytes: Uint8Array, from: number): number {
    const start = bytes[from] === DOLLAR ? from : textEnd(bytes, from);
    const stop = bytes[start] === DOLLAR ? plainScan(bytes, start, this.fields) : -1;
    if (stop < 0) return this.#scanAny(bytes, from);
    const star = bytes[stop] === STAR ? stop : -1;
    this.isSound = star >= 0 && isSumAt(this.fields.sum, bytes, star + 1);
    const end =
      this.isSound && isLineEnd(bytes[stop + SUM_LENGTH]!) ? stop + SUM_LENGTH : textEnd(bytes, stop);
    if (!isLineEnd(bytes[end]!)) return this.#scanAny(bytes, from);
    this.from = from;
    this.to = end;
    this.sentence = start + 1;
    this.isPacked = false;
    this.star = star;
    this.isPlain = this.isSound && start === from && end === stop + SUM_LENGTH && !this.isTooLong;
    return end;
  }

  get isTooLong(): boolean {
    return this.to - this.from > LONGEST_LINE;
  }

  /** Whether the line holds bytes that text does not. */
  get isBinary(): boolean {
    return isBinaryText(this.fields.bytes, this.from, this.to);
  }

  /** Scans a line of any kind; what is told of one with runs of zero bytes is of a copy without. */
  #scanAny(bytes: Uint8Array, from: number): number {
    this.isPlain = false;
    const end = this.#scan(bytes, from);
    if (this.#hasZeros) this.#scan(withoutZeroRuns(bytes.slice(from, end + 1)), 0);
    return end;
  }

  /** Scans a line by bytes alone. */
  #scan(bytes: Uint8Array, from: number): number {
    const { commas, numbers } = this.fields;
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
      if (byte === COMMA) {
        numbers[count & COMMA_MASK] = Number.NaN;
        commas[count++ & COMMA_MASK] = at;
      } else if (isLineEnd(byte)) break;
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
    const last = star >= 0 ? countBeforeStar : count;
    numbers[last & COMMA_MASK] = Number.NaN;
    this.fields.describe(bytes, last, star >= 0 ? star : at);
    this.from = from;
    this.to = at;
    this.sentence = sentence;
    this.isPacked = isPacked;
    this.star = star;
    this.fields.sum = sumBeforeStar;
    this.isSound = star >= 0 && star + SUM_LENGTH <= at && isSumAt(sumBeforeStar, bytes, star + 1);
    this.#hasZeros = hasZeros;
    return at;
  }
}
