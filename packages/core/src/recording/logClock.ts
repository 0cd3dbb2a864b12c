import type { Seconds } from "../units.ts";
import { SECONDS_IN_A_DAY } from "./calendar.ts";
import { LONGEST_INTERVAL, type PacedRows } from "./pacedRows.ts";

/** All time zones lie whole quarters of an hour from UTC. */
const ZONE_STEP: Seconds = 900;

/** How far a stamp may lag the clock, unread: sentences of one second arrive in any order. */
const LAG: Seconds = 2;

/** How a stamp's time is to be understood. */
export type StampKind =
  | "utc" // seconds since 1970 UTC
  | "utcTimeOfDay"
  | "local" // seconds since 1970 in a zone that is not told
  | "localTimeOfDay"
  | "elapsed"; // seconds since some start

/** Whose time counts: the writer of the log knew best, then sentences with a date, then those without. */
export const RANK = { line: 3, dated: 2, timeOfDay: 1 } as const;

/** A leap that later stamps showed to be wrong. */
export interface RefutedLeap {
  /** Which, counted from 1. */
  readonly number: number;
  /** Whether the clock went on from it for a while. */
  readonly wasFollowed: boolean;
}

/** The multiple of a step that is nearest; the time itself where the step is 0. */
const nearest = (seconds: Seconds, step: Seconds): Seconds =>
  step === 0 ? seconds : Math.round(seconds / step) * step;

/**
 * M33. The one clock of a log, from all times that it tells. It follows stamps of one origin (the highest in rank), and
 * those of another once they have gone on for 60 s without it. A leap of more than 60 s counts once a
 * later stamp confirms it. Time never goes back: a stamp that lags by up to 2 s is passed over, one that lags more
 * cannot be placed, and when two in a row lag by over 60 s, nothing can until the clock is reached again; unless the stamp goes
 * on from before a leap of the last ten minutes: then that leap was wrong.
 * Dates and zones that stamps lack come from the first sentence that tells them. Never throws.
 */
export class LogClock {
  readonly #rows: PacedRows;
  /** In the log's own time: UTC less `#shift`, which is NaN as long as date or zone are not known. */
  #now = Number.NaN;
  #shift = Number.NaN;
  /** What the shift would be if no dated sentence came. */
  #likelyShift = 0;
  /** From the times at the head of lines to the log's own time, and what that or the shift is a multiple of. */
  #lineShift = Number.NaN;
  #shiftStep: Seconds = ZONE_STEP;
  readonly #master = { id: -1, rank: 0 };
  /** A leap that waits to be confirmed. */
  #leap = { to: Number.NaN, id: -1, rank: 0 };
  /** Where stamps of other origins stood when the master last told a time. */
  #othersSince = Number.NaN;
  #lagging = 0;
  #leaps = 0;
  #refuted: RefutedLeap | undefined;

  constructor(rows: PacedRows) {
    this.#rows = rows;
  }

  /** Whether lines come at times that were passed already. */
  get isBehind(): boolean {
    return this.#lagging > 1;
  }

  /** Leaps so far that waited to be confirmed. */
  get leaps(): number {
    return this.#leaps;
  }

  /** The leap that the last stamps showed to be wrong; undefined for none; asking makes it forgotten. */
  takeRefuted(): RefutedLeap | undefined {
    const refuted = this.#refuted;
    if (refuted !== undefined) this.#refuted = undefined;
    return refuted;
  }

  /** The clock, in seconds since 1970 UTC as far as known. */
  get time(): Seconds {
    return this.#latest + (Number.isNaN(this.#shift) ? 0 : this.#shift);
  }

  /**
   * Takes a stamp of the line that is being read.
   *
   * @param id tells stamps of one origin from others
   * @returns false where the time cannot be placed
   */
  stamp(kind: StampKind, seconds: Seconds, rank: number, id: number): boolean {
    const time = this.#ownTime(kind, seconds);
    if (Number.isNaN(time)) return true;
    if (!Number.isNaN(this.#leap.to)) this.#judgeLeap(time, id, rank);
    if (Number.isNaN(this.#now)) {
      if (Number.isNaN(this.#leap.to)) this.#holdLeap(time, id, rank);
      return true;
    }
    return this.#isFollowed(time, id, rank) ? this.#follow(time, id, rank) : true;
  }

  /** Takes what was told for granted, the log having ended or told no more for long; false where the date was never told. */
  settle(): boolean {
    if (!Number.isNaN(this.#leap.to)) this.#confirmLeap();
    const isKnown = !Number.isNaN(this.#shift) || Number.isNaN(this.#now);
    if (!isKnown) this.#setShift(this.#likelyShift);
    return isKnown;
  }

  get #latest(): Seconds {
    return Number.isNaN(this.#now) ? this.#leap.to : this.#now;
  }

  /** Whether the clock goes by stamps of this origin: by those of others once they went on for 60 s without it. */
  #isFollowed(time: Seconds, id: number, rank: number): boolean {
    if (id === this.#master.id || rank > this.#master.rank) return true;
    if (Number.isNaN(this.#othersSince)) this.#othersSince = time;
    return time - this.#othersSince > LONGEST_INTERVAL;
  }

  #follow(time: Seconds, id: number, rank: number): boolean {
    this.#othersSince = Number.NaN;
    const ahead = time - this.#now;
    if (ahead < -LONGEST_INTERVAL && this.#rows.takeBackLeap(time)) {
      this.#refuted = { number: this.#leaps, wasFollowed: true };
      this.#master.id = id;
      this.#master.rank = rank;
      this.#lagging = 0;
      this.#tick(time);
      return true;
    }
    if (ahead > LONGEST_INTERVAL) {
      if (Number.isNaN(this.#leap.to)) this.#holdLeap(time, id, rank);
      return true;
    }
    this.#master.id = id;
    this.#master.rank = rank;
    if (ahead < -LAG) {
      this.#lagging = ahead < -LONGEST_INTERVAL ? this.#lagging + 1 : 0;
      return false;
    }
    this.#lagging = 0;
    if (ahead > 0) this.#tick(time);
    else if (ahead === 0) this.#rows.stay();
    return true;
  }

  #tick(time: Seconds): void {
    this.#now = time;
    this.#rows.tick(time);
  }

  #holdLeap(to: Seconds, id: number, rank: number): void {
    this.#leap = { to, id, rank };
    this.#leaps++;
    this.#rows.hold();
  }

  /** A stamp that goes on from the leap confirms it; one of the same origin before it, or one in step with the old clock, refutes it. */
  #judgeLeap(time: Seconds, id: number, rank: number): void {
    const beyond = time - this.#leap.to;
    if (beyond >= -LAG) {
      if (id === this.#leap.id || beyond <= LONGEST_INTERVAL) this.#confirmLeap();
      return;
    }
    const isInStep = Math.abs(time - this.#now) <= LONGEST_INTERVAL;
    const isBetter = Number.isNaN(this.#now) && rank > this.#leap.rank;
    if (!isInStep && !isBetter && id !== this.#leap.id) return;
    this.#leap = { to: Number.NaN, id: -1, rank: 0 };
    this.#rows.removeHeld();
    this.#refuted = { number: this.#leaps, wasFollowed: false };
  }

  #confirmLeap(): void {
    const { to, id, rank } = this.#leap;
    this.#leap = { to: Number.NaN, id: -1, rank: 0 };
    this.#master.id = id;
    this.#master.rank = rank;
    this.#lagging = 0;
    this.#now = to;
    this.#rows.tickHeld(to);
  }

  #setShift(shift: Seconds): void {
    this.#shift = shift;
    this.#rows.shift = shift;
  }

  /** A stamp's time in the log's own time; NaN where that cannot be known. */
  #ownTime(kind: StampKind, seconds: Seconds): Seconds {
    switch (kind) {
      case "utc":
        return this.#fromUtc(seconds);
      case "utcTimeOfDay":
        return this.#fromTimeOfDay(seconds);
      case "local":
        return this.#fromLineTime(seconds, false);
      case "localTimeOfDay":
        return this.#fromLineTime(seconds, true);
      case "elapsed":
        this.#shiftStep = 0;
        return this.#fromLineTime(seconds, false);
    }
  }

  #fromUtc(utc: Seconds): Seconds {
    const latest = this.#latest;
    if (Number.isNaN(this.#shift))
      this.#setShift(Number.isNaN(latest) ? 0 : nearest(utc - latest, this.#shiftStep));
    const time = utc - this.#shift;
    const isYesterday = Math.abs(time + SECONDS_IN_A_DAY - latest) <= LONGEST_INTERVAL;
    return isYesterday ? time + SECONDS_IN_A_DAY : time;
  }

  #fromTimeOfDay(timeOfDay: Seconds): Seconds {
    const latest = this.#latest;
    if (Number.isNaN(latest)) return timeOfDay;
    if (Number.isNaN(this.#shift) && !Number.isNaN(this.#lineShift)) {
      this.#likelyShift = nearest(
        timeOfDay - latest - nearest(timeOfDay - latest, SECONDS_IN_A_DAY),
        this.#shiftStep,
      );
      return Number.NaN;
    }
    const time = timeOfDay - (Number.isNaN(this.#shift) ? 0 : this.#shift);
    return time + nearest(latest - time, SECONDS_IN_A_DAY);
  }

  #fromLineTime(seconds: Seconds, isTimeOfDay: boolean): Seconds {
    const latest = this.#latest;
    if (Number.isNaN(latest)) {
      this.#lineShift = 0;
      return seconds;
    }
    if (Number.isNaN(this.#lineShift)) this.#lineShift = nearest(latest - seconds, this.#shiftStep);
    const time = seconds + this.#lineShift;
    return isTimeOfDay ? time + nearest(latest - time, SECONDS_IN_A_DAY) : time;
  }
}
