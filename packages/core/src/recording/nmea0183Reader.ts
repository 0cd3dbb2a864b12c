import { SECONDS_IN_A_DAY } from "./calendar.ts";
import { LineCutter } from "./lineCutter.ts";
import { LineScanner } from "./lineScanner.ts";
import { lineStamp } from "./lineStamp.ts";
import { LogBytes } from "./logBytes.ts";
import { RANK } from "./logClock.ts";
import type { LogReader, LogReaderOptions } from "./logReader.ts";
import { isHexadecimalPair, SUM_LENGTH } from "./nmea0183Checksum.ts";
import { printable } from "./problemList.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
import { RecordLedger } from "./recordLedger.ts";
import { LONGEST_LINE } from "./sentenceFields.ts";
import { OriginBook, type SentenceOrigin } from "./sentenceOrigin.ts";
import { SentenceReader } from "./sentenceReader.ts";
import { SourceList } from "./sourceList.ts";
import { hasTagBlock, type TagBlock, tagBlock } from "./tagBlock.ts";
import { withoutZeroRuns } from "./zeroRuns.ts";

/** Stamps of lines have one origin, whatever the sentence. */
const LINE_STAMP = -2;

const NUMBER_SIGN = 0x23;

const NO_TAGS: TagBlock = { time: Number.NaN, source: "" };

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
  readonly #line = new LineScanner();
  readonly #cutter = new LineCutter(
    LONGEST_LINE,
    (bytes, from) => this.#readLine(bytes, from),
    withoutZeroRuns,
  );
  readonly #bytes = new LogBytes((plain) => this.#cutter.push(plain));
  readonly #ledger: RecordLedger;
  readonly #sentence: SentenceReader;
  /** What the tag blocks of the line that is being read tell. */
  #tags = NO_TAGS;
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
    this.#cutter.finish();
    return this.#ledger.finish(this.#bytes.fault);
  }

  /** Reads the line that begins at a place, and returns where it ends. */
  #readLine(bytes: Uint8Array, from: number): number {
    const end = this.#line.scan(bytes, from);
    this.#ledger.begin();
    if (this.#tags !== NO_TAGS) this.#tags = NO_TAGS;
    if (this.#line.isPlain) this.#readPlain();
    else this.#readOther();
    return end;
  }

  #readOther(): void {
    const line = this.#line;
    if (line.isTooLong) this.#ledger.fault("too long", `at most ${LONGEST_LINE} characters in a line`);
    else if (line.sentence < 0) this.#readText();
    else if (!this.#readTags()) this.#ledger.fault("checksum", "a whole tag block with its checksum");
    else if (line.star < 0) this.#readUnchecked();
    else if (line.isSound) this.#readChecked();
    else if (line.isBinary) this.#ledger.fault("binary", "text");
    else
      this.#ledger.fault(
        "checksum",
        `checksum ${line.fields.sum.toString(16).toUpperCase().padStart(2, "0")}`,
      );
  }

  /** Reads the tag blocks at the head of the line; false where they are damaged. */
  #readTags(): boolean {
    const { fields, from, sentence } = this.#line;
    if (!hasTagBlock(fields.bytes, from)) return true;
    const tags = tagBlock(fields.bytes, from, sentence - 1);
    if (tags) this.#tags = tags;
    return tags !== undefined;
  }

  #origin(): SentenceOrigin | undefined {
    const { fields, sentence, isPacked } = this.#line;
    return isPacked ? undefined : this.#origins.originAt(fields.bytes, sentence, this.#tags.source);
  }

  /** A line without a sentence: empty, a comment, words of the logger, or the tail of a sentence. */
  #readText(): void {
    const { from, to, star, isBinary, fields } = this.#line;
    if (from === to || fields.bytes[from] === NUMBER_SIGN) return;
    if (isBinary) this.#ledger.fault("binary", "text");
    else if (star >= 0 && star + SUM_LENGTH <= to && isHexadecimalPair(fields.bytes, star + 1))
      this.#ledger.fault("cut", "a whole sentence");
  }

  /** A sentence without a checksum: read if its talker never sends one, else its end is missing. */
  #readUnchecked(): void {
    const origin = this.#origin();
    if (this.#line.isBinary) this.#ledger.fault("binary", "text");
    else if (origin?.hasChecksums)
      this.#ledger.fault("cut", "a checksum, as this talker's other sentences have");
    else if (origin) {
      const isUsed = this.#readSentence(origin);
      if (isUsed) this.#withoutChecksum++;
    }
  }

  /** A line that is one sentence and nothing else, its checksum right. */
  #readPlain(): void {
    const origin = this.#origin();
    if (origin) origin.hasChecksums = true;
    this.#readSentence(origin);
  }

  #readChecked(): void {
    const { fields, from, sentence } = this.#line;
    if (sentence - 2 >= from && fields.bytes[sentence - 2] === 0)
      this.#ledger.noteHere("binary", "no zero bytes before a sentence; the sentence itself was read");
    this.#readPlain();
  }

  /** Reads a sentence that is whole: its readings, its time, and that of its line; true where it was used. */
  #readSentence(origin: SentenceOrigin | undefined): boolean {
    const ledger = this.#ledger;
    if (origin) this.#sentence.read(origin);
    if (this.#line.fields.expected !== "") {
      ledger.fault("field", this.#line.fields.expected);
      return false;
    }
    const isTimed = origin !== undefined && !Number.isNaN(this.#sentence.timeOfDay);
    if (!this.#line.isPlain) this.#readLineTime();
    if (isTimed) this.#readTime(origin);
    const isUsed = isTimed || ledger.rows.hasReadings;
    return ledger.end(isTimed) && isUsed;
  }

  /** The time that stands before or behind the sentence in its line. */
  #readLineTime(): void {
    const { fields, from, to, sentence, star } = this.#line;
    if (!Number.isNaN(this.#tags.time)) {
      this.#ledger.stamp("utc", this.#tags.time, RANK.line, LINE_STAMP);
      return;
    }
    const tail = star >= 0 ? star + SUM_LENGTH : to;
    if (sentence - 1 === from && tail >= to) return;
    const stamp = lineStamp(fields.bytes, from, sentence - 1) ?? lineStamp(fields.bytes, tail, to);
    if (stamp !== undefined) this.#ledger.stamp(stamp.kind, stamp.seconds, RANK.line, LINE_STAMP);
  }

  /** The sentence's own time. */
  #readTime(origin: SentenceOrigin): void {
    const { timeOfDay, day } = this.#sentence;
    if (Number.isNaN(day)) this.#ledger.stamp("utcTimeOfDay", timeOfDay, RANK.timeOfDay, origin.id);
    else this.#ledger.stamp("utc", day * SECONDS_IN_A_DAY + timeOfDay, RANK.dated, origin.id);
  }
}
