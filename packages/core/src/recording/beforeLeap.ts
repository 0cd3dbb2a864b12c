import type { Seconds } from "../units.ts";

/** A leap of the clock may yet prove to have been wrong while the clock shows no more than this beyond it. */
export const TRIAL: Seconds = 600;

/** Where waiting rows and their clock stood before a leap of the clock. */
export interface BeforeLeap {
  readonly clock: Seconds;
  readonly leaptTo: Seconds;
  /** Rows that had a time. */
  readonly timed: number;
  /** Where the interval began. */
  readonly row: number;
  readonly line: number;
  readonly beganWithChange: boolean;
  readonly hasStayed: boolean;
  /** The last row's time. */
  readonly latest: Seconds;
  /** What the pace is reckoned from. */
  readonly seconds: number;
  readonly lines: number;
}

/** The clock's silence around a stretch of wrong times lasts no longer than this. */
const MOST_SILENCE: Seconds = 120;

/** Whether a clock that had shown `latest` since the leap now goes on from before it, as if the leap had not been. */
export function goesOnFrom({ clock, leaptTo }: BeforeLeap, now: Seconds, latest: Seconds): boolean {
  const since = now - clock;
  return since >= 0 && since <= latest - leaptTo + MOST_SILENCE;
}
