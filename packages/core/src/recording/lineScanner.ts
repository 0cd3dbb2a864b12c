import { isBinaryText } from "./binaryText.ts";
import { LineCutter } from "./lineCutter.ts";
import { COMMA_PLACES, LONGEST_LINE, SentenceFields } from "./sentenceFields.ts";

const [LINE_FEED, CARRIAGE_RETURN] = [0x0a, 0x0d];
const [EXCLAMATION_MARK, DOLLAR, STAR, COMMA] = [0x21, 0x24, 0x2a, 0x2c];

/** Keeps the count of commas within their array in lines that prove too long. */
const COMMA_MASK = COMMA_PLACES - 1;

/** Cuts a stream of bytes into lines and, in the same pass, each line's sentence into fields. Never throws. */
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
  readonly #cutter = new LineCutter(LONGEST_LINE, (bytes, from) => {
    const end = this.#scan(bytes, from);
    this.#describe(from, end);
    return end;
  });

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

  #describe(from: number, to: number): void {
    this.from = from;
    this.to = to;
    this.isTooLong = to - from > LONGEST_LINE;
    this.#onLine();
  }

  /** Whether the line holds bytes that text does not. */
  get isBinary(): boolean {
    return isBinaryText(this.fields.bytes, this.from, this.to);
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
    // `| 0` keeps the place a whole number of the processor's for the compiler, which makes it a double otherwise
    let at = from | 0;
    for (; ; at = (at + 1) | 0) {
      let byte = bytes[at]!;
      while (byte > COMMA) {
        sum ^= byte;
        at = (at + 1) | 0;
        byte = bytes[at]!;
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
    if (fields.bytes !== bytes) fields.bytes = bytes;
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
