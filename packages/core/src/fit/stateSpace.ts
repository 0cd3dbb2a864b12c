import type { Column, Seconds } from "../units.ts";
import { lowestPoint } from "./nelderMead.ts";
import { WanderFilter, type WanderModel } from "./wanderFilter.ts";

export type { WanderModel };

/** What comes of whitening besides the innovations. */
export interface Whitening {
  /** Σ ln S over the rows that have an innovation, S its variance before it is standardised. */
  readonly logDeterminant: number;
  /** How many rows have one: those with finite variance, less the first. */
  readonly innovations: number;
}

/**
 * M44. Standardised innovations of wandering series: what each row adds to all before it, over its standard deviation.
 * A row's value is level + turbulence + error, the first two averaged over the row. Of the level nothing is known
 * beforehand: the first row fixes it and has no innovation. Linear in the columns; O(rows); allocates nothing per row.
 *
 * @param times middle of each row, s, rising; rows that overlap count as touching
 * @param durations s, not negative
 * @param variances of each row's own error, positive; Infinity leaves the row out, whatever its values
 * @param columns row-major, rows × any number of series; NaN in a row that counts makes all later innovations NaN
 * @param out in standard deviations: as long as `columns`, 0 in rows without an innovation; may be `columns` itself
 * @returns what the restricted log likelihood needs: −½ (Σ innovation² + logDeterminant + innovations · ln 2π)
 * @throws RangeError if lengths disagree, times do not rise, or a scale, duration or variance is out of range
 * @see A. C. Harvey, 1989: Forecasting, Structural Time Series Models and the Kalman Filter, sections 3.2 and 3.4
 * @example
 * const model = { slow: 0.01, fast: 0, fastSeconds: 20 };
 * const [times, durations] = [Float64Array.of(0, 30), Float64Array.of(30, 30)];
 * whiten(model, times, durations, Float64Array.of(1, 1), Float64Array.of(2, 2), new Float64Array(2)).innovations // 1
 */
export function whiten(
  model: WanderModel,
  times: Column<Seconds>,
  durations: Column<Seconds>,
  variances: Float64Array,
  columns: Float64Array,
  out: Float64Array,
): Whitening {
  checkModel(model);
  checkRows(times, durations, variances);
  checkLengths(times.length, columns.length, out.length);
  const filter = new WanderFilter(model);
  const series = columns.length / times.length || 0;
  const levels = new Float64Array(series);
  const gusts = new Float64Array(series);
  let logDeterminant = 0;
  let innovations = 0;
  let product = 1;
  for (let row = 0; row < times.length; row++) {
    const from = row * series;
    if (variances[row] === Number.POSITIVE_INFINITY) {
      out.fill(0, from, from + series);
      continue;
    }
    filter.advance(times[row]!, durations[row]!, variances[row]!);
    innovate(filter, columns, from, levels, gusts, out);
    if (filter.variance === Number.POSITIVE_INFINITY) continue;
    product *= filter.variance;
    if (!(product > SMALL && product < LARGE)) {
      logDeterminant += Math.log(product);
      product = 1;
    }
    innovations++;
  }
  return { logDeterminant: logDeterminant + Math.log(product), innovations };
}

/** A product of variances is kept between these, far from both ends of the numbers: one logarithm for many rows. */
const SMALL = 1e-150;
const LARGE = 1e150;

/** One row's innovations, and each series' level and turbulence at the end of it. */
function innovate(
  { kept, onMean, onEnd, levelGain, gustGain, variance }: WanderFilter,
  columns: Float64Array,
  from: number,
  levels: Float64Array,
  gusts: Float64Array,
  out: Float64Array,
): void {
  const standard = Math.sqrt(variance);
  for (let series = 0; series < levels.length; series++) {
    const gust = gusts[series]! * kept;
    const innovation = columns[from + series]! - levels[series]! - onMean * gust;
    levels[series] = levels[series]! + levelGain * innovation;
    gusts[series] = onEnd * gust + gustGain * innovation;
    out[from + series] = innovation / standard;
  }
}

/**
 * M44. Restricted log likelihood of one series under a model of wander.
 *
 * @param variances as to `whiten`, in the square of the unit of the series
 * @param series a value a row, in any unit
 * @param innovations scratch as long as the series, left holding its innovations (over their standard deviations)
 * @returns NaN where the value of a row that counts is
 * @throws RangeError as `whiten`
 * @example
 * const model = { slow: 0.01, fast: 0, fastSeconds: 20 };
 * const [times, durations] = [Float64Array.of(0, 30), Float64Array.of(30, 30)];
 * const of = (second) => wanderLogLikelihood(model, times, durations, Float64Array.of(1, 1), Float64Array.of(0, second), new Float64Array(2));
 * of(0) > of(3) // true
 */
export function wanderLogLikelihood(
  model: WanderModel,
  times: Column<Seconds>,
  durations: Column<Seconds>,
  variances: Float64Array,
  series: Float64Array,
  innovations: Float64Array,
): number {
  if (series.length !== times.length)
    throw new RangeError(
      `wanderLogLikelihood: needs a value for each of ${times.length} times, got ${series.length}`,
    );
  const whitening = whiten(model, times, durations, variances, series, innovations);
  let squares = 0;
  for (let row = 0; row < innovations.length; row++) squares += innovations[row]! ** 2;
  return -(squares + whitening.logDeterminant + whitening.innovations * Math.log(2 * Math.PI)) / 2;
}

/** What is held of a positive scale beforehand: its natural logarithm is normal. */
export interface ScalePrior {
  /** In the unit of the scale. */
  readonly median: number;
  /** Standard deviation of its natural logarithm: a ratio. */
  readonly logSd: number;
}

/** What is held of the scales of wander before any data. */
export interface WanderPrior {
  readonly slow: ScalePrior;
  readonly fast: ScalePrior;
  /** Time scales of turbulence to choose from, s. */
  readonly fastSeconds: readonly Seconds[];
}

/** Scales of wander that a series shows. */
export interface FittedWander {
  /** The most probable ones. */
  readonly model: WanderModel;
  /** Their root mean squares over what the series leaves of doubt: a little larger, the more so the less it tells. */
  readonly rootMeanSquare: WanderModel;
  /** Four others about these, each a standard deviation of the doubt away: both ways along two directions that the series leaves in doubt independently. */
  readonly asLikely: readonly WanderModel[];
  /** Restricted log likelihood there, without the priors. */
  readonly logLikelihood: number;
}

/** Scales are sought up to so many prior standard deviations from the median, where a normal prior leaves 2 in 10⁹. */
const FARTHEST = 6;

/** Where to start from, in prior standard deviations: walk and turbulence can each take the other's part. */
const STARTS = [-1.5, 0, 1.5];

/** The search ends at this share of a prior standard deviation, far finer than a series tells it. */
const FINE = 1e-3;

/**
 * M45. The most probable scales of wander for one series: restricted likelihood (M44) times priors, highest over the
 * logarithms of both scales, for each time scale in turn. Where the series says little the medians of the priors stay.
 *
 * @param times middle of each row, s, rising
 * @param durations s, not negative
 * @param variances of each row's own error, in the square of the unit of the series
 * @param series a value a row, in any unit
 * @throws RangeError as `whiten`, or if a value of a row that counts is not finite, a prior not positive and finite, or
 *   there is no time scale
 * @example
 * const times = Float64Array.from({ length: 40 }, (_, row) => 30 * row);
 * const durations = times.map(() => 30);
 * const series = times.map((time) => Math.sin(time / 90));
 * const prior = { slow: { median: 0.02, logSd: 1 }, fast: { median: 0.1, logSd: 1 }, fastSeconds: [20, 30] };
 * maximumLikelihoodWander(times, durations, series, times.map(() => 1e-4), prior).model.slow > 0 // true
 */
export function maximumLikelihoodWander(
  times: Column<Seconds>,
  durations: Column<Seconds>,
  series: Float64Array,
  variances: Float64Array,
  prior: WanderPrior,
): FittedWander {
  checkPrior(prior);
  checkSeries(series, variances);
  const tells = variances.some((variance) => variance < Number.POSITIVE_INFINITY);
  const innovations = new Float64Array(series.length);
  const likelihood = (model: WanderModel): number =>
    wanderLogLikelihood(model, times, durations, variances, series, innovations);
  const found = prior.fastSeconds.map((fastSeconds) => {
    const modelAt = ([slow = 0, fast = 0]: readonly number[]): WanderModel => ({
      slow: scaleAt(prior.slow, slow),
      fast: scaleAt(prior.fast, fast),
      fastSeconds,
    });
    const objective = (at: readonly number[]): number =>
      at[0]! ** 2 / 2 + at[1]! ** 2 / 2 - likelihood(modelAt(at));
    const { at, value } = tells ? lowestOverStarts(objective) : { at: [0, 0], value: 0 };
    return { at, value, objective, modelAt };
  });
  const { at, objective, modelAt } = found.reduce((lowest, one) => (one.value < lowest.value ? one : lowest));
  const model = modelAt(at);
  const doubt = doubtAbout(at, objective);
  const middle = [at[0]! + prior.slow.logSd * doubt.slow, at[1]! + prior.fast.logSd * doubt.fast] as const;
  const asLikely = standardMoves(doubt).map(([slow, fast]) => modelAt([middle[0] + slow, middle[1] + fast]));
  return { model, rootMeanSquare: modelAt(middle), asLikely, logLikelihood: likelihood(model) };
}

/** Step of the differences that the curvature is taken by, in prior standard deviations: as wide as what is usual to know. */
const CURVATURE_STEP = 0.3;

/** Variances of both coordinates, in prior variances, and their covariance. */
interface Doubt {
  readonly slow: number;
  readonly fast: number;
  readonly both: number;
}

/**
 * M45. How uncertain both coordinates of a minimum of −ln posterior are: the inverse of its second derivatives; no more than
 * the priors are, whose variances are 1, where they have none.
 */
function doubtAbout(at: readonly number[], objective: (at: readonly number[]) => number): Doubt {
  const shifted = (first: number, second: number): number =>
    objective([at[0]! + first * CURVATURE_STEP, at[1]! + second * CURVATURE_STEP]);
  const twice = 2 * shifted(0, 0);
  const first = shifted(1, 0) + shifted(-1, 0) - twice;
  const second = shifted(0, 1) + shifted(0, -1) - twice;
  const mixed = (shifted(1, 1) + shifted(-1, -1) - shifted(1, -1) - shifted(-1, 1)) / 4;
  const determinant = first * second - mixed ** 2;
  if (!(determinant > 0 && first > 0)) return { slow: 1, fast: 1, both: 0 };
  const inverse = (minor: number): number => (minor * CURVATURE_STEP ** 2) / determinant;
  const [slow, fast] = [inverse(second), inverse(first)];
  const bound = Math.sqrt(Math.min(1, 1 / slow) * Math.min(1, 1 / fast));
  return { slow: Math.min(1, slow), fast: Math.min(1, fast), both: -inverse(mixed) * bound };
}

/** Moves of both coordinates by one standard deviation, both ways, along directions that are independent under a doubt. */
function standardMoves({ slow, fast, both }: Doubt): readonly (readonly [number, number])[] {
  const along = Math.sqrt(slow);
  const [follows, besides] = [both / along, Math.sqrt(Math.max(0, fast - both ** 2 / slow))];
  return [
    [along, follows],
    [-along, -follows],
    [0, besides],
    [0, -besides],
  ];
}

const scaleAt = ({ median, logSd }: ScalePrior, deviations: number): number =>
  median * Math.exp(logSd * deviations);

/** Lowest point within reach, in prior standard deviations of both scales, from the best of a grid of starts. */
function lowestOverStarts(objective: (at: readonly number[]) => number) {
  const bounded = (at: readonly number[]): number =>
    at.some((deviations) => Math.abs(deviations) > FARTHEST) ? Number.POSITIVE_INFINITY : objective(at);
  const starts = STARTS.flatMap((slow) => STARTS.map((fast) => [slow, fast]));
  const values = starts.map(bounded);
  const start = starts[values.indexOf(Math.min(...values))] ?? [0, 0];
  return lowestPoint(bounded, start, 0.5, FINE);
}

function checkModel({ slow, fast, fastSeconds }: WanderModel): void {
  if (!(slow >= 0 && fast >= 0 && fastSeconds > 0 && slow + fast + fastSeconds < Number.POSITIVE_INFINITY))
    throw new RangeError(
      `whiten: scales must be finite and not negative, their time positive; got ${slow}, ${fast}, ${fastSeconds}`,
    );
}

function checkLengths(rows: number, values: number, out: number): void {
  if (out !== values || (rows === 0 ? values : values % rows) !== 0)
    throw new RangeError(
      `whiten: columns must hold a multiple of ${rows} values, out as many; got ${values}, ${out}`,
    );
}

function checkRows(times: Float64Array, durations: Float64Array, variances: Float64Array): void {
  if (durations.length !== times.length || variances.length !== times.length)
    throw new RangeError(
      `whiten: needs a duration and a variance for each of ${times.length} times, got ${durations.length}, ${variances.length}`,
    );
  let last = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < times.length; row++) {
    if (!(times[row]! >= last && times[row]! < Number.POSITIVE_INFINITY))
      throw new RangeError(`whiten: times must be finite and rise, got ${times[row]} in row ${row}`);
    if (!(durations[row]! >= 0 && durations[row]! < Number.POSITIVE_INFINITY))
      throw new RangeError(
        `whiten: durations must be finite and not negative, got ${durations[row]} in row ${row}`,
      );
    if (!(variances[row]! > 0))
      throw new RangeError(`whiten: variances must be positive, got ${variances[row]} in row ${row}`);
    last = times[row]!;
  }
}

function checkSeries(series: Float64Array, variances: Float64Array): void {
  for (let row = 0; row < series.length; row++)
    if (!Number.isFinite(series[row]!) && variances[row] !== Number.POSITIVE_INFINITY)
      throw new RangeError(
        `maximumLikelihoodWander: a row with finite variance needs a finite value, got ${series[row]} in row ${row}`,
      );
}

function checkPrior({ slow, fast, fastSeconds }: WanderPrior): void {
  for (const { median, logSd } of [slow, fast])
    if (!(median > 0 && logSd > 0 && median + logSd < Number.POSITIVE_INFINITY))
      throw new RangeError(
        `maximumLikelihoodWander: a prior's median and logSd must be positive and finite, got ${median}, ${logSd}`,
      );
  if (fastSeconds.length === 0)
    throw new RangeError("maximumLikelihoodWander: needs at least one time scale, got none");
}
