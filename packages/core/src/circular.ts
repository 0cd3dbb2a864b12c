import { angleBetween, wrapDirection } from "./angles.ts";
import type { Radians } from "./units.ts";

/**
 * Statistics of directions. Columns are radians from any origin; a NaN among them makes the answer NaN, so leave gaps
 * out first. Never throws unless said.
 *
 * @see K. V. Mardia, P. E. Jupp, 2000: Directional Statistics, chapter 2; J. H. Zar, 2010: Biostatistical Analysis,
 *   chapter 26
 */

/** Sums nearer to zero than this share of the total weight point nowhere: rounding of some thousand cancelling terms. */
const POINTS_NOWHERE = 1e-12;

interface Mean {
  readonly sine: number;
  readonly cosine: number;
}

/** M5. Weighted means of sines and cosines. */
function meanVector(angles: ArrayLike<number>, weights: ArrayLike<number> | undefined, caller: string): Mean {
  if (weights !== undefined && weights.length !== angles.length)
    throw new RangeError(
      `${caller}: weights must be as many as the angles, got ${weights.length} for ${angles.length}`,
    );
  let sine = 0;
  let cosine = 0;
  let total = 0;
  for (let index = 0; index < angles.length; index++) {
    const weight = weights?.[index] ?? 1;
    if (weight < 0) throw new RangeError(`${caller}: weights must not be negative, got ${weight}`);
    sine += weight * Math.sin(angles[index]!);
    cosine += weight * Math.cos(angles[index]!);
    total += weight;
  }
  return { sine: sine / total, cosine: cosine / total };
}

/**
 * M5. Mean direction: that of the mean vector, atan2(Σ w sin a, Σ w cos a).
 *
 * @param angles rad, from any origin
 * @param weights of the angles, in any unit, not negative; all alike if left out
 * @returns rad, [0, 2π); NaN where there are none or they cancel, since then every direction is as good
 * @throws RangeError where weights are not as many as the angles, or negative
 * @example
 * // Mardia and Jupp 2000, example 1.1
 * const angles = [43, 45, 52, 61, 75, 88, 88, 279, 357].map((angle) => radians(angle));
 * degrees(meanDirection(angles)).toFixed(0) // "51"
 */
export function meanDirection(angles: ArrayLike<number>, weights?: ArrayLike<number>): Radians {
  const { sine, cosine } = meanVector(angles, weights, "meanDirection");
  return Math.hypot(sine, cosine) < POINTS_NOWHERE ? Number.NaN : wrapDirection(Math.atan2(sine, cosine));
}

/**
 * M5. Resultant length R: length of the mean vector, 1 where all directions agree, near 0 where they point everywhere.
 *
 * @param angles rad, from any origin
 * @param weights of the angles, in any unit, not negative; all alike if left out
 * @returns from 0 to 1; NaN where there are none
 * @throws RangeError where weights are not as many as the angles, or negative
 * @example
 * // Mardia and Jupp 2000, example 1.1
 * resultantLength([43, 45, 52, 61, 75, 88, 88, 279, 357].map((angle) => radians(angle))).toFixed(3) // "0.711"
 */
export function resultantLength(angles: ArrayLike<number>, weights?: ArrayLike<number>): number {
  const { sine, cosine } = meanVector(angles, weights, "resultantLength");
  return Math.min(1, Math.hypot(sine, cosine));
}

/**
 * M6. Circular variance: 1 − R, in [0, 1].
 *
 * @param resultantLength R, from 0 to 1 (M5)
 * @returns from 0 to 1. Never throws; NaN in, NaN out.
 * @example
 * circularVariance(0.75) // 0.25
 */
export const circularVariance = (resultantLength: number): number => 1 - resultantLength;

/**
 * M6. Circular standard deviation: √(−2 ln R).
 *
 * @param resultantLength R, from 0 to 1 (M5)
 * @returns rad; infinite where R is 0. Never throws; NaN in, NaN out.
 * @example
 * circularStandardDeviation(Math.exp(-1 / 2)).toFixed(6) // "1.000000"
 */
export const circularStandardDeviation = (resultantLength: number): Radians =>
  Math.sqrt(Math.max(0, -2 * Math.log(resultantLength)));

/**
 * M6. Angular deviation: √(2 (1 − R)).
 *
 * @param resultantLength R, from 0 to 1 (M5)
 * @returns rad, at most √2. Never throws; NaN in, NaN out.
 * @example
 * angularDeviation(0.5) // 1
 */
export const angularDeviation = (resultantLength: number): Radians => Math.sqrt(2 * (1 - resultantLength));

/** Mean length of the arcs from a direction to the angles, rad. */
function meanArc(direction: Radians, angles: readonly number[]): Radians {
  let sum = 0;
  for (const angle of angles) sum += Math.abs(angleBetween(angle, direction));
  return sum / angles.length;
}

/** Directions in [0, 2π), ascending. */
const ascending = (angles: ArrayLike<number>): number[] =>
  Array.from(angles, wrapDirection).sort((one, other) => one - other);

/** The middle of the arc that leads clockwise from each direction to the next. */
const midArcs = (sorted: readonly number[]): number[] =>
  sorted.map((angle, index) => {
    const next = sorted[index + 1] ?? sorted[0]! + 2 * Math.PI;
    return wrapDirection((angle + next) / 2);
  });

/** Arcs that differ by less than this are ties: rounding of the sums, in rad. */
const TIE: Radians = 1e-12;

/**
 * M7. Median direction: from where the mean arc to the angles is shortest; one of the angles where they are odd in
 * number, the middle between two neighbours where they are even, the mean direction of these where several tie. Takes
 * time as the square of their number.
 *
 * @param angles rad, from any origin
 * @returns rad, [0, 2π); NaN where there are none, or where ties cancel. Never throws.
 * @example
 * // Mardia and Jupp 2000, example 1.1
 * degrees(medianDirection([43, 45, 52, 61, 75, 88, 88, 279, 357].map((angle) => radians(angle)))).toFixed(0) // "52"
 */
export function medianDirection(angles: ArrayLike<number>): Radians {
  const sorted = ascending(angles);
  if (sorted.length === 0 || sorted.some(Number.isNaN)) return Number.NaN;
  const candidates = sorted.length % 2 === 1 ? sorted : midArcs(sorted);
  const arcs = candidates.map((candidate) => meanArc(candidate, sorted));
  const shortest = Math.min(...arcs);
  return meanDirection(candidates.filter((_, index) => arcs[index]! - shortest <= TIE));
}

/**
 * M8. Circular range: length of the shortest arc that holds all the angles, 2π less the widest gap between neighbours.
 *
 * @param angles rad, from any origin
 * @returns rad, [0, 2π); NaN where there are none. Never throws.
 * @example
 * // Mardia and Jupp 2000, example 1.1
 * degrees(circularRange([43, 45, 52, 61, 75, 88, 88, 279, 357].map((angle) => radians(angle)))).toFixed(0) // "169"
 */
export function circularRange(angles: ArrayLike<number>): Radians {
  const sorted = ascending(angles);
  if (sorted.length === 0 || sorted.some(Number.isNaN)) return Number.NaN;
  let widest = 0;
  sorted.forEach((angle, index) => {
    const next = sorted[index + 1] ?? sorted[0]! + 2 * Math.PI;
    widest = Math.max(widest, next - angle);
  });
  return 2 * Math.PI - widest;
}
