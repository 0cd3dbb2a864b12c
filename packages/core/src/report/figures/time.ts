import type { Leg } from "../../sailing/legRow.ts";
import { type JsonObject, times } from "./figure.ts";

/** A pause in the log longer than this (s) is cut out of the time axis: nights between the days of a season. */
const LONGEST_PAUSE = 3 * 3600;

/** What is left of a pause that was cut out, on either side (s). */
const EDGE = 600;

/** Pauses to be cut out of a time axis. Never throws. */
export const gapBreaks = (time: ArrayLike<number>): readonly JsonObject[] =>
  Array.from(time).flatMap((end, index, all) => {
    const start = all[index - 1];
    return start !== undefined && end - start > LONGEST_PAUSE
      ? [{ bounds: times([start + EDGE, end - EDGE]) }]
      : [];
  });

/** One row in so many is shown for a figure to stay below a number of points. Never throws. */
export const thinning = (count: number, most: number): number =>
  Math.max(1, Math.ceil(count / Math.max(1, most)));

export interface LegMean {
  readonly leg: Leg;
  readonly mean: number;
}

/** The mean of a column over each leg's rows, in the order of the legs; legs without rows are left out. Never throws. */
export function legMeans(
  legs: readonly Leg[],
  time: ArrayLike<number>,
  column: ArrayLike<number>,
): readonly LegMean[] {
  let row = 0;
  return legs.flatMap((leg) => {
    while (row < time.length && time[row]! < leg.start) row++;
    let sum = 0;
    let count = 0;
    for (; row < time.length && time[row]! <= leg.end; row++) {
      if (Number.isNaN(column[row]!)) continue;
      sum += column[row]!;
      count++;
    }
    return count > 0 ? [{ leg, mean: sum / count }] : [];
  });
}
