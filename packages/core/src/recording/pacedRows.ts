import type { Seconds } from "../units.ts";
import { type BeforeLeap, goesOnFrom, TRIAL } from "./beforeLeap.ts";
import type { Readings } from "./readings.ts";
import { columnsOf, grownColumns } from "./rowColumns.ts";

/** Rows in a batch: minutes of most logs, and some 90 kB, which a processor's own memory holds. */
const BATCH_LENGTH = 4096;

/** Rows that may wait for the clock to tick (or for a date); then they are paced as the lines before them were. */
const LONGEST_WAIT = 16 * BATCH_LENGTH;

/** A silence of the clock longer than this is a gap: nothing says that the lines were spread over it. */
export const LONGEST_INTERVAL: Seconds = 60;

/** The pace is that of the last intervals, each weighing this much less than the one after it. */
const PACE_MEMORY = 0.9;

/** What an interval is taken to last where no pace is known yet: most clocks tick once a second. */
const USUAL_INTERVAL: Seconds = 1;

/**
 * M32. Readings that wait for their times. The clock ticks at a line when its value changes there; the n lines from a
 * tick up to the next are spread evenly over the interval between them: line j stands at T + (j / n) ΔT. Over a gap
 * (ΔT > 60 s) and after the last tick, lines keep the pace of the intervals before; before the first tick, that of the
 * first. A value that was first seen, not seen to change, is no tick: where it stayed for a while, the lines up to the
 * first change keep the pace of the intervals after it (or before it, after a gap), as long as none comes before that
 * value. All readings of a line have one time, and no time comes before an earlier one. Never throws.
 */
export class PacedRows {
  #columns = columnsOf(BATCH_LENGTH * 2);
  /** Rows held, rows of them that have a time, and what is added to times when they leave. */
  #rows = 0;
  #timed = 0;
  #shift = Number.NaN;
  /** The line that is being read, and its first row. */
  #line = 0;
  #lineStart = 0;
  readonly #held = { row: 0, end: 0, line: 0 };
  /** Where the interval began and what the clock showed there. */
  readonly #start = { row: 0, line: 0 };
  #clock = Number.NaN;
  /** Whether the interval began with a change of the clock, and whether the same value was told again since. */
  #beganWithChange = false;
  #hasStayed = false;
  /** Longest step of lines up to the first change, where the clock began with a value that stayed. */
  #longestLead = Number.POSITIVE_INFINITY;
  #latest = Number.NEGATIVE_INFINITY;
  /** Weighted sums of seconds and lines of the past intervals. */
  #seconds = 0;
  #lines = 0;
  /** While a leap of the clock may yet prove wrong, nothing leaves. */
  #beforeLeap: BeforeLeap | undefined;
  readonly #batches: Readings[] = [];

  get isFull(): boolean {
    return this.#rows >= LONGEST_WAIT;
  }

  /** What to add to the clock's times to have seconds since 1970 UTC; rows leave only once it is known. */
  set shift(seconds: Seconds) {
    this.#shift = seconds;
  }

  /** Begins a line. */
  beginLine(): void {
    this.#lineStart = this.#rows;
  }

  /** Adds a reading of the line that is being read; none where there are too many sources (−1). */
  add(source: number, value: number): void {
    if (source < 0) return;
    if (this.#rows === this.#columns.value.length) this.#grow();
    const row = this.#rows++;
    this.#columns.source[row] = source;
    this.#columns.value[row] = value;
    this.#columns.line[row] = this.#line;
  }

  /** Adds the readings of the line that is being read that are not NaN, by their places in the sentence. */
  addAll(readings: Float64Array, count: number, origin: { sourceOf(place: number): number }): void {
    if (this.#rows + count > this.#columns.value.length) this.#grow();
    const { source, value, line } = this.#columns;
    let row = this.#rows;
    for (let place = 0; place < count; place++) {
      const reading = readings[place]!;
      const index = Number.isNaN(reading) ? -1 : origin.sourceOf(place);
      if (index < 0) continue;
      source[row] = index;
      value[row] = reading;
      line[row] = this.#line;
      row++;
    }
    this.#rows = row;
  }

  /** Whether the line that is being read holds any reading so far. */
  get hasReadings(): boolean {
    return this.#rows > this.#lineStart;
  }

  /** Takes back the readings of the line that is being read. */
  takeBackLine(): void {
    this.#rows = this.#lineStart;
    this.#held.end = Math.min(this.#held.end, this.#rows);
  }

  /** Ends the line that is being read. */
  endLine(): void {
    if (this.#held.line === this.#line) this.#held.end = this.#rows;
    this.#line++;
  }

  /** The clock ticks at the line that is being read, and shows a value. */
  tick(clock: Seconds): void {
    if (this.#beforeLeap && clock - this.#beforeLeap.leaptTo > TRIAL) this.#beforeLeap = undefined;
    this.#tickAt(clock, this.#lineStart, this.#line);
    this.#beganWithChange = true;
  }

  /** The clock still shows what it showed. */
  stay(): void {
    this.#hasStayed = true;
  }

  /** Remembers the line that is being read: it may prove to be a tick. */
  hold(): void {
    this.#beforeLeap = undefined;
    Object.assign(this.#held, { row: this.#lineStart, end: this.#rows, line: this.#line });
  }

  /** The remembered line was a tick. */
  tickHeld(clock: Seconds): void {
    if (clock - this.#clock > LONGEST_INTERVAL) this.#beforeLeap = this.#asBefore(clock);
    this.#tickAt(clock, this.#held.row, this.#held.line);
    this.#beganWithChange = false;
  }

  /**
   * The clock's last leap was wrong, though it went on from there: all since is timed anew, as if it had been silent.
   *
   * @returns false where what it shows now does not go on from before the leap, or what came since has left
   */
  takeBackLeap(clock: Seconds): boolean {
    const before = this.#beforeLeap;
    if (before === undefined || !goesOnFrom(before, clock, this.#clock)) return false;
    this.#beforeLeap = undefined;
    this.#timed = before.timed;
    this.#start.row = before.row;
    this.#start.line = before.line;
    this.#clock = before.clock;
    this.#beganWithChange = before.beganWithChange;
    this.#hasStayed = before.hasStayed;
    this.#latest = before.latest;
    this.#seconds = before.seconds;
    this.#lines = before.lines;
    this.removeHeld();
    return true;
  }

  #asBefore(leaptTo: Seconds): BeforeLeap {
    return {
      clock: this.#clock,
      leaptTo,
      timed: this.#timed,
      row: this.#start.row,
      line: this.#start.line,
      beganWithChange: this.#beganWithChange,
      hasStayed: this.#hasStayed,
      latest: this.#latest,
      seconds: this.#seconds,
      lines: this.#lines,
    };
  }

  /** The remembered line's time was wrong: its readings go. */
  removeHeld(): void {
    const { row, end } = this.#held;
    for (const column of Object.values(this.#columns)) column.copyWithin(row, end, this.#rows);
    if (this.#lineStart > row) this.#lineStart -= end - row;
    this.#rows -= end - row;
  }

  #tickAt(clock: Seconds, row: number, line: number): void {
    if (!Number.isNaN(this.#clock)) this.#fillTo(clock, row, line);
    this.#start.row = row;
    this.#start.line = line;
    this.#clock = clock;
    this.#hasStayed = false;
    this.#release();
  }

  /** Times all rows that wait, by the pace; for want of any clock they have none (NaN). */
  flush(): void {
    this.#beforeLeap = undefined;
    const step = this.#pace(this.#line - this.#start.line);
    if (Number.isNaN(this.#clock)) this.#columns.time.fill(Number.NaN, this.#timed, this.#rows);
    else {
      this.#fillLead(step);
      this.#fill(this.#rows, Math.max(this.#clock, this.#latest), step);
      this.#clock = Math.max(this.#latest, this.#clock) + step;
    }
    this.#timed = this.#rows;
    this.#start.row = this.#rows;
    this.#start.line = this.#line;
    this.#lineStart = this.#rows;
    this.#release();
  }

  /** Batches that are full. */
  take(): Readings[] {
    return this.#batches.splice(0);
  }

  /** All that is left, after the last line. */
  takeAll(): Readings[] {
    this.flush();
    if (this.#rows > 0) this.#emit(this.#rows);
    return this.take();
  }

  /** Seconds a line: of the intervals past, else of one of a second with so many lines. */
  #pace(lines: number): Seconds {
    if (this.#lines > 0) return this.#seconds / this.#lines;
    return Number.isFinite(this.#longestLead) ? this.#longestLead : USUAL_INTERVAL / Math.max(1, lines);
  }

  /** Times the rows of the interval that ends where the clock shows a value. */
  #fillTo(clock: Seconds, row: number, line: number): void {
    const lines = line - this.#start.line;
    const from = Math.max(this.#clock, this.#latest);
    const interval = Math.max(0, clock - from);
    const even = lines > 0 ? interval / lines : interval;
    const isGap = clock - this.#clock > LONGEST_INTERVAL;
    if (!isGap && !this.#beganWithChange && this.#hasStayed) {
      this.#fillBackFrom(clock, row, lines, even);
      return;
    }
    if (!isGap) {
      this.#seconds = this.#seconds * PACE_MEMORY + interval;
      this.#lines = this.#lines * PACE_MEMORY + lines;
    }
    this.#fillLead(this.#pace(lines));
    this.#fill(row, from, isGap ? Math.min(even, this.#pace(lines)) : even);
  }

  /** Times an interval of which only the end was a tick: back from there by the pace, or later if none is known yet. */
  #fillBackFrom(clock: Seconds, row: number, lines: number, longest: Seconds): void {
    if (this.#lines === 0) this.#longestLead = longest;
    else {
      const step = Math.min(longest, this.#pace(lines));
      this.#fill(row, clock - lines * step, step);
    }
  }

  /** Times the rows before the first tick, back from it. */
  #fillLead(step: Seconds): void {
    if (this.#timed < this.#start.row)
      this.#fill(this.#start.row, this.#clock, Math.min(step, this.#longestLead));
    this.#longestLead = Number.POSITIVE_INFINITY;
  }

  /** Times rows up to one; `from`: the time of the interval's first line. */
  #fill(to: number, from: Seconds, step: Seconds): void {
    const { time, line } = this.#columns;
    const first = this.#start.line;
    for (let row = this.#timed; row < to; row++) time[row] = from + (line[row]! - first) * step;
    this.#timed = Math.max(this.#timed, to);
    if (to > 0) this.#latest = Math.max(this.#latest, time[to - 1]!);
  }

  #release(): void {
    if (this.#beforeLeap) return;
    if (Number.isNaN(this.#shift) && !Number.isNaN(this.#clock)) return;
    while (this.#timed >= BATCH_LENGTH) this.#emit(BATCH_LENGTH);
  }

  #emit(length: number): void {
    const { time, source, value } = this.#columns;
    const times = time.slice(0, length);
    if (this.#shift !== 0) for (let row = 0; row < length; row++) times[row] = times[row]! + this.#shift;
    this.#batches.push({
      length,
      time: times,
      source: source.slice(0, length),
      value: value.slice(0, length),
    });
    for (const column of Object.values(this.#columns)) column.copyWithin(0, length, this.#rows);
    this.#rows -= length;
    this.#timed -= length;
    this.#start.row -= length;
    this.#lineStart -= length;
    this.#held.row -= length;
    this.#held.end -= length;
  }

  #grow(): void {
    this.#columns = grownColumns(this.#columns, this.#rows * 2);
  }
}
