import { CholeskyDecomposition, Matrix } from "ml-matrix";
import type { Column, Seconds } from "../units.ts";
import { lowestPoint } from "./nelderMead.ts";
import type { Prior } from "./priors.ts";
import { type ScalePrior, whiten } from "./stateSpace.ts";

/** Series that wander alike: a value a row of each = Σ column · unknown + level + noise, the level a random walk of its own. */
export interface WanderingRows {
  /** Middle of each row, s, rising. */
  readonly times: Column<Seconds>;
  readonly durations: Column<Seconds>;
  /** One table a series, row-major: the unknowns' columns, then the value. */
  readonly series: readonly Float64Array[];
}

/** What is held beforehand of both scales: the rows' own noise, and the walk, a √s. */
export interface WanderingScales {
  readonly noise: ScalePrior;
  readonly walk: ScalePrior;
}

/** Unknowns as wandering series tell them. */
export interface WanderingFit {
  readonly values: readonly number[];
  /** Row-major, the doubt of the scales in it. */
  readonly covariance: readonly number[];
  /** The most probable scales. */
  readonly noise: number;
  readonly walk: number;
  /** How much the rows scatter, over what is held of them beforehand. */
  readonly scatter: number;
}

/** The unknowns at given scales, and −2 ln of the scales' likelihood but for a constant. */
interface AtScales {
  readonly values: readonly number[];
  readonly covariance: readonly number[];
  readonly misfit: number;
  /** Mean square of whitened rows and priors, for each to spare. */
  readonly scatter: number;
}

/** Scales are sought within so many prior standard deviations; the search ends at this share of one. */
const FARTHEST = 5;
const FINE = 0.01;

/** Differences for the curvature are taken over this, in prior standard deviations. */
const CURVATURE_STEP = 0.2;

/** Where the doubt of a scale is summed up, in its own standard deviations. */
const PLACES = [-2, -1, 0, 1, 2];

const scaleAt = ({ median, logSd }: ScalePrior, deviations = 0): number =>
  median * Math.exp(logSd * deviations);

/** Products of all columns of whitened tables with each other, value included. */
function productsOf({ times, durations, series }: WanderingRows, width: number, noise: number, slow: number) {
  const variances = new Float64Array(times.length).fill(noise ** 2);
  const products = Matrix.zeros(width, width);
  let [logDeterminant, count] = [0, 0];
  for (const table of series) {
    const white = new Float64Array(table.length);
    const model = { slow, fast: 0, fastSeconds: 1 };
    const whitening = whiten(model, times, durations, variances, table, white);
    logDeterminant += whitening.logDeterminant;
    count += whitening.innovations;
    const whitened = Matrix.from1DArray(times.length, width, white);
    products.add(whitened.transpose().mmul(whitened));
  }
  return { products, logDeterminant, count };
}

/** The unknowns by least squares of whitened rows and priors; undefined where they are not told apart. */
function solutionAt(
  rows: WanderingRows,
  priors: readonly (Prior | undefined)[],
  noise: number,
  walk: number,
): AtScales | undefined {
  const size = priors.length;
  const { products, logDeterminant, count } = productsOf(rows, size + 1, noise, walk);
  priors.forEach((prior, at) => {
    if (!prior) return;
    const [one, mean] = [1 / prior.sd ** 2, prior.mean];
    products.set(at, at, products.get(at, at) + one);
    products.set(at, size, products.get(at, size) + one * mean);
    products.set(size, size, products.get(size, size) + one * mean ** 2);
  });
  // unknowns of unlike units, brought to one size
  const scale = Array.from({ length: size }, (_, at) => Math.sqrt(products.get(at, at)));
  const information = products.subMatrix(0, size - 1, 0, size - 1);
  information.div(Matrix.columnVector(scale).mmul(Matrix.rowVector(scale)));
  const right = Matrix.columnVector(scale.map((one, at) => products.get(at, size) / one));
  const root = new CholeskyDecomposition(information);
  const lower = root.lowerTriangularMatrix;
  const pivots = Array.from({ length: size }, (_, at) => lower.get(at, at));
  if (!pivots.every((pivot) => pivot ** 2 > LEAST_PIVOT)) return undefined;
  const scaled = root.solve(right).to1DArray();
  const fitted = scaled.reduce((sum, value, at) => sum + value * right.get(at, 0), 0);
  const determinant = pivots.reduce((sum, pivot, at) => sum + 2 * Math.log(pivot * scale[at]!), 0);
  const squares = products.get(size, size) - fitted;
  const spare = count - priors.filter((prior) => !prior).length;
  return {
    values: scaled.map((value, at) => value / scale[at]!),
    covariance: root.solve(Matrix.eye(size)).divRowVector(scale).divColumnVector(scale).to1DArray(),
    misfit: squares + logDeterminant + determinant,
    scatter: Math.sqrt(squares / Math.max(1, spare)),
  };
}

/** A pivot smaller than this of a matrix whose diagonal is 1 is rounding. */
const LEAST_PIVOT = 1e-12;

/** How far a minimum of a misfit reaches along an axis, one standard deviation: no more than the prior's, which is 1. */
function reachAt(
  misfit: (at: readonly number[]) => number,
  at: readonly [number, number],
  axis: 0 | 1,
): number {
  const moved = (by: number): number => misfit(at.with(axis, at[axis] + by));
  const curvature = (moved(CURVATURE_STEP) + moved(-CURVATURE_STEP) - 2 * moved(0)) / CURVATURE_STEP ** 2 / 2;
  return curvature > 1 ? 1 / Math.sqrt(curvature) : 1;
}

/**
 * The unknowns at the medians of both scales: a first answer, for what is linear only about one.
 *
 * @returns undefined where rows and priors do not tell the unknowns apart
 * @throws RangeError as `whiten`
 */
export const usualLinearFit = (
  rows: WanderingRows,
  priors: readonly (Prior | undefined)[],
  { noise, walk }: WanderingScales,
): readonly number[] | undefined => solutionAt(rows, priors, noise.median, walk.median)?.values;

/**
 * M187. Unknowns that are linear in series which wander (M44) by scales that are not known: least squares of the whitened rows and the priors, with
 * the restricted likelihood of both scales times their priors (M45) summed up over 25 places about its highest point, so that the covariance
 * holds what is not known of the scales.
 *
 * @param priors one an unknown, undefined where nothing is known beforehand
 * @returns undefined where rows and priors do not tell the unknowns apart
 * @throws RangeError as `whiten`
 */
export function wanderingLinearFit(
  rows: WanderingRows,
  priors: readonly (Prior | undefined)[],
  { noise, walk }: WanderingScales,
): WanderingFit | undefined {
  const solved = ([first, second]: readonly number[]): AtScales | undefined =>
    solutionAt(rows, priors, scaleAt(noise, first), scaleAt(walk, second));
  const misfit = (at: readonly number[]): number =>
    at.some((one) => Math.abs(one) > FARTHEST)
      ? Infinity
      : (solved(at)?.misfit ?? Infinity) + at.reduce((sum, one) => sum + one ** 2, 0);
  const usual = solved([0, 0]);
  if (!usual) return undefined;
  const [first = 0, second = 0] = lowestPoint(misfit, [0, 0], 0.5, FINE).at;
  const reach = ([0, 1] as const).map((axis) => reachAt(misfit, [first, second], axis));
  const places = PLACES.flatMap((one) =>
    PLACES.map((other) => [first + one * reach[0]!, second + other * reach[1]!]),
  );
  return {
    ...summedUp(places.flatMap((at) => weighted(solved(at), misfit(at) - misfit([first, second])))),
    noise: scaleAt(noise, first),
    walk: scaleAt(walk, second),
    scatter: usual.scatter,
  };
}

interface Weighted extends AtScales {
  readonly weight: number;
}

const weighted = (solution: AtScales | undefined, excess: number): readonly Weighted[] =>
  solution ? [{ ...solution, weight: Math.exp(-excess / 2) }] : [];

/** Mean and covariance of a mixture. */
function summedUp(all: readonly Weighted[]): Pick<WanderingFit, "values" | "covariance"> {
  const total = all.reduce((sum, { weight }) => sum + weight, 0);
  const meanOf = (of: (one: AtScales) => number): number =>
    all.reduce((sum, one) => sum + one.weight * of(one), 0) / total;
  const size = all[0]!.values.length;
  const values = Array.from({ length: size }, (_, at) => meanOf((one) => one.values[at]!));
  const covariance = Array.from({ length: size * size }, (_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    return meanOf(
      (one) =>
        one.covariance[at]! + (one.values[row]! - values[row]!) * (one.values[column]! - values[column]!),
    );
  });
  return { values, covariance };
}
