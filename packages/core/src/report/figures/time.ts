import type { Leg } from "../../sailing/legRow.ts";
import { clock, timeOfDay } from "../format.ts";
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

/** Ticks on an axis of several days, about so many that they stand beside each other on a phone, and the steps between those of one day (s). */
const MOST_TICKS = 6;
const STEPS = [1800, 3600, 7200, 10_800, 21_600] as const;

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** "3 Jun": the year is told beside the figure. */
function dayAndMonth(time: number): string {
  const [, month, day] = clock(time).slice(0, 10).split("-").map(Number);
  return `${day} ${MONTHS[month! - 1]}`;
}

/** Stretches of time without such a pause. */
function blocksOf(time: ArrayLike<number>): readonly (readonly [number, number])[] {
  const blocks: [number, number][] = [];
  for (const at of Array.from(time)) {
    const last = blocks.at(-1);
    if (last && at - last[1] <= LONGEST_PAUSE) last[1] = at;
    else blocks.push([at, at]);
  }
  return blocks;
}

/**
 * Ticks for a time axis out of which pauses are cut: each day's first has its date, which an axis without them would lose. Nothing
 * where there is no such pause. Never throws.
 */
export function dayTicks(time: ArrayLike<number>): JsonObject {
  const blocks = blocksOf(time);
  if (blocks.length < 2) return {};
  const all = blocks.reduce((sum, [start, end]) => sum + end - start, 0);
  const step = STEPS.find((one) => all / one + blocks.length <= MOST_TICKS);
  const shown = blocks.filter((_, index) => index % Math.ceil(blocks.length / MOST_TICKS) === 0);
  const ticks = shown.flatMap(([start, end]) => [
    { at: start, text: `${timeOfDay(start).slice(0, 5)}<br>${dayAndMonth(start)}` },
    ...(step === undefined ? [] : within(start, end, step)),
  ]);
  return {
    tickmode: "array",
    tickangle: 0,
    tickvals: times(ticks.map(({ at }) => at)),
    ticktext: ticks.map(({ text }) => text),
  };
}

/** Whole steps of the clock within a day, neither too near to its first tick nor at its very end. */
function within(start: number, end: number, step: number) {
  const first = Math.ceil(start / step + 0.6);
  const count = Math.max(0, Math.floor(end / step - 0.2) - first + 1);
  return Array.from({ length: count }, (_, index) => {
    const at = (first + index) * step;
    return { at, text: timeOfDay(at).slice(0, 5) };
  });
}

/** Tells by its index whether one of so many rows is shown: at most a number of them are, evenly spread. Never throws. */
export function evenly(count: number, most: number): (index: number) => boolean {
  const share = Math.min(1, most / count);
  return (index) => Math.floor((index + 1) * share) > Math.floor(index * share);
}

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
