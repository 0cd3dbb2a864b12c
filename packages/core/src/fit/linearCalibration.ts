import type { LinearChannel } from "../sensors/linearChannel.ts";
import { linearFit, type SolvedLinearFit, toldBy } from "./linearFit.ts";
import type { Prior } from "./priors.ts";

/** A known point of a channel: its reading and the truth, each in its own unit. */
export interface KnownPoint {
  readonly reading: number;
  readonly truth: number;
}

/** What is stated of the points beforehand, in the unit of the truth. */
export interface LinearCalibrationOptions {
  /** Standard deviation of a point, in the unit of the truth. */
  readonly deviation: number;
  /** What is known of the gain beforehand, so that one point can tell the offset; without it two points that differ are needed. */
  readonly gain?: Prior;
}

/** A channel as its points tell it, each number in the unit of truth or reading, with half 95 % intervals. */
export interface SolvedChannel extends LinearChannel {
  readonly status: "solved";
  readonly offsetHalf: number;
  readonly gainHalf: number;
  /** Truth at the middle of the readings, where it is known best, with half its interval. */
  readonly middle: { readonly reading: number; readonly truth: number; readonly half: number };
  readonly residuals: readonly number[];
  readonly spare: number;
  readonly scatter: number;
  readonly fit: SolvedLinearFit;
}

/** Why points cannot answer. */
export interface UnsolvedChannel {
  readonly status: "unsolved";
  readonly reason: "no point" | "one reading";
}

/** Readings that differ by less than this share of their size are one: rounding. */
const ONE_READING = 1e-9;

/**
 * M127. Offset and gain of a linear channel from known points, by least squares, with 95 % intervals (M121).
 *
 * @returns `unsolved` without points, and where all have one reading and nothing is known of the gain
 * @throws RangeError where a point is not finite or the deviation out of range
 *
 * @example
 * const found = linearCalibration([{ reading: 1, truth: 3 }, { reading: 2, truth: 5 }], { deviation: 0.1 });
 * [found.offset, found.gain].map((value) => value.toFixed(6)) // ["1.000000", "2.000000"]
 */
export function linearCalibration(
  points: readonly KnownPoint[],
  { deviation, gain: prior }: LinearCalibrationOptions,
): SolvedChannel | UnsolvedChannel {
  if (points.length === 0) return { status: "unsolved", reason: "no point" };
  const readings = points.map(({ reading }) => reading);
  const [least, most] = [Math.min(...readings), Math.max(...readings)];
  if (!prior && !(most - least > ONE_READING * Math.max(Math.abs(least), Math.abs(most))))
    return { status: "unsolved", reason: "one reading" };
  const mean = readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
  // counted from the mean reading, so that offset and gain do not hang together
  const rows = points.map(({ reading, truth }) => ({
    columns: [1, reading - mean],
    value: truth,
    deviation,
  }));
  const fit = linearFit(rows, [undefined, prior]);
  if (fit.status === "unsolved") return { status: "unsolved", reason: "one reading" };
  const [middle, gain, offset] = [toldBy(fit, [1, 0]), toldBy(fit, [0, 1]), toldBy(fit, [1, -mean])];
  return {
    status: "solved",
    offset: offset.value,
    gain: gain.value,
    offsetHalf: offset.half,
    gainHalf: gain.half,
    middle: { reading: mean, truth: middle.value, half: middle.half },
    residuals: fit.residuals,
    spare: fit.spare,
    scatter: fit.scatter,
    fit,
  };
}
