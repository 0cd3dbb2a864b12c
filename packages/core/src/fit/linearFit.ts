import { leastSquares } from "./leastSquares.ts";
import type { Prior } from "./priors.ts";
import { studentQuantile } from "./studentQuantile.ts";

/** One thing seen: value = Σ column · unknown, but for its deviation. */
export interface LinearRow {
  readonly columns: readonly number[];
  readonly value: number;
  /** Standard deviation, stated beforehand. */
  readonly deviation: number;
}

/** Unknowns as rows and priors tell them, in the units of their columns. */
export interface SolvedLinearFit {
  readonly status: "solved";
  readonly values: readonly number[];
  /** With the deviations as stated, row-major. */
  readonly covariance: readonly number[];
  /** The part of the covariance that comes from what the priors leave open, and not from the rows. */
  readonly priorCovariance: readonly number[];
  /** Seen less fitted, one a row. */
  readonly residuals: readonly number[];
  /** Rows beyond what the unknowns take up: Σ (1 − leverage), whole where no prior is used; 0 where nothing checks the fit. */
  readonly spare: number;
  /** The rows' scatter over the deviations stated; NaN where `spare` is 0. */
  readonly scatter: number;
}

export interface UnsolvedLinearFit {
  readonly status: "unsolved";
  readonly reason: "too few rows" | "not told apart";
}

/** A row to spare of less than this is none: rounding, or a prior that takes up all but a trace of it. */
const NONE_TO_SPARE = 1e-3;

/** gᵀ C g: the variance of a sum of unknowns, with covariances in row-major order. Never throws. */
export function varianceOf(g: readonly number[], covariance: readonly number[]): number {
  let sum = 0;
  for (let row = 0; row < g.length; row++)
    for (let at = 0; at < g.length; at++) sum += g[row]! * g[at]! * covariance[row * g.length + at]!;
  return Math.max(0, sum);
}

/** Σ (1 − leverage). */
function rowsToSpare(rows: readonly LinearRow[], covariance: readonly number[], isWhole: boolean): number {
  const leverage = rows.reduce(
    (sum, { columns, deviation }) => sum + varianceOf(columns, covariance) / deviation ** 2,
    0,
  );
  const left = isWhole ? Math.round(rows.length - leverage) : rows.length - leverage;
  return left > NONE_TO_SPARE ? left : 0;
}

/**
 * M121. Weighted least squares (M40) of a few rows that are linear in a few unknowns, some of which have a prior.
 *
 * @param priors one an unknown; undefined where nothing is known beforehand
 * @returns `unsolved` where rows and priors are fewer than unknowns or do not tell them apart
 * @throws RangeError where a row has another number of columns than there are priors, or a value is not finite
 */
export function linearFit(
  rows: readonly LinearRow[],
  priors: readonly (Prior | undefined)[],
): SolvedLinearFit | UnsolvedLinearFit {
  const size = priors.length;
  rows.forEach(({ columns, value, deviation }, index) => {
    if (columns.length !== size)
      throw new RangeError(`linearFit: row ${index + 1} must have ${size} columns, got ${columns.length}`);
    if (![...columns, value].every(Number.isFinite) || !(deviation > 0 && deviation < Infinity))
      throw new RangeError(`linearFit: row ${index + 1} must be finite, and its deviation positive`);
  });
  const held = priors.flatMap((prior, at): readonly LinearRow[] =>
    prior
      ? [{ columns: priors.map((_, other) => Number(other === at)), value: prior.mean, deviation: prior.sd }]
      : [],
  );
  const all = [...rows, ...held];
  if (all.length < size || rows.length === 0) return { status: "unsolved", reason: "too few rows" };
  const modelled = ({ columns }: LinearRow, values: ArrayLike<number>): number =>
    columns.reduce((sum, column, at) => sum + column * values[at]!, 0);
  const fit = leastSquares({
    start: new Float64Array(size),
    scale: new Float64Array(size).fill(1),
    count: all.length,
    residuals: (values, out) => {
      all.forEach((row, at) => {
        out[at] = (row.value - modelled(row, values)) / row.deviation;
      });
    },
    jacobian: (_, out) =>
      out.set(all.flatMap(({ columns, deviation }) => columns.map((column) => -column / deviation))),
  });
  if (fit.status === "unsolved") return { status: "unsolved", reason: "not told apart" };
  const [values, covariance] = [Array.from(fit.parameters), Array.from(fit.covariance)];
  const residuals = rows.map((row) => row.value - modelled(row, values));
  const spare = rowsToSpare(rows, covariance, held.length === 0);
  const sum = residuals.reduce((part, residual, at) => part + (residual / rows[at]!.deviation) ** 2, 0);
  const scatter = spare > 0 ? Math.sqrt(sum / spare) : Number.NaN;
  const priorCovariance = priorShare(covariance, priors);
  return { status: "solved", values, covariance, priorCovariance, residuals, spare, scatter };
}

/** C P⁻¹ C, P⁻¹ the priors' precisions: what of C is the priors' own doubt; the rest, C (C⁻¹ − P⁻¹) C, is the rows'. */
function priorShare(
  covariance: readonly number[],
  priors: readonly (Prior | undefined)[],
): readonly number[] {
  const size = priors.length;
  return covariance.map((_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    return priors.reduce(
      (sum, prior, k) =>
        prior ? sum + (covariance[row * size + k]! * covariance[k * size + column]!) / prior.sd ** 2 : sum,
      0,
    );
  });
}

/** A deviation that was stated beforehand counts like one found from so many readings to spare. */
const STATED_COUNTS = 4;

/** Half a 95 % interval of what is normal with a known deviation. */
const NORMAL_HALF = 1.96;

/** What readings show of their own scatter. */
export type Scatter = Pick<SolvedLinearFit, "spare" | "scatter">;

/**
 * M121. Half the 95 % interval of a number whose standard deviation follows from deviations that were stated beforehand: what was stated
 * counts like four readings to spare, beside what the readings show of their own scatter, and the interval is Student's (M120).
 *
 * @param sd with the deviations as stated
 * @param fit what the readings show of them
 * @returns in the unit of sd; NaN in, NaN out. Never throws.
 */
export function halfWidth(sd: number, { spare, scatter }: Scatter): number {
  const seen = spare > 0 ? spare * scatter ** 2 : 0;
  const factor = Math.sqrt((STATED_COUNTS + seen) / (STATED_COUNTS + spare));
  return sd * factor * studentQuantile(STATED_COUNTS + Math.floor(spare));
}

/**
 * M121. A number that is linear in a fit's unknowns, with half its 95 % interval: the rows' part by `halfWidth`, the priors' part as normal, together
 * as the root of their sum of squares.
 *
 * @param g what one of each unknown adds to it; unknowns that are left out add nothing
 * Never throws.
 */
export function toldBy(
  fit: SolvedLinearFit,
  g: readonly number[],
): { readonly value: number; readonly half: number } {
  const whole = fit.values.map((_, at) => g[at] ?? 0);
  const value = whole.reduce((sum, part, at) => sum + part * fit.values[at]!, 0);
  const priors = varianceOf(whole, fit.priorCovariance);
  const rows = Math.max(0, varianceOf(whole, fit.covariance) - priors);
  return { value, half: Math.hypot(halfWidth(Math.sqrt(rows), fit), NORMAL_HALF * Math.sqrt(priors)) };
}
