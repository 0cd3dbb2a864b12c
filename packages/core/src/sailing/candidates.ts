import { wrapAngle } from "../angles.ts";
import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import { type RowOfSeconds, rowOfSeconds, speedOfRow } from "./rows.ts";
import { type SecondsWindow, TRACKS, type Track } from "./secondsWindow.ts";
import type { Judgement } from "./steadiness.ts";
import type { Turning } from "./turnDetector.ts";

/** A hole of this length within a row ends the row, one of that length between rows the leg. */
const ROW_HOLE: Seconds = 5;
const LEG_HOLE: Seconds = 60;

/** Rows whose mean wind angle is this far from their leg's are sailed on another point of sailing. */
const SAME_LEG: Radians = radians(30);

/** A course altered by more than this from one row to the next begins another leg, though it was no turn. */
const SAME_COURSE: Radians = radians(20);

/** A row within which the direction drifts further than this is a slow turn. */
const STRAIGHT: Readonly<Record<Track, Radians>> = {
  heading: radians(15),
  course: radians(15),
  wind: radians(20),
};

/** Rows within circles: long enough to mean something, short enough that the heading does not turn right round. */
const CIRCLING_ROW: Seconds = 12;

/** A circle turns this far in one direction, at most at this rate: faster ones are penalty turns. */
const CIRCLE: Radians = radians(330);
const FASTEST_CIRCLE = radians(6);

/** Under sail a boat loses way head to wind; under power she keeps at least this share of it all round. */
const KEPT_WAY = 0.6;

/** What turns slower than this swings at a mooring. */
const SLOWEST_CIRCLE: MetresPerSecond = 1;

export interface RowLengths {
  /** Seconds that a row spans at most. */
  readonly rowSeconds: Seconds;
  /** Seconds of data without which there is no row. */
  readonly leastSeconds: Seconds;
}

/** A steady stretch, or a circle, before it is known what drove the boat. */
export interface CandidateLeg {
  readonly circling: boolean;
  readonly rows: readonly RowOfSeconds[];
}

/** Gathers steady seconds to rows and rows to legs; turning seconds to the rows of circles, kept if it was one. */
export class CandidateCollector {
  readonly #legs: CandidateLeg[];
  readonly #window: SecondsWindow;
  readonly #lengths: RowLengths;
  #headingIsTrue = false;
  #seconds: number[] = [];
  #rows: RowOfSeconds[] = [];
  #circling: { turning: Turning; seconds: number[]; rows: RowOfSeconds[] } | undefined;

  /** @param legs takes the finished ones */
  constructor(window: SecondsWindow, lengths: RowLengths, legs: CandidateLeg[]) {
    this.#legs = legs;
    this.#window = window;
    this.#lengths = lengths;
  }

  /** Takes the next second with what it was judged to be, and the turning that it belongs to. Never throws. */
  push(second: number, judgement: Judgement, turning: Turning | undefined, headingIsTrue: boolean): void {
    this.#headingIsTrue = headingIsTrue;
    if (this.#circling !== undefined && this.#circling.turning !== turning) this.#endCircling();
    if (turning !== undefined && turning.track !== "wind") this.#circle(second, turning);
    if (turning?.turn !== undefined) this.#endLeg();
    const last = this.#seconds.at(-1);
    if (last !== undefined && second - last > ROW_HOLE) this.#endRow();
    if (judgement === "steady") this.#sail(second);
  }

  /** Ends what is open. Never throws. */
  finish(): void {
    this.#endCircling();
    this.#endLeg();
  }

  #sail(second: number): void {
    if (second - (this.#seconds[0] ?? second) >= this.#lengths.rowSeconds) this.#endRow();
    const lastRow = this.#rows.at(-1);
    if (
      this.#seconds.length === 0 &&
      lastRow !== undefined &&
      second - lastRow.start - lastRow.duration > LEG_HOLE
    )
      this.#endLeg();
    this.#seconds.push(second);
  }

  #endRow(): void {
    const seconds = this.#seconds;
    this.#seconds = [];
    if (seconds.length < this.#lengths.leastSeconds || this.#drifts(seconds)) return;
    const row = rowOfSeconds(this.#window, seconds, this.#headingIsTrue);
    if (row === undefined || row.count < this.#lengths.leastSeconds) return;
    if (!this.#goesOn(row)) this.#closeLeg();
    this.#rows.push(row);
  }

  /** Whether a row is sailed as the leg's rows before it were. */
  #goesOn({ mean }: RowOfSeconds): boolean {
    const last = this.#rows.at(-1);
    if (last === undefined) return true;
    const altered = Math.abs(wrapAngle(mean.heading - last.mean.heading)) > SAME_COURSE;
    return !altered && Math.abs(wrapAngle(mean.awa - meanAwaOfRows(this.#rows))) <= SAME_LEG;
  }

  /** Whether the direction at the end of some seconds differs much from that at their start. */
  #drifts(seconds: readonly number[]): boolean {
    const third = Math.floor(seconds.length / 3);
    for (const track of TRACKS) {
      const mean = (part: readonly number[]) =>
        part.reduce((sum, second) => sum + this.#window.track(track, second), 0) / part.length;
      const drift = mean(seconds.slice(-third)) - mean(seconds.slice(0, third));
      if (!Number.isNaN(drift)) return Math.abs(drift) > STRAIGHT[track];
    }
    return false;
  }

  #endLeg(): void {
    this.#endRow();
    this.#closeLeg();
  }

  #closeLeg(): void {
    if (this.#rows.length > 0) this.#legs.push({ circling: false, rows: this.#rows });
    this.#rows = [];
  }

  #circle(second: number, turning: Turning): void {
    this.#circling ??= { turning, seconds: [], rows: [] };
    const { seconds, rows } = this.#circling;
    if (!Number.isNaN(this.#window.at("awa", second) + this.#window.at("aws", second))) seconds.push(second);
    if (seconds.length === 0 || second - seconds[0]! + 1 < CIRCLING_ROW) return;
    const row =
      seconds.length >= CIRCLING_ROW - 2
        ? rowOfSeconds(this.#window, seconds, this.#headingIsTrue)
        : undefined;
    if (row !== undefined) rows.push(row);
    this.#circling.seconds = [];
  }

  #endCircling(): void {
    const circling = this.#circling;
    this.#circling = undefined;
    if (circling === undefined || circling.rows.length === 0) return;
    const { change, start, end } = circling.turning;
    const speeds = circling.rows.map(speedOfRow);
    const isCircle =
      Math.abs(change) >= CIRCLE &&
      Math.abs(change) / (end - start + 1) <= FASTEST_CIRCLE &&
      Math.min(...speeds) >= Math.max(SLOWEST_CIRCLE, KEPT_WAY * Math.max(...speeds));
    if (isCircle) this.#legs.push({ circling: true, rows: circling.rows });
  }
}

/** Direction of the mean of the rows' wind angle vectors, by their seconds; NaN without rows. Never throws. */
export function meanAwaOfRows(rows: readonly Pick<RowOfSeconds, "mean" | "count">[]): Radians {
  let [sine, cosine] = [0, 0];
  for (const { mean, count } of rows) {
    sine += count * Math.sin(mean.awa);
    cosine += count * Math.cos(mean.awa);
  }
  return rows.length > 0 ? Math.atan2(sine, cosine) : Number.NaN;
}
