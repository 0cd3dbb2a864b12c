import { SECONDS_IN_A_DAY } from "./calendar.ts";
import { LineScanner } from "./lineScanner.ts";
import { lineStamp } from "./lineStamp.ts";
import { LogBytes } from "./logBytes.ts";
import { RANK } from "./logClock.ts";
import type { LogReader, LogReaderOptions } from "./logReader.ts";
import { printable } from "./problemList.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
import { RecordLedger } from "./recordLedger.ts";
import { LONGEST_LINE } from "./sentenceFields.ts";
import { OriginBook, type SentenceOrigin } from "./sentenceOrigin.ts";
import { SentenceReader } from "./sentenceReader.ts";
import { SourceList } from "./sourceList.ts";

/** Stamps at the head of lines have one origin, whatever the sentence. */
const LINE_HEAD = -2;

const NUMBER_SIGN = 0x23;

/** Values of hexadecimal digits by their codes; NaN for what is none. */
const HEXADECIMAL = Float64Array.from({ length: 256 }, (_, code) =>
  /[0-9A-Fa-f]/.test(String.fromCharCode(code)) ? Number.parseInt(String.fromCharCode(code), 16) : Number.NaN,
);

/**
 * Reads an NMEA 0183 log, plain or gzip (told by its first bytes), from chunks of any size: the readings are the same,
 * bit for bit, however the log is cut. Sentences with a wrong checksum (M30), faulty fields or times that cannot be
 * placed (M33) are problems, never readings; empty fields and values marked invalid make no reading. Sentences without
 * a checksum are taken from talkers that never send one. Never throws.
 *
 * @example
 * const reader = new Nmea0183Reader({ file: "afternoon.nmea" });
 * for (const chunk of chunks) for (const readings of reader.push(chunk)) use(readings, reader.sources);
 * for (const readings of reader.finish()) use(readings, reader.sources);
 */
export class Nmea0183Reader implements LogReader {
  readonly #sources: SourceList;
  readonly #origins: OriginBook;
  readonly #line = new LineScanner(() => this.#readLine());
  readonly #bytes = new LogBytes((plain) => this.#line.push(plain));
  readonly #ledger: RecordLedger;
  readonly #sentence: SentenceReader;
  #withoutChecksum = 0;

  constructor(options: LogReaderOptions) {
    this.#sources = options.sources ?? new SourceList();
    this.#origins = new OriginBook(this.#sources);
    this.#ledger = new RecordLedger({
      file: options.file,
      received: () => printable(this.#line.fields.bytes, this.#line.from, this.#line.to),
      dated: "a sentence that tells date and UTC (RMC or ZDA)",
    });
    this.#sentence = new SentenceReader(this.#ledger.rows, this.#line.fields);
  }

  get sources(): readonly Source[] {
    return this.#sources.sources;
  }

  get lines(): LineCount {
    return this.#ledger.lines;
  }

  get problems(): readonly Problem[] {
    return this.#ledger.problems;
  }

  get problemCounts(): Readonly<Record<Problem["kind"], number>> {
    return this.#ledger.problemCounts;
  }

  /** Lines used though they had no checksum. */
  get withoutChecksum(): number {
    return this.#withoutChecksum;
  }

  push(chunk: Uint8Array): Readings[] {
    this.#bytes.push(chunk);
    return this.#ledger.rows.take();
  }

  finish(): Readings[] {
    this.#bytes.finish();
    this.#line.finish();
    return this.#ledger.finish(this.#bytes.fault);
  }

  #readLine(): void {
    const line = this.#line;
    this.#ledger.begin();
    if (line.isTooLong) this.#ledger.fault("too long", `at most ${LONGEST_LINE} characters in a line`);
    else if (line.sentence < 0) this.#readText();
    else if (line.star < 0) this.#readUnchecked();
    else if (this.#checksumOf(line.star) === line.sum) this.#readChecked();
    else if (line.isBinary) this.#ledger.fault("binary", "text");
    else this.#ledger.fault("checksum", `checksum ${line.sum.toString(16).toUpperCase().padStart(2, "0")}`);
  }

  /** A line without a sentence: empty, a comment, words of the logger, or the tail of a sentence. */
  #readText(): void {
    const { from, to, star, isBinary, fields } = this.#line;
    if (from === to || fields.bytes[from] === NUMBER_SIGN) return;
    if (isBinary) this.#ledger.fault("binary", "text");
    else if (star >= 0 && !Number.isNaN(this.#checksumOf(star)))
      this.#ledger.fault("cut", "a whole sentence");
  }

  /** A sentence without a checksum: read if its talker never sends one, else its end is missing. */
  #readUnchecked(): void {
    const { fields, sentence, isBinary, isPacked } = this.#line;
    const origin = isPacked ? undefined : this.#origins.originAt(fields.bytes, sentence);
    if (isBinary) this.#ledger.fault("binary", "text");
    else if (origin?.hasChecksums)
      this.#ledger.fault("cut", "a checksum, as this talker's other sentences have");
    else if (origin) {
      const isUsed = this.#readSentence(origin);
      if (isUsed) this.#withoutChecksum++;
    }
  }

  #readChecked(): void {
    const { fields, sentence, isPacked } = this.#line;
    const origin = isPacked ? undefined : this.#origins.originAt(fields.bytes, sentence);
    if (origin) origin.hasChecksums = true;
    this.#readSentence(origin);
  }

  /** The two hexadecimal digits after a `*`; NaN where they are not there. */
  #checksumOf(star: number): number {
    const { bytes } = this.#line.fields;
    if (star + 3 > this.#line.to) return Number.NaN;
    return HEXADECIMAL[bytes[star + 1]!]! * 16 + HEXADECIMAL[bytes[star + 2]!]!;
  }

  /** Reads a sentence that is whole: its readings, its time, and the time before it in the line; true where it was used. */
  #readSentence(origin: SentenceOrigin | undefined): boolean {
    const ledger = this.#ledger;
    if (origin) this.#sentence.read(origin);
    if (this.#line.fields.expected !== "") {
      ledger.fault("field", this.#line.fields.expected);
      return false;
    }
    const isTimed = origin !== undefined && !Number.isNaN(this.#sentence.timeOfDay);
    if (this.#line.sentence - 1 > this.#line.from) this.#readHead();
    if (isTimed) this.#readTime(origin);
    const isUsed = isTimed || ledger.rows.hasReadings;
    return ledger.end(isTimed) && isUsed;
  }

  /** The time before the sentence. */
  #readHead(): void {
    const { fields, from, sentence } = this.#line;
    const stamp = lineStamp(fields.bytes, from, sentence - 1);
    if (stamp !== undefined) this.#ledger.stamp(stamp.kind, stamp.seconds, RANK.line, LINE_HEAD);
  }

  /** The sentence's own time. */
  #readTime(origin: SentenceOrigin): void {
    const { timeOfDay, day } = this.#sentence;
    if (Number.isNaN(day)) this.#ledger.stamp("utcTimeOfDay", timeOfDay, RANK.timeOfDay, origin.id);
    else this.#ledger.stamp("utc", day * SECONDS_IN_A_DAY + timeOfDay, RANK.dated, origin.id);
  }
}
