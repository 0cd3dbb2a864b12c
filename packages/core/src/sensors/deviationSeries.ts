import { Matrix, SingularValueDecomposition } from "ml-matrix";
import type { CompassParameters } from "./parameters.ts";

/** The five terms of the series, without heeling error. */
export type DeviationSeries = Omit<CompassParameters, "heelingError">;

const POINTS = 8;
const TERMS = 5;

/** Columns that add less than this, as a share of the largest singular value, are not told apart by the headings. */
const INDISTINCT = 1e-9;

/**
 * M26. The series by the rules of the handbook, from deviations on the eight points N, NE … NW:
 * a = mean of all; b = (E − W)/2; c = (N − S)/2; d = (NE + SW − SE − NW)/4; e = (N + S − E − W)/4.
 *
 * @param deviations rad, east positive, on compass headings 0°, 45° … 315°
 * @returns rad; NaN where a deviation that the term needs is
 * @throws RangeError where there are not eight
 * @see National Geospatial-Intelligence Agency, 2004: Handbook of Magnetic Compass Adjustment, chapter V
 * @example
 * const deviations = [10.5, 20, 11.5, -1.2, -5.5, -8, -12.5, -6.8].map((angle) => radians(angle));
 * // c is half of north less south: (10.5° + 5.5°)/2
 * degrees(deviationSeriesByRules(deviations).c).toFixed(6) // "8.000000"
 */
export function deviationSeriesByRules(deviations: ArrayLike<number>): DeviationSeries {
  if (deviations.length !== POINTS)
    throw new RangeError(`deviationSeriesByRules: needs deviations on 8 points, got ${deviations.length}`);
  const on = (point: number): number => deviations[point] ?? Number.NaN;
  const [n, e, s, w] = [on(0), on(2), on(4), on(6)];
  const [ne, se, sw, nw] = [on(1), on(3), on(5), on(7)];
  return {
    a: (n + ne + e + se + s + sw + w + nw) / POINTS,
    b: (e - w) / 2,
    c: (n - s) / 2,
    d: (ne + sw - se - nw) / 4,
    e: (n + s - e - w) / 4,
  };
}

/**
 * M26. The series by least squares over any headings, each deviation counting alike.
 *
 * @param headings compass headings, rad
 * @param deviations rad, east positive, one for each heading
 * @returns rad; all NaN where an argument holds NaN
 * @throws RangeError where the numbers differ, or where the headings are too few or too much alike for five terms
 * @example
 * const headings = [0, 60, 120, 180, 240, 300].map((angle) => radians(angle));
 * const { a, b } = deviationSeriesByLeastSquares(headings, headings.map((heading) => 0.02 + 0.05 * Math.sin(heading)));
 * [a.toFixed(6), b.toFixed(6)] // ["0.020000", "0.050000"]
 */
export function deviationSeriesByLeastSquares(
  headings: ArrayLike<number>,
  deviations: ArrayLike<number>,
): DeviationSeries {
  if (headings.length !== deviations.length)
    throw new RangeError(
      `deviationSeriesByLeastSquares: needs as many deviations as headings, got ${deviations.length} for ${headings.length}`,
    );
  const rows = Array.from(headings, (t) => [1, Math.sin(t), Math.cos(t), Math.sin(2 * t), Math.cos(2 * t)]);
  const values = Array.from(deviations);
  if (rows.flat().some(Number.isNaN) || values.some(Number.isNaN))
    return { a: Number.NaN, b: Number.NaN, c: Number.NaN, d: Number.NaN, e: Number.NaN };
  const decomposition = rows.length < TERMS ? undefined : new SingularValueDecomposition(new Matrix(rows));
  const sizes = decomposition?.diagonal ?? [];
  if (decomposition === undefined || Math.min(...sizes) < INDISTINCT * Math.max(...sizes))
    throw new RangeError(
      `deviationSeriesByLeastSquares: needs at least five well spread headings, got ${headings.length}`,
    );
  const terms = decomposition.solve(Matrix.columnVector(values)).to1DArray();
  const term = (index: number): number => terms[index] ?? Number.NaN;
  return { a: term(0), b: term(1), c: term(2), d: term(3), e: term(4) };
}
