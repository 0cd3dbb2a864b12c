import type { Seconds } from "../units.ts";
import type { QuantityTraits } from "./quantityTraits.ts";
import { Resolution, type StepCount } from "./resolution.ts";
import { LongestStretches, outside, type Stretch, stretchTo, totalSeconds } from "./stretches.ts";

/** What one source's readings are worth (M34). */
export interface Health {
  readonly readings: number;
  /** Readings whose time the log did not tell. */
  readonly untimed: number;
  /** First and last time, s since 1970 UTC; NaN without timed readings. */
  readonly start: Seconds;
  readonly end: Seconds;
  /** Time for which it was heard: from the first to the last reading of each log, pauses and gaps left out; 0 without timed readings. */
  readonly heardSeconds: Seconds;
  /** From the first to the last reading of each log, parted where the whole log pauses. */
  readonly spans: readonly Stretch[];
  /** Readings a second, gaps left out; NaN where fewer than two have a time. */
  readonly rate: number;
  /** Silences within a log that does not pause, the longest thousand. */
  readonly gaps: readonly Stretch[];
  readonly gapSeconds: Seconds;
  readonly frozen: readonly Stretch[];
  readonly frozenSeconds: Seconds;
  /** How long a speed was exactly 0: below what turns the sensor, or stuck. */
  readonly zeroSeconds: Seconds;
  /** The step of its readings, SI; NaN where none could be told. */
  readonly resolution: number;
  readonly lowest: number;
  readonly highest: number;
  /** Lone readings far from both their neighbours. */
  readonly spikes: number;
  /** Changes within one to two seconds that no boat makes (M160); of headings only. */
  readonly leaps: number;
}

/** What one log tells of a source's health: plain values that add up over the logs of a season. */
export interface HealthPart {
  readonly readings: number;
  readonly untimed: number;
  readonly start: Seconds;
  readonly end: Seconds;
  /** Intervals between readings that are no gaps. */
  readonly intervals: number;
  readonly heardSeconds: Seconds;
  /** Its silences, those of the whole log with them. */
  readonly gaps: readonly Stretch[];
  readonly frozen: readonly Stretch[];
  readonly zeroSeconds: Seconds;
  readonly steps: StepCount;
  /** +∞ and −∞ without readings. */
  readonly lowest: number;
  readonly highest: number;
  readonly spikes: number;
  readonly leaps: number;
}

/** M34. A silence is a gap from here on, or from ten usual intervals. */
export const SHORTEST_GAP: Seconds = 5;

const longestOf = (all: readonly (readonly Stretch[])[]): readonly Stretch[] => {
  const longest = new LongestStretches();
  for (const { start, seconds } of all.flat()) longest.add(start, seconds);
  return longest.longerThan(0);
};

/** The earliest or latest of times of which some are NaN. */
const outermost = (pick: (...times: number[]) => number, times: readonly Seconds[]): Seconds => {
  const known = times.filter((time) => !Number.isNaN(time));
  return known.length === 0 ? Number.NaN : known.reduce((one, other) => pick(one, other));
};

/**
 * M34. The health of a source over the logs of a recording, in the order in which they were read; of one log it is that log's.
 * Silences between logs are no gaps, and no more are pauses within one.
 *
 * @param parts at least one
 * @param pauses of each part's log
 * @returns never throws
 */
export function healthOf(
  parts: readonly HealthPart[],
  pauses: readonly (readonly Stretch[])[],
  traits: QuantityTraits,
): Health {
  const sum = (of: (part: HealthPart) => number): number =>
    parts.reduce((total, part) => total + of(part), 0);
  const steps = new Resolution(traits.units);
  for (const part of parts) steps.take(part.steps);
  const [readings, intervals] = [sum((part) => part.readings), sum((part) => part.intervals)];
  const heardSeconds = sum((part) => part.heardSeconds);
  const gaps = longestOf(
    parts.map((part, place) =>
      part.gaps
        .flatMap((gap) => outside(gap, pauses[place]!))
        .filter(({ seconds }) => seconds > SHORTEST_GAP),
    ),
  );
  const frozen = longestOf(parts.map((part) => part.frozen));
  return {
    readings,
    untimed: sum((part) => part.untimed),
    start: outermost(
      Math.min,
      parts.map(({ start }) => start),
    ),
    end: outermost(
      Math.max,
      parts.map(({ end }) => end),
    ),
    heardSeconds,
    spans: parts.flatMap(({ start, end }, place) =>
      Number.isNaN(start) ? [] : outside(stretchTo(start, end), pauses[place]!),
    ),
    rate: intervals > 0 && heardSeconds > 0 ? intervals / heardSeconds : Number.NaN,
    gaps,
    gapSeconds: totalSeconds(gaps),
    frozen,
    frozenSeconds: totalSeconds(frozen),
    zeroSeconds: sum((part) => part.zeroSeconds),
    resolution: steps.step,
    lowest: readings > 0 ? Math.min(...parts.map(({ lowest }) => lowest)) : Number.NaN,
    highest: readings > 0 ? Math.max(...parts.map(({ highest }) => highest)) : Number.NaN,
    spikes: sum((part) => part.spikes),
    leaps: sum((part) => part.leaps),
  };
}
