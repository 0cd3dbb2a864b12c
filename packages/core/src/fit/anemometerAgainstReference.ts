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
    "48 intervals at least are needed that both sources have, worth eight that do not hang together",
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

/** Intervals that hang together so much that they are worth fewer than this tell too little of their own doubt. */
const FEWEST_WORTH = 8;

/** The largest of the quiet and the least of the windy tenth must differ by this factor. */
const RANGE = 1.6;

/** Series that go together worse than this saw different winds. */
const LEAST_CORRELATION = 0.7;

/** The correlation is found from the same intervals, which costs a third of their freedom: so measured on simulated series. */
const CORRELATION_COSTS = 1.5;

/** A correlation nearer to 1 than this leaves a series worth nothing. */
const MOST_CORRELATION = 0.95;

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
  /** By how much correlation from interval to interval widens what independent ones would leave. */
  readonly widening: number;
  readonly freedom: number;
}

/**
 * M132. Correlation from interval to interval, ρ of the first lag less its bias of −(2 + 4ρ)/n about a line, which makes n intervals worth
 * n (1 − ρ)/(1 + ρ); two of these are taken up by the line.
 */
function worthOf(pairs: readonly ComparedSpeed[], { threshold, gain }: Line): Worth {
  const left = pairs.map(({ reading, reference }) => reference - threshold - gain * reading);
  const square = left.reduce((sum, one) => sum + one * one, 0);
  const product = left.slice(1).reduce((sum, one, at) => sum + one * left[at]!, 0);
  const seen = square > 0 ? product / square : 0;
  const correlation = Math.min(MOST_CORRELATION, Math.max(0, seen + (2 + 4 * seen) / left.length));
  const widening = (1 + correlation) / (1 - correlation);
  return {
    left,
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
function lineHalf(
  pairs: readonly ComparedSpeed[],
  ratio: number,
  { gain }: Line,
  { left, widening, freedom }: Worth,
  level: number,
  tilt: number,
): number {
  const freed = pairs.map(({ reading }, at) => reading + (gain * left[at]!) / (ratio + gain * gain));
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
  const worth = worthOf(pairs, line);
  if (pairs.length / worth.widening < FEWEST_WORTH)
    return { status: "unsolved", reason: "too few intervals" };
  const half = (level: number, tilt: number): number => lineHalf(pairs, errorRatio, line, worth, level, tilt);
  const gainAt = (reading: MetresPerSecond): SolvedAnemometer["atMean"] => {
    const value = line.gain + line.threshold / reading;
    return { reading, gain: value, half: Math.hypot(half(1 / reading, 1 - x / reading), common * value) };
  };
  const atMean = gainAt(x);
  if (reason !== undefined) return { status: "unsolved", reason, atMean };
  return {
    status: "solved",
    threshold: line.threshold,
    thresholdHalf: half(1, -x),
    gain: line.gain,
    gainHalf: Math.hypot(half(0, 1), common * line.gain),
    atMean,
    gainAt,
    intervals: pairs.length,
    worth: Math.floor(pairs.length / worth.widening),
    spread: Math.sqrt(worth.left.reduce((sum, one) => sum + one * one, 0) / pairs.length),
  };
}
