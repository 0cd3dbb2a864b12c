import type { MetresPerSecond } from "../units.ts";
import { studentQuantile } from "./studentQuantile.ts";

/** Wind speeds of one interval, by the boat's anemometer and by another that is trusted. */
export interface ComparedSpeed {
  readonly reading: MetresPerSecond;
  readonly reference: MetresPerSecond;
}

/** What is stated of two sources beforehand: a ratio and a share. */
export interface ReferenceOptions {
  /** Variance of the reference's errors over that of the readings'; 1 where both see the same gusts alike. */
  readonly errorRatio: number;
  /** How well the reference itself is known, one standard deviation of its gain: its own calibration, another height, another place. */
  readonly referenceGain: number;
}

/**
 * Why two series cannot answer.
 *
 * @example
 * REFERENCE_REFUSALS["no reference"].startsWith("there is no second source") // true
 */
export const REFERENCE_REFUSALS = {
  "no reference": "there is no second source of wind speed, and an anemometer cannot be judged by itself",
  "too few intervals":
    "too few means of both sources: 48 at least are needed, over so long that the wind changes by itself three times; compare for longer, days rather than hours",
  "no range of speeds":
    "the wind kept to one speed, so that threshold and gain are one number: compare again in a wind from light to fresh",
  "not one wind": "the two series do not go together: they saw different winds, or their clocks differ",
} as const;

/** One of the reasons of REFERENCE_REFUSALS. */
export type ReferenceRefusal = keyof typeof REFERENCE_REFUSALS;

/** An anemometer as another tells it, m/s; gains are factors, with half 95 % intervals. */
export interface SolvedAnemometer {
  readonly status: "solved";
  /** M24. */
  readonly threshold: MetresPerSecond;
  readonly thresholdHalf: MetresPerSecond;
  readonly gain: number;
  /** With what is not known of the reference. */
  readonly gainHalf: number;
  /** Truth over reading at the mean reading, which is known best. */
  readonly atMean: { readonly reading: MetresPerSecond; readonly gain: number; readonly half: number };
  /** Truth over reading at any reading. */
  readonly gainAt: (reading: MetresPerSecond) => SolvedAnemometer["atMean"];
  readonly intervals: number;
  /** How many independent intervals they are worth. */
  readonly worth: number;
  /** Spread of the intervals about the line, in the unit of the reference. */
  readonly spread: MetresPerSecond;
}

/** Two series that cannot answer; where only their range is too narrow, what they tell at its middle. */
export interface UnsolvedAnemometer {
  readonly status: "unsolved";
  readonly reason: ReferenceRefusal;
  readonly atMean?: SolvedAnemometer["atMean"];
}

const FEWEST = 48;

/**
 * Intervals that hang together so much that they are worth fewer than this tell nothing. A higher bound would let through those alone that
 * hang together less than they seem to, and their intervals would not hold.
 */
const FEWEST_WORTH = 3;

/** The largest of the quiet and the least of the windy tenth must differ by this factor. */
const RANGE = 1.6;

/** Series that go together worse than this saw different winds. */
const LEAST_CORRELATION = 0.7;

/** The correlation is found from the same intervals, which costs a third of their freedom: so measured on simulated series. */
const CORRELATION_COSTS = 1.5;

/** Correlations from interval to interval that are weighed against each other: none to nearly whole. */
const CORRELATIONS = Array.from({ length: 66 }, (_, at) => 0.015 * at);

interface Line {
  readonly threshold: number;
  readonly gain: number;
}

function momentsOf(pairs: readonly ComparedSpeed[]) {
  const count = pairs.length;
  const x = pairs.reduce((sum, { reading }) => sum + reading, 0) / count;
  const y = pairs.reduce((sum, { reference }) => sum + reference, 0) / count;
  let [xx, xy, yy] = [0, 0, 0];
  for (const { reading, reference } of pairs) {
    xx += (reading - x) ** 2;
    xy += (reading - x) * (reference - y);
    yy += (reference - y) ** 2;
  }
  return { x, y, xx: xx / count, xy: xy / count, yy: yy / count };
}

/** M132. The line through points with errors in both coordinates (W. E. Deming): δ the ratio of their variances. */
function lineThrough(pairs: readonly ComparedSpeed[], ratio: number): Line {
  const { x, y, xx, xy, yy } = momentsOf(pairs);
  const excess = yy - ratio * xx;
  const gain = (excess + Math.hypot(excess, 2 * Math.sqrt(ratio) * xy)) / (2 * xy);
  return { threshold: y - gain * x, gain };
}

/** What intervals about a line are worth: how many independent ones, and the mean square of their distance. */
interface Worth {
  /** Reference less line, one an interval. */
  readonly left: readonly number[];
  /** Readings freed of their share of that distance. */
  readonly freed: readonly number[];
  /** By how much correlation from interval to interval widens what independent ones would leave. */
  readonly widening: number;
  readonly freedom: number;
}

/**
 * M132. −2 ln of the restricted likelihood of a correlation from interval to interval, when a line through the regressors is taken from what is left: sums
 * of squares and products of 1, regressor and remainder after each is freed of what the one before foretells of it.
 */
function misfitOf(correlation: number, left: readonly number[], regressors: readonly number[]): number {
  const rest = Math.sqrt(1 - correlation ** 2);
  let [ones, cross, squares, sum, product, whole] = [0, 0, 0, 0, 0, 0];
  left.forEach((one, at) => {
    const isFirst = at === 0;
    const unit = isFirst ? rest : 1 - correlation;
    const x = isFirst ? rest * regressors[0]! : regressors[at]! - correlation * regressors[at - 1]!;
    const y = isFirst ? rest * one : one - correlation * left[at - 1]!;
    ones += unit ** 2;
    cross += unit * x;
    squares += x ** 2;
    sum += unit * y;
    product += x * y;
    whole += y ** 2;
  });
  const determinant = ones * squares - cross ** 2;
  const fitted = (sum ** 2 * squares - 2 * sum * product * cross + product ** 2 * ones) / determinant;
  return (
    (left.length - 2) * Math.log(whole - fitted) + Math.log(determinant) - Math.log(1 - correlation ** 2)
  );
}

/** Mean of the correlations, each by its likelihood. */
function likelyCorrelation(left: readonly number[], regressors: readonly number[]): number {
  if (left.every((one) => one === 0)) return 0;
  const misfits = CORRELATIONS.map((correlation) => misfitOf(correlation, left, regressors));
  const least = Math.min(...misfits);
  const weights = misfits.map((misfit) => Math.exp((least - misfit) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return CORRELATIONS.reduce((sum, correlation, at) => sum + correlation * weights[at]!, 0) / total;
}

/**
 * M132. Correlation from interval to interval, the mean over what its restricted likelihood leaves, which makes n intervals worth
 * n (1 − ρ)/(1 + ρ); two of these are taken up by the line.
 */
function worthOf(pairs: readonly ComparedSpeed[], ratio: number, { threshold, gain }: Line): Worth {
  const left = pairs.map(({ reading, reference }) => reference - threshold - gain * reading);
  const freed = pairs.map(({ reading }, at) => reading + (gain * left[at]!) / (ratio + gain * gain));
  const correlation = likelyCorrelation(left, freed);
  const widening = (1 + correlation) / (1 - correlation);
  return {
    left,
    freed,
    widening,
    freedom: Math.max(1, Math.floor((left.length / widening - 2) / CORRELATION_COSTS)),
  };
}

/**
 * M132. Half the 95 % interval of threshold at · · · + gain: each interval's pull on the line, ψ = e (level + tilt (x − x̄) / σ²), x the reading
 * freed of its share of the distance e, widened by the correlation, with Student's quantile of what is left.
 *
 * @param level how the number goes with the line's height, @param tilt with its slope
 */
function lineHalf({ left, freed, widening, freedom }: Worth, level: number, tilt: number): number {
  const mean = freed.reduce((sum, one) => sum + one, 0) / freed.length;
  const variance = freed.reduce((sum, one) => sum + (one - mean) ** 2, 0) / freed.length;
  const squares = left.reduce(
    (sum, one, at) => sum + (one * (level + (tilt * (freed[at]! - mean)) / variance)) ** 2,
    0,
  );
  const count = left.length;
  return studentQuantile(freedom) * Math.sqrt((squares * widening) / (count * (count - 2 * widening)));
}

function refusal(pairs: readonly ComparedSpeed[]): ReferenceRefusal | undefined {
  if (pairs.length === 0) return "no reference";
  if (pairs.length < FEWEST) return "too few intervals";
  const { xx, xy, yy } = momentsOf(pairs);
  const sorted = pairs.map(({ reading }) => reading).sort((a, b) => a - b);
  const tenth = Math.floor(sorted.length / 10);
  const range = sorted.at(-1 - tenth)! / sorted[tenth]!;
  if (!(xy / Math.sqrt(xx * yy) >= LEAST_CORRELATION))
    return range >= RANGE ? "not one wind" : "no range of speeds";
  return range >= RANGE ? undefined : "no range of speeds";
}

/**
 * M132. Threshold and gain of an anemometer (M24) against a second source, both with errors: a line through their means over
 * minutes, with intervals that reckon with what hangs together from one to the next. What is not known of the reference comes on top of the gain.
 *
 * @param pairs in the order of time, those with a standing cup (reading 0) left out
 * @returns `unsolved` with a reason of REFERENCE_REFUSALS
 * @throws RangeError where a speed is not positive and finite or an option out of range
 *
 * @example
 * anemometerAgainstReference([], { errorRatio: 1, referenceGain: 0.03 }).reason // "no reference"
 */
export function anemometerAgainstReference(
  pairs: readonly ComparedSpeed[],
  { errorRatio, referenceGain }: ReferenceOptions,
): SolvedAnemometer | UnsolvedAnemometer {
  if (!(errorRatio > 0 && errorRatio < Infinity && referenceGain >= 0))
    throw new RangeError(
      "anemometerAgainstReference: errorRatio must be positive, referenceGain not negative",
    );
  pairs.forEach(({ reading, reference }, index) => {
    if (!(reading > 0 && reference >= 0 && reading + reference < Infinity))
      throw new RangeError(`anemometerAgainstReference: speeds of interval ${index + 1} must be positive`);
  });
  const reason = refusal(pairs);
  if (reason !== undefined && reason !== "no range of speeds") return { status: "unsolved", reason };
  const line = lineThrough(pairs, errorRatio);
  const { x } = momentsOf(pairs);
  const common = 1.96 * referenceGain;
  const worth = worthOf(pairs, errorRatio, line);
  if (pairs.length / worth.widening < FEWEST_WORTH)
    return { status: "unsolved", reason: "too few intervals" };
  const half = (level: number, tilt: number): number => lineHalf(worth, level, tilt);
  const gainAt = (reading: MetresPerSecond): SolvedAnemometer["atMean"] => {
    const value = line.gain + line.threshold / reading;
    return { reading, gain: value, half: Math.hypot(half(1 / reading, 1 - x / reading), common * value) };
  };
  const atMean = gainAt(x);
  if (reason !== undefined) return { status: "unsolved", reason, atMean };
  return {
    status: "solved",
    threshold: line.threshold,
    thresholdHalf: Math.hypot(half(1, -x), common * line.threshold),
    gain: line.gain,
    gainHalf: Math.hypot(half(0, 1), common * line.gain),
    atMean,
    gainAt,
    intervals: pairs.length,
    worth: Math.floor(pairs.length / worth.widening),
    spread: Math.sqrt(worth.left.reduce((sum, one) => sum + one * one, 0) / pairs.length),
  };
}
