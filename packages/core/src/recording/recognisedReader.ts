import { LogBytes } from "./logBytes.ts";
import { HEAD_LENGTH, type LogFormat, likeliestFormat, logHead } from "./logFormat.ts";
import { FALLBACK_FORMAT, LOG_FORMATS } from "./logFormats.ts";
import type { LogReader, LogReaderOptions } from "./logReader.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";

/**
 * Reads a log of any format that is known, plain or gzip: the format is told by what stands in its first kilobytes, never by
 * a name. Never throws.
 *
 * @example
 * const reader = new RecognisedReader({ file: "afternoon.log" });
 * for (const chunk of chunks) for (const readings of reader.push(chunk)) use(readings, reader.sources);
 * for (const readings of reader.finish()) use(readings, reader.sources);
 */
export class RecognisedReader implements LogReader {
  readonly #options: LogReaderOptions;
  readonly #bytes = new LogBytes((plain) => this.#read(plain));
  readonly #head = new Uint8Array(HEAD_LENGTH);
  #headLength = 0;
  #batches: Readings[] = [];
  #reader: LogReader;
  #format: LogFormat | undefined;
  #isRecognised = false;

  constructor(options: LogReaderOptions) {
    this.#options = options;
    this.#reader = FALLBACK_FORMAT.reader(options);
  }

  /** The log's format; undefined until its head has been read, and where it is of none that is known. */
  get format(): LogFormat | undefined {
    return this.#format;
  }

  get sources(): readonly Source[] {
    return this.#reader.sources;
  }

  get lines(): LineCount {
    return this.#reader.lines;
  }

  get problems(): readonly Problem[] {
    return [...this.#reader.problems, ...this.#compressionProblems];
  }

  get problemCounts(): Readonly<Record<Problem["kind"], number>> {
    const { problemCounts } = this.#reader;
    return { ...problemCounts, compression: problemCounts.compression + this.#compressionProblems.length };
  }

  get refusal(): string {
    return this.#reader.refusal ?? "";
  }

  push(chunk: Uint8Array): Readings[] {
    this.#bytes.push(chunk);
    return this.#batches.splice(0);
  }

  finish(): Readings[] {
    this.#bytes.finish();
    if (!this.#isRecognised) this.#recognise(true);
    this.#batches.push(...this.#reader.finish());
    return this.#batches.splice(0);
  }

  get #compressionProblems(): readonly Problem[] {
    const received = this.#bytes.fault;
    if (received === "") return [];
    const line = Math.max(1, this.#reader.lines.lines);
    return [
      { kind: "compression", file: this.#options.file, line, received, expected: "a whole gzip stream" },
    ];
  }

  #read(plain: Uint8Array): void {
    if (this.#isRecognised) {
      this.#batches.push(...this.#reader.push(plain));
      return;
    }
    const part = plain.subarray(0, HEAD_LENGTH - this.#headLength);
    this.#head.set(part, this.#headLength);
    this.#headLength += part.length;
    if (this.#headLength < HEAD_LENGTH) return;
    this.#recognise(false);
    this.#read(plain.subarray(part.length));
  }

  #recognise(isWhole: boolean): void {
    const head = this.#head.slice(0, this.#headLength);
    this.#isRecognised = true;
    this.#format = likeliestFormat(logHead(head, isWhole), LOG_FORMATS);
    this.#reader = (this.#format ?? FALLBACK_FORMAT).reader(this.#options);
    this.#batches.push(...this.#reader.push(head));
  }
}
