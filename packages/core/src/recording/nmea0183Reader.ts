import type { Seconds } from "../units.ts";
import { SECONDS_IN_A_DAY } from "./calendar.ts";
import { GunzipStream, isGzip } from "./gunzipStream.ts";
import { LineScanner } from "./lineScanner.ts";
import { lineStamp } from "./lineStamp.ts";
import { LogClock, RANK } from "./logClock.ts";
import { PacedRows } from "./pacedRows.ts";
import { ProblemList, printable } from "./problemList.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
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

/** Seconds from 1970 to the year 9999. */
const LAST_DATE: Seconds = 253_402_300_799;

export interface Nmea0183ReaderOptions {
  /** Name of the log, for its problems. */
  readonly file: string;
  /** Sources known from other logs of the same recording; new ones are added. */
  readonly sources?: SourceList;
}

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
export class Nmea0183Reader {
  readonly #sources: SourceList;
  readonly #origins: OriginBook;
  readonly #problems: ProblemList;
  readonly #rows = new PacedRows();
  readonly #clock = new LogClock(this.#rows);
  readonly #line = new LineScanner(() => this.#readLine());
  readonly #sentence = new SentenceReader(this.#rows, this.#line.fields);
  /** The first bytes, until they tell whether the log is compressed. */
  #first = new Uint8Array(0);
  #gunzip: GunzipStream | undefined;
  #isOpen = false;
  #lines = 0;
  #used = 0;
  #faulty = 0;
  #withoutChecksum = 0;
  /** The line whose time leapt, until it is confirmed. */
  #leap = { count: 0, line: 0, received: "", isUsed: false };

  constructor(options: Nmea0183ReaderOptions) {
    this.#sources = options.sources ?? new SourceList();
    this.#origins = new OriginBook(this.#sources);
    this.#problems = new ProblemList(options.file);
  }

  /** All sources met so far; readings give their index. */
  get sources(): readonly Source[] {
    return this.#sources.sources;
  }

  /** Lines so far: used where they gave a reading or told the time. */
  get lines(): LineCount {
    const ignored = this.#lines - this.#used - this.#faulty;
    return { lines: this.#lines, used: this.#used, ignored, problems: this.#faulty };
  }

  /** The first hundred problems. Those of the log as a whole (compression, a date never told) are of no line. */
  get problems(): readonly Problem[] {
    return this.#problems.problems;
  }

  /** Problems of each kind, all of them. */
  get problemCounts(): Readonly<Record<Problem["kind"], number>> {
    return this.#problems.counts;
  }

  /** Lines used though they had no checksum. */
  get withoutChecksum(): number {
    return this.#withoutChecksum;
  }

  /** Reads on; returns the batches of readings that are complete. Memory grows with the chunk, not with the log. */
  push(chunk: Uint8Array): Readings[] {
    if (this.#isOpen) this.#read(chunk);
    else this.#open(chunk, false);
    return this.#rows.take();
  }

  /** Ends the log; returns what was left. */
  finish(): Readings[] {
    if (!this.#isOpen) this.#open(new Uint8Array(0), true);
    this.#gunzip?.finish();
    this.#line.finish();
    const fault = this.#gunzip?.fault ?? "";
    if (fault !== "")
      this.#problems.add("compression", Math.max(1, this.#lines), fault, "a whole gzip stream");
    this.#settle();
    return this.#rows.takeAll();
  }

  #open(chunk: Uint8Array, isLast: boolean): void {
    const bytes = new Uint8Array(this.#first.length + chunk.length);
    bytes.set(this.#first);
    bytes.set(chunk, this.#first.length);
    this.#first = bytes;
    if (bytes.length < 2 && !isLast) return;
    this.#first = new Uint8Array(0);
    this.#isOpen = true;
    if (isGzip(bytes[0], bytes[1])) this.#gunzip = new GunzipStream((plain) => this.#line.push(plain));
    this.#read(bytes);
  }

  #read(chunk: Uint8Array): void {
    if (this.#gunzip) this.#gunzip.push(chunk);
    else this.#line.push(chunk);
  }

  #readLine(): void {
    const line = this.#line;
    this.#lines++;
    if (line.isTooLong) this.#problem("too long", `at most ${LONGEST_LINE} characters in a line`);
    else if (line.sentence < 0) this.#readText();
    else if (line.star < 0) this.#readUnchecked();
    else if (this.#checksumOf(line.star) === line.sum) this.#readChecked();
    else if (line.isBinary) this.#problem("binary", "text");
    else this.#problem("checksum", `checksum ${line.sum.toString(16).toUpperCase().padStart(2, "0")}`);
  }

  /** A line without a sentence: empty, a comment, words of the logger, or the tail of a sentence. */
  #readText(): void {
    const { from, to, star, isBinary, fields } = this.#line;
    if (from === to || fields.bytes[from] === NUMBER_SIGN) return;
    if (isBinary) this.#problem("binary", "text");
    else if (star >= 0 && !Number.isNaN(this.#checksumOf(star))) this.#problem("cut", "a whole sentence");
  }

  /** A sentence without a checksum: read if its talker never sends one, else its end is missing. */
  #readUnchecked(): void {
    const { fields, sentence, isBinary, isPacked } = this.#line;
    const origin = isPacked ? undefined : this.#origins.originAt(fields.bytes, sentence);
    if (isBinary) this.#problem("binary", "text");
    else if (origin?.hasChecksums) this.#problem("cut", "a checksum, as this talker's other sentences have");
    else if (origin) {
      const before = this.#used;
      this.#readSentence(origin);
      this.#withoutChecksum += this.#used - before;
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

  /** Reads a sentence that is whole: its readings, its time, and the time that stands before it in the line. */
  #readSentence(origin: SentenceOrigin | undefined): void {
    const rows = this.#rows;
    rows.beginLine();
    if (origin) this.#sentence.read(origin);
    if (this.#line.fields.expected !== "") {
      rows.takeBackLine();
      this.#problem("field", this.#line.fields.expected);
      return;
    }
    const isTimed = origin !== undefined && !Number.isNaN(this.#sentence.timeOfDay);
    const hasHead = this.#line.sentence - 1 > this.#line.from;
    const isPlaced = (!hasHead || this.#readHead()) && (!isTimed || this.#readTime(origin));
    const isRefuted = this.#refuteLeap(this.#clock.takeRefuted());
    if (!isPlaced || isRefuted || (this.#clock.isBehind && rows.hasReadings)) {
      rows.takeBackLine();
      this.#problem("clock", `a time from ${dateAndTime(this.#clock.time)} on`);
      return;
    }
    this.#endSentence(isTimed || rows.hasReadings);
  }

  #endSentence(isUsed: boolean): void {
    if (isUsed) this.#used++;
    if (this.#clock.leaps !== this.#leap.count) this.#rememberLeap(isUsed);
    this.#rows.endLine();
    if (!this.#rows.isFull) return;
    this.#settle();
    this.#rows.flush();
  }

  /** The time before the sentence; false where it cannot be placed. */
  #readHead(): boolean {
    const { fields, from, sentence } = this.#line;
    const stamp = lineStamp(fields.bytes, from, sentence - 1);
    return stamp === undefined || this.#clock.stamp(stamp.kind, stamp.seconds, RANK.line, LINE_HEAD);
  }

  /** The sentence's own time; false where it cannot be placed. */
  #readTime(origin: SentenceOrigin): boolean {
    const { timeOfDay, day } = this.#sentence;
    if (Number.isNaN(day)) return this.#clock.stamp("utcTimeOfDay", timeOfDay, RANK.timeOfDay, origin.id);
    return this.#clock.stamp("utc", day * SECONDS_IN_A_DAY + timeOfDay, RANK.dated, origin.id);
  }

  #rememberLeap(isUsed: boolean): void {
    const { fields, from, to } = this.#line;
    const received = this.#problems.isFull ? "" : printable(fields.bytes, from, to);
    this.#leap = { count: this.#clock.leaps, line: this.#lines, received, isUsed };
  }

  /** Makes the line whose time was wrong a problem; true where that is the line being read. */
  #refuteLeap(refuted: number): boolean {
    const { count, line, received, isUsed } = this.#leap;
    if (refuted === 0) return false;
    if (refuted !== count) return true;
    if (isUsed) this.#used--;
    this.#faulty++;
    this.#problems.add("clock", line, received, "a time that the next ones go on from");
    return false;
  }

  #settle(): void {
    if (this.#clock.settle()) return;
    const expected = "a sentence that tells date and UTC (RMC or ZDA); times are taken as they stand";
    this.#problems.add("clock", Math.max(1, this.#lines), "", expected);
  }

  #problem(kind: Problem["kind"], expected: string): void {
    this.#faulty++;
    const { fields, from, to } = this.#line;
    const received = this.#problems.isFull ? "" : printable(fields.bytes, from, to);
    this.#problems.add(kind, this.#lines, received, expected);
  }
}

const dateAndTime = (time: Seconds): string =>
  Math.abs(time) < LAST_DATE ? new Date(time * 1000).toISOString() : "no date";
