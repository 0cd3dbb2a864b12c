import type { Seconds } from "../units.ts";
import { ornsteinUhlenbeck } from "./processes.ts";
import type { RandomNumbers } from "./random.ts";
import type { WindOfDay } from "./scenario.ts";

/**
 * Time scales of the slow part, from shifts of minutes to hours, a choice, and their shares in its variance, which go with the power 2/3
 * of the scale: a spectrum that falls with frequency to the power −5/3.
 *
 * @see X. G. Larsén, C. Vincent, S. Larsen, 2013, Quarterly Journal of the Royal Meteorological Society 139, 685–700
 */
const SLOW_PARTS: readonly { readonly timeScale: Seconds; readonly share: number }[] = [
  { timeScale: 300, share: 0.09 },
  { timeScale: 1500, share: 0.26 },
  { timeScale: 6000, share: 0.65 },
];

/** Brings a series to mean 0 and a standard deviation, in place. */
function standardise(series: Float64Array, sd: number): Float64Array {
  let mean = 0;
  for (const value of series) mean += value / series.length;
  let variance = 0;
  for (const value of series) variance += (value - mean) ** 2 / series.length;
  const factor = variance > 0 ? sd / Math.sqrt(variance) : 0;
  return series.map((value) => (value - mean) * factor);
}

function slowPart(length: number, trend: number, sd: number, random: RandomNumbers): Float64Array {
  const spread = Math.sqrt(Math.max(0, sd * sd - (trend * trend) / 12));
  const parts = SLOW_PARTS.map(({ timeScale, share }) =>
    ornsteinUhlenbeck(spread * Math.sqrt(share), timeScale, 1, random),
  );
  const series = new Float64Array(length);
  for (let second = 0; second < length; second++) {
    series[second] = trend * (second / length - 0.5);
    for (const part of parts) series[second]! += part();
  }
  return standardise(series, sd);
}

/**
 * M177. A normal number stretched to heavier tails, x e^(h x²/2).
 *
 * @param tails h, 0 for a normal number as it is
 * @see J. W. Tukey's h distributions, in D. C. Hoaglin, 1985: Summarizing Shape Numerically: The g-and-h Distributions, in Exploring Data
 *   Tables, Trends, and Shapes
 */
const withTails = (normal: number, tails: number): number => normal * Math.exp((tails * normal * normal) / 2);

/** Wander of one quantity, a value a second: slow and turbulent part, each with its standard deviation over the sail. */
function wanderOf(
  length: number,
  trend: number,
  sd: number,
  turbulentSd: number,
  turbulenceSeconds: Seconds,
  tails: number,
  random: RandomNumbers,
): Float64Array {
  const slow = slowPart(length, trend, Math.sqrt(Math.max(0, sd * sd - turbulentSd * turbulentSd)), random);
  const turbulence = ornsteinUhlenbeck(1, turbulenceSeconds, 1, random);
  const fast = standardise(
    Float64Array.from(slow, () => withTails(turbulence(), tails)),
    turbulentSd,
  );
  return standardise(
    slow.map((value, second) => value + fast[second]!),
    sd,
  );
}

/** How the wind over the ground departs from its mean, a value a second: direction (rad) and ln speed. */
export interface Wander {
  readonly direction: Float64Array;
  readonly logSpeed: Float64Array;
}

/**
 * M72. How the wind wanders over a sail: direction and ln speed each the sum of a trend, of three Ornstein-Uhlenbeck
 * processes of 5, 25 and 100 minutes and of a turbulence, scaled so that over the sail they have the standard deviations
 * asked for, exactly.
 */
export function wanderOfWind(wind: WindOfDay, length: number, random: RandomNumbers): Wander {
  const { turbulenceSeconds, gustTails = 0 } = wind;
  return {
    direction: wanderOf(
      length,
      wind.veer,
      wind.directionSd,
      wind.turbulentDirectionSd,
      turbulenceSeconds,
      gustTails,
      random,
    ),
    logSpeed: wanderOf(
      length,
      wind.rise,
      wind.logSpeedSd,
      wind.turbulentLogSpeedSd,
      turbulenceSeconds,
      gustTails,
      random,
    ),
  };
}

/** A value at a moment between the seconds of a series, on the straight line. */
export function atMoment(series: Float64Array, seconds: Seconds): number {
  const before = Math.min(series.length - 1, Math.floor(seconds));
  const after = Math.min(series.length - 1, before + 1);
  return series[before]! + (series[after]! - series[before]!) * (seconds - before);
}
