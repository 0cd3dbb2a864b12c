import { unitInCell } from "./columnNames.ts";
import { findColumns } from "./csvColumns.ts";
import { csvHead, textOf } from "./csvHead.ts";
import { refusalOf } from "./csvQuestions.ts";
import { CsvRows } from "./csvRows.ts";
import { LineCutter } from "./lineCutter.ts";
import { LogBytes } from "./logBytes.ts";
import type { LogReader, LogReaderOptions } from "./logReader.ts";
import { printable } from "./problemList.ts";
import type { LineCount, Problem, Readings, Source } from "./readings.ts";
import { RecordLedger } from "./recordLedger.ts";
import { SourceList } from "./sourceList.ts";

/** So much of a log, in bytes, tells what its columns hold. */
export const COLUMNS_HEAD = 1 << 16;

/** Longest row that is read. */
const LONGEST_ROW = 1 << 16;

const [LINE_FEED, CARRIAGE_RETURN, NUMBER_SIGN] = [0x0a, 0x0d, 0x23] as const;
const BYTE_ORDER_MARK = [0xef, 0xbb, 0xbf] as const;

/** Whether bytes begin with the mark of UTF-16, in either order, as some spreadsheets write "Unicode text". */
const isWideText = (bytes: Uint8Array): boolean =>
  (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);

const isLineEnd = (byte: number): boolean => byte === LINE_FEED || byte === CARRIAGE_RETURN;

function endOfLine(bytes: Uint8Array, from: number): number {
  let at = from;
  while (!isLineEnd(bytes[at]!)) at++;
  return at;
}

/** The whole lines among a log's first bytes; all of them where these are the whole log. */
const wholeLines = (head: Uint8Array, isWhole: boolean): Uint8Array =>
  isWhole
    ? head
    : head.subarray(0, 1 + Math.max(head.lastIndexOf(LINE_FEED), head.lastIndexOf(CARRIAGE_RETURN)));

/**
 * M111, M112. Reads a log in columns (CSV: fields parted by commas, semicolons or tabs), plain or gzip, from chunks of any size: the
 * readings are the same, bit for bit, however the log is cut. What its first 64 kB do not tell of the columns must be told by
 * a mapping; else `refusal` says what is missing, and no row is read. Empty fields make no reading; a row with another
 * number of fields, or with a field that is not what it should be, is a problem, never a reading. Never throws.
 *
 * @example
 * const log = new CsvReader({ file: "afternoon.csv" });
 * log.push(new TextEncoder().encode("time,stw_kn\n2031-05-14T12:00:00Z,6.5\n"));
 * const [readings] = log.finish();
 * knots(readings.value[0]) // 6.5
 */
export class CsvReader implements LogReader {
  readonly #options: LogReaderOptions;
  readonly #sources: SourceList;
  readonly #bytes = new LogBytes((plain) => this.#read(plain));
  readonly #line = new LineCutter(LONGEST_ROW, (bytes, from) => this.#readLine(bytes, from));
  readonly #ledger: RecordLedger;
  readonly #head = new Uint8Array(COLUMNS_HEAD);
  #headLength = 0;
  #isOpen = false;
  #refusal = "";
  #rows: CsvRows | undefined;
  #linesBefore = 0;
  /** The line that is being read. */
  readonly #current: { bytes: Uint8Array; from: number; to: number } = {
    bytes: new Uint8Array(0),
    from: 0,
    to: 0,
  };

  constructor(options: LogReaderOptions) {
    this.#options = options;
    this.#sources = options.sources ?? new SourceList();
    this.#ledger = new RecordLedger({
      file: options.file,
      received: () => printable(this.#current.bytes, this.#current.from, this.#current.to),
      dated: "a column that tells the date",
    });
  }

  get refusal(): string {
    return this.#refusal;
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

  push(chunk: Uint8Array): Readings[] {
    this.#bytes.push(chunk);
    return this.#ledger.rows.take();
  }

  finish(): Readings[] {
    this.#bytes.finish();
    if (!this.#isOpen) this.#open(true);
    this.#line.finish();
    return this.#ledger.finish(this.#bytes.fault);
  }

  #read(plain: Uint8Array): void {
    if (this.#isOpen) {
      this.#line.push(plain);
      return;
    }
    const part = plain.subarray(0, COLUMNS_HEAD - this.#headLength);
    this.#head.set(part, this.#headLength);
    this.#headLength += part.length;
    if (this.#headLength < COLUMNS_HEAD) return;
    this.#open(false);
    this.#line.push(plain.subarray(part.length));
  }

  /** Finds out what the columns hold, then reads the head's rows. */
  #open(isWhole: boolean): void {
    const bytes = this.#head.subarray(0, this.#headLength);
    const hasMark = BYTE_ORDER_MARK.every((byte, at) => bytes[at] === byte);
    const head = hasMark ? bytes.subarray(BYTE_ORDER_MARK.length) : bytes;
    this.#isOpen = true;
    if (isWideText(head)) this.#refusal = "is text in UTF-16; save it as UTF-8";
    else this.#plan(wholeLines(head, isWhole));
    this.#line.push(head);
  }

  #plan(lines: Uint8Array): void {
    const head = csvHead(textOf(lines), (cell) => unitInCell(cell) !== undefined);
    if (head === undefined) {
      this.#refusal = "its lines are not parted into fields by commas, semicolons or tabs";
      return;
    }
    const { columns, time, questions, unread } = findColumns(head, this.#options.columns);
    this.#refusal = refusalOf(questions);
    if (questions.length > 0 || time === undefined) return;
    this.#linesBefore = head.linesBefore;
    for (const name of unread)
      this.#ledger.note("column", head.linesBefore, name, "a unit, in the header or in a mapping file");
    this.#rows = new CsvRows(head, { columns, time }, this.#sources, this.#ledger);
  }

  /** Reads a line, and returns the place of its end. */
  #readLine(bytes: Uint8Array, from: number): number {
    const rows = this.#rows;
    this.#ledger.begin();
    if (rows === undefined || this.#ledger.record <= this.#linesBefore) return endOfLine(bytes, from);
    if (isLineEnd(bytes[from]!)) return from;
    if (bytes[from] === NUMBER_SIGN) return endOfLine(bytes, from);
    const to = rows.scan(bytes, from);
    this.#current.bytes = bytes;
    this.#current.from = from;
    this.#current.to = to;
    if (to - from > LONGEST_ROW) this.#ledger.fault("too long", `at most ${LONGEST_ROW} characters in a row`);
    else rows.account(bytes, from, to);
    return to;
  }
}
