import type { Seconds } from "../units.ts";
import { type AveragedStep, averagedStep } from "./averagedWander.ts";
import { lowestPoint } from "./nelderMead.ts";

/** How a quantity wanders: a random walk that nothing bounds, and turbulence about it. */
export interface WanderModel {
  /** Random walk, unit of the quantity per √s. */
  readonly slow: number;
  /** Standard deviation of the turbulence (Ornstein-Uhlenbeck), unit of the quantity. */
  readonly fast: number;
  /** Its time scale, s. */
  readonly fastSeconds: Seconds;
}

/** What came of whitening besides the innovations. */
export interface Whitening {
  /** Σ ln S over the rows that have an innovation, S their variances before standardising. */
  readonly logDeterminant: number;
  /** How many rows have an innovation: those with finite variance, less the first. */
  readonly innovations: number;
}

/**
 * M44. Standardised innovations of wandering series: what each row adds to all before it, over its standard deviation.
 * The mean of a row is level + turbulence + error, the first two averaged over the row exactly; the Kalman filter carries
 * both at the end of the row. Of the level nothing is known beforehand: the first row fixes it and has no innovation.
 * Linear in the columns, one pass of the gains for all; nothing is allocated per row.
 *
 * @param times middle of each row, s, rising; rows that overlap count as touching
 * @param durations s, not negative
 * @param variances of each row's own error, positive; Infinity leaves the row out, whatever its values
 * @param columns row-major, rows × any number of series
 * @param out as long as `columns`; 0 in rows without an innovation; may be `columns` itself
 * @returns with Σ innovation² the restricted log likelihood is −½ (Σ innovation² + logDeterminant + innovations · ln 2π)
 * @throws RangeError if lengths disagree, times do not rise, or a scale, duration or variance is out of range
 * @see A. C. Harvey, 1989: Forecasting, Structural Time Series Models and the Kalman Filter, sections 3.2.4 and 3.4.3
 */
export function whiten(
  model: WanderModel,
  times: Float64Array,
  durations: Float64Array,
  variances: Float64Array,
  columns: Float64Array,
  out: Float64Array,
): Whitening {
  const rows = times.length;
  checkSeries(model, times, durations, variances, columns, out);
  const series = rows === 0 ? 0 : columns.length / rows;
  const levels = new Float64Array(series);
  const gusts = new Float64Array(series);
  const slow = model.slow ** 2;
  const fast = model.fast ** 2;
  const step: AveragedStep = { onMean: 1, onEnd: 1, meanVariance: 0, endVariance: 0, covariance: 0 };
  let levelVariance = 0;
  let gustVariance = 0;
  let covariance = 0;
  let end = Number.NaN;
  let logDeterminant = 0;
  let innovations = 0;
  for (let row = 0; row < rows; row++) {
    const error = variances[row]!;
    const first = row * series;
    if (error === Number.POSITIVE_INFINITY) {
      out.fill(0, first, first + series);
      continue;
    }
    const duration = durations[row]!;
    averagedStep(duration, model.fastSeconds, step);
    if (Number.isNaN(end)) {
      levels.set(columns.subarray(first, first + series));
      out.fill(0, first, first + series);
      levelVariance = (slow * duration) / 3 + fast * (step.meanVariance + step.onMean ** 2) + error;
      covariance = -fast * step.onMean;
      gustVariance = fast;
      end = times[row]! + duration / 2;
      continue;
    }
    const gap = Math.max(0, times[row]! - duration / 2 - end);
    const kept = Math.exp(-gap / model.fastSeconds);
    levelVariance += slow * gap;
    covariance *= kept;
    gustVariance = fast + kept * kept * (gustVariance - fast);
    const { onMean, onEnd } = step;
    const variance =
      levelVariance +
      onMean * (2 * covariance + onMean * gustVariance) +
      (slow * duration) / 3 +
      fast * step.meanVariance +
      error;
    const levelShare = levelVariance + onMean * covariance + (slow * duration) / 2;
    const gustShare = onEnd * (covariance + onMean * gustVariance) + fast * step.covariance;
    const standard = Math.sqrt(variance);
    for (let one = 0; one < series; one++) {
      const gust = gusts[one]! * kept;
      const innovation = columns[first + one]! - levels[one]! - onMean * gust;
      levels[one] = levels[one]! + (levelShare / variance) * innovation;
      gusts[one] = onEnd * gust + (gustShare / variance) * innovation;
      out[first + one] = innovation / standard;
    }
    levelVariance += slow * duration - levelShare ** 2 / variance;
    covariance = onEnd * covariance - (levelShare * gustShare) / variance;
    gustVariance = onEnd ** 2 * gustVariance + fast * step.endVariance - gustShare ** 2 / variance;
    end = Math.max(end, times[row]! + duration / 2);
    logDeterminant += Math.log(variance);
    innovations++;
  }
  return { logDeterminant, innovations };
}

function checkSeries(
  model: WanderModel,
  times: Float64Array,
  durations: Float64Array,
  variances: Float64Array,
  columns: Float64Array,
  out: Float64Array,
): void {
  const { slow, fast, fastSeconds } = model;
  if (!(slow >= 0 && fast >= 0 && fastSeconds > 0 && slow + fast + fastSeconds < Infinity))
    throw new RangeError(
      `whiten: scales must be finite and not negative, the time scale positive; got ${slow}, ${fast}, ${fastSeconds}`,
    );
  const rows = times.length;
  if (durations.length !== rows || variances.length !== rows)
    throw new RangeError(
      `whiten: needs as many durations and variances as times; got ${durations.length}, ${variances.length}, ${rows}`,
    );
  if (out.length !== columns.length || (rows > 0 ? columns.length % rows : columns.length) !== 0)
    throw new RangeError(
      `whiten: columns must hold a multiple of ${rows} values and out as many; got ${columns.length}, ${out.length}`,
    );
  for (let row = 0; row < rows; row++) {
    if (!(durations[row]! >= 0 && variances[row]! > 0))
      throw new RangeError(
        `whiten: durations must not be negative, variances positive; got ${durations[row]}, ${variances[row]} in row ${row}`,
      );
    if (!Number.isFinite(times[row]!) || (row > 0 && times[row]! < times[row - 1]!))
      throw new RangeError(`whiten: times must be finite and rise; got ${times[row]} in row ${row}`);
  }
}

/** What is held of a positive scale beforehand: its logarithm is normal. */
export interface ScalePrior {
  readonly median: number;
  /** Standard deviation of its natural logarithm. */
  readonly logSd: number;
}

export interface WanderPrior {
  readonly slow: ScalePrior;
  readonly fast: ScalePrior;
  /** Time scales to choose from, s. */
  readonly fastSeconds: readonly Seconds[];
}

/** Scales of wander that a series shows. */
export interface FittedWander {
  readonly model: WanderModel;
  /** Restricted log likelihood there, without the prior. */
  readonly logLikelihood: number;
}

/** Scales are sought this many prior standard deviations about the median, where the prior leaves nothing beyond. */
const FARTHEST = 6;

/** Starts for the search, in prior standard deviations: the two scales can each take the other's part. */
const STARTS = [-1.5, 0, 1.5];

/** Logarithms of the scales to a thousandth: far finer than any series tells them. */
const FINE = 1e-3;

/**
 * M45. The scales of wander most probable for one series: restricted likelihood of M44 times the priors, over the
 * logarithms of both, for each time scale in turn. With few rows it stays near the prior's medians.
 *
 * @param residuals one value a row
 * @throws RangeError as `whiten`, or if a prior is not positive or there is no time scale
 */
export function maximumLikelihoodWander(
  times: Float64Array,
  durations: Float64Array,
  residuals: Float64Array,
  variances: Float64Array,
  prior: WanderPrior,
): FittedWander {
  checkPrior(prior);
  const scratch = new Float64Array(residuals.length);
  const scale = ({ median, logSd }: ScalePrior, deviations: number): number =>
    median * Math.exp(logSd * deviations);
  let fitted: FittedWander | undefined;
  let lowest = Number.POSITIVE_INFINITY;
  for (const fastSeconds of prior.fastSeconds) {
    const modelAt = ([slow = 0, fast = 0]: readonly number[]): WanderModel => ({
      slow: scale(prior.slow, slow),
      fast: scale(prior.fast, fast),
      fastSeconds,
    });
    const likelihoodAt = (at: readonly number[]): number =>
      logLikelihood(modelAt(at), times, durations, residuals, variances, scratch);
    const objective = (at: readonly number[]): number =>
      at.some((deviations) => Math.abs(deviations) > FARTHEST)
        ? Number.POSITIVE_INFINITY
        : at.reduce((sum, deviations) => sum + deviations ** 2 / 2, 0) - likelihoodAt(at);
    const starts = STARTS.flatMap((slow) => STARTS.map((fast) => [slow, fast]));
    const values = starts.map(objective);
    const start = starts[values.indexOf(Math.min(...values))]!;
    const found = lowestPoint(objective, start, 0.5, FINE / Math.max(prior.slow.logSd, prior.fast.logSd));
    if (found.value < lowest || fitted === undefined) {
      lowest = found.value;
      fitted = { model: modelAt(found.at), logLikelihood: likelihoodAt(found.at) };
    }
  }
  return fitted!;
}

/**
 * M44. Restricted log likelihood of one series under a model of wander.
 *
 * @param scratch as long as the series, overwritten with its innovations
 * @returns NaN where a value of a row with finite variance is
 * @throws RangeError as `whiten`
 */
export function logLikelihood(
  model: WanderModel,
  times: Float64Array,
  durations: Float64Array,
  residuals: Float64Array,
  variances: Float64Array,
  scratch: Float64Array,
): number {
  const { logDeterminant, innovations } = whiten(model, times, durations, variances, residuals, scratch);
  let squares = 0;
  for (let row = 0; row < scratch.length; row++) squares += scratch[row]! ** 2;
  return -(squares + logDeterminant + innovations * Math.log(2 * Math.PI)) / 2;
}

function checkPrior(prior: WanderPrior): void {
  for (const { median, logSd } of [prior.slow, prior.fast])
    if (!(median > 0 && logSd > 0 && median + logSd < Number.POSITIVE_INFINITY))
      throw new RangeError(
        `maximumLikelihoodWander: a prior's median and logSd must be positive, got ${median}, ${logSd}`,
      );
  if (prior.fastSeconds.length === 0)
    throw new RangeError("maximumLikelihoodWander: needs at least one time scale, got none");
}
