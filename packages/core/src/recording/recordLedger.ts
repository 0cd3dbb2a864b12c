import type { Seconds } from "../units.ts";
import { LogClock, type RefutedLeap, type StampKind } from "./logClock.ts";
import { PacedRows } from "./pacedRows.ts";
import { ProblemList } from "./problemList.ts";
import type { LineCount, Problem, Readings } from "./readings.ts";

/** Seconds from 1970 to the year 9999. */
const LAST_DATE: Seconds = 253_402_300_799;

export interface RecordLedgerOptions {
  /** Name of the log, for its problems. */
  readonly file: string;
  /** The record that is being read, as problems quote it; asked for only while problems are kept. */
  readonly received: () => string;
  /** What tells the date in such a log ("a sentence that tells date and UTC (RMC or ZDA)"). */
  readonly dated: string;
}

/** A record whose time leapt. */
interface Leap {
  readonly count: number;
  readonly record: number;
  readonly line: number;
  readonly received: string;
  outcome: "used" | "ignored" | "problem";
}

/**
 * The account of a log's records: the readings that each gave, the time at which it did (M32, M33), and what became of it,
 * used, ignored or a problem. A record begins, adds readings, stamps the time, and ends or is at fault. Never throws.
 *
 * @example
 * ledger.begin();
 * ledger.stamp("utc", seconds, RANK.line, 0);
 * ledger.rows.add(source, value);
 * ledger.end(false);
 */
export class RecordLedger {
  readonly rows = new PacedRows();
  readonly #clock = new LogClock(this.rows);
  readonly #problems: ProblemList;
  readonly #received: () => string;
  readonly #dated: string;
  #records = 0;
  #used = 0;
  #faulty = 0;
  #line = 0;
  #isPlaced = true;
  /** The record whose time leapt, until it is confirmed. */
  #leap: Leap = { count: 0, record: 0, line: 0, received: "", outcome: "ignored" };
  /** Records whose outcome depends on later ones. */
  readonly #waiting = new Set<number>();

  constructor({ file, received, dated }: RecordLedgerOptions) {
    this.#problems = new ProblemList(file);
    this.#received = received;
    this.#dated = dated;
  }

  get lines(): LineCount {
    const ignored = this.#records - this.#used - this.#faulty;
    return { lines: this.#records, used: this.#used, ignored, problems: this.#faulty };
  }

  get problems(): readonly Problem[] {
    return this.#problems.problems;
  }

  get problemCounts(): Readonly<Record<Problem["kind"], number>> {
    return this.#problems.counts;
  }

  /** The record's number, counted from 1. */
  get record(): number {
    return this.#records;
  }

  /** Begins a record. @param line where it stands, if not every record is one line */
  begin(line: number = this.#records + 1): void {
    this.#records++;
    this.#line = line;
    this.#isPlaced = true;
    this.rows.beginLine();
  }

  /** Takes a time that the record tells. @param id tells stamps of one origin from others */
  stamp(kind: StampKind, seconds: Seconds, rank: number, id: number): void {
    if (this.#isPlaced) this.#isPlaced = this.#clock.stamp(kind, seconds, rank, id);
  }

  /**
   * Ends a record that can be read.
   *
   * @param isTold whether it counts as used even if it gave no reading, since it told the time
   * @returns false where its time cannot be placed: a problem then
   */
  end(isTold: boolean): boolean {
    const refuted = this.#clock.takeRefuted();
    const isRefuted = refuted !== undefined && this.#refuteLeap(refuted);
    if (!this.#isPlaced || isRefuted || (this.#clock.isBehind && this.rows.hasReadings)) {
      const expected = this.#problems.isFull ? "" : `a time from ${dateAndTime(this.#clock.time)} on`;
      this.fault("clock", expected);
      return false;
    }
    const isUsed = isTold || this.rows.hasReadings;
    if (isUsed) this.#used++;
    if (this.#clock.leaps !== this.#leap.count) this.#rememberLeap(isUsed);
    this.rows.endLine();
    if (this.rows.isFull) {
      this.#settle();
      this.rows.flush();
    }
    return true;
  }

  /** Ends a record that cannot be read: its readings go. */
  fault(kind: Problem["kind"], expected: string): void {
    this.rows.takeBackLine();
    this.#faulty++;
    this.#problems.add(kind, this.#line, this.#quoted(), expected);
  }

  /** Tells of a problem of the log as a whole, which is no record's. @param line where it shows */
  note(kind: Problem["kind"], line: number, received: string, expected: string): void {
    this.#problems.add(kind, line, received, expected);
  }

  /** Tells of something strange in the record that is being read, which is read all the same. */
  noteHere(kind: Problem["kind"], expected: string): void {
    this.note(kind, this.#line, this.#quoted(), expected);
  }

  /** The record that just ended without a reading waits for what later ones make of it. */
  wait(): void {
    this.#waiting.add(this.#records);
  }

  /** Waiting records were of use after all, or are dropped without being a problem. */
  settleWaiting(records: readonly number[], isUsed: boolean): void {
    for (const record of records) {
      if (!this.#waiting.delete(record) || !isUsed) continue;
      this.#used++;
      if (record === this.#leap.record) this.#leap.outcome = "used";
    }
  }

  /** Waiting records, each of one line, are at fault, all for one reason. */
  faultWaiting(records: readonly number[], kind: Problem["kind"], received: string, expected: string): void {
    for (const record of records) {
      if (!this.#waiting.delete(record)) continue;
      this.#faulty++;
      this.#problems.add(kind, record, received, expected);
      if (record === this.#leap.record) this.#leap.outcome = "problem";
    }
  }

  /** Ends the log. @param compression what is wrong with the compressed stream; "" where nothing is */
  finish(compression: string): Readings[] {
    if (compression !== "")
      this.#problems.add("compression", Math.max(1, this.#line), compression, "a whole gzip stream");
    this.#settle();
    return this.rows.takeAll();
  }

  #quoted(): string {
    return this.#problems.isFull ? "" : this.#received();
  }

  #rememberLeap(isUsed: boolean): void {
    const count = this.#clock.leaps;
    const outcome = isUsed ? "used" : "ignored";
    this.#leap = { count, record: this.#records, line: this.#line, received: this.#quoted(), outcome };
  }

  /** Makes the record whose time was wrong a problem; true where that is the record being read. */
  #refuteLeap(refuted: RefutedLeap): boolean {
    const { count, record, line, received, outcome } = this.#leap;
    if (refuted.number !== count) return true;
    this.#waiting.delete(record);
    if (outcome === "problem") return false;
    if (outcome === "used") this.#used--;
    this.#faulty++;
    const expected = refuted.wasFollowed
      ? `a time that goes on; up to line ${this.#line - 1} the clock was wrong, and readings are timed by the lines' usual pace`
      : "a time that the next ones go on from";
    this.#problems.add("clock", line, received, expected);
    return false;
  }

  #settle(): void {
    if (this.#clock.settle()) return;
    const expected = `${this.#dated}; times are taken as they stand`;
    this.#problems.add("clock", Math.max(1, this.#line), "", expected);
  }
}

const dateAndTime = (time: Seconds): string =>
  Math.abs(time) < LAST_DATE ? new Date(time * 1000).toISOString() : "no date";
