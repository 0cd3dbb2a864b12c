import type { QuantityName, Source } from "../../recording/readings.ts";
import type { Seconds } from "../../units.ts";
import type { JobRun, LogSource } from "../logSource.ts";
import { readingsOf } from "./readingsOf.ts";

/** The readings of one source in a log, one a second, NaN where there was none. */
export interface SourceSeries {
  readonly quantity: QuantityName;
  readonly source: string;
  /** The first second, s since 1970 UTC. */
  readonly start: Seconds;
  readonly values: Float64Array;
}

/** Silence longer than this ends a series: no stay at a dock is stitched together from two. */
const LONGEST_SILENCE: Seconds = 600;

/** A log of an exercise alongside is not longer than this. */
const LONGEST: Seconds = 24 * 3600;

/**
 * Series of some quantities, second by second, of each source that has them: for exercises alongside, whose logs are short.
 *
 * @returns the longest unbroken series of each source. @throws what reading throws
 */
export async function logSeries(
  logs: readonly LogSource[],
  quantities: readonly QuantityName[],
  run: JobRun,
): Promise<readonly SourceSeries[]> {
  const seconds = new Map<Source, Map<number, number>>();
  await readingsOf(logs, quantities, run, (source, time, value) => {
    const own = seconds.get(source) ?? new Map<number, number>();
    if (own.size < LONGEST) own.set(Math.floor(time), value);
    seconds.set(source, own);
  });
  return [...seconds].map(([{ quantity, name }, own]) => ({
    quantity,
    source: name,
    ...longestStretch(own),
  }));
}

/** The series of a quantity that lasts longest. Never throws. */
export const longest = (series: readonly SourceSeries[], quantity: QuantityName): SourceSeries | undefined =>
  series
    .filter((one) => one.quantity === quantity)
    .sort((one, other) => other.values.length - one.values.length)[0];

function longestStretch(own: ReadonlyMap<number, number>): Pick<SourceSeries, "start" | "values"> {
  const times = [...own.keys()].sort((a, b) => a - b);
  let [from, best] = [0, [0, 0] as readonly [number, number]];
  times.forEach((time, at) => {
    if (at > 0 && time - times[at - 1]! > LONGEST_SILENCE) from = at;
    if (time - times[from]! > times[best[1]]! - times[best[0]]!) best = [from, at];
  });
  const [start, end] = [times[best[0]]!, times[best[1]]!];
  const values = new Float64Array(end - start + 1).fill(Number.NaN);
  for (const [time, value] of own) if (time >= start && time <= end) values[time - start] = value;
  return { start, values };
}
