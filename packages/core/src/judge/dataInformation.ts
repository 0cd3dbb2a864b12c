import { inverse, Matrix } from "ml-matrix";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import { isHeld, priorPrecision } from "../fit/priorCovariance.ts";

/** What the data of a fit said of its parameters, the prior left out, in units of given scales about a given origin. */
export interface DataInformation {
  /** Precision J: how sharply the data by themselves speak, 0 in what they leave alone. */
  readonly information: Matrix;
  /** J times where the data by themselves point, from the origin on: defined also where J is singular. */
  readonly score: Matrix;
}

const symmetric = (matrix: Matrix): Matrix => Matrix.add(matrix, matrix.transpose()).mul(0.5);

/**
 * M63. What the data of a fit said: J = C⁻¹ − P⁻¹ and z = C⁻¹ (m − o) − P⁻¹ (μ − o), with m and C the fit's values and covariance, μ
 * and P its prior, o an origin; all counted in `scales`. A parameter that was held has zeros in both.
 *
 * @param origin a value for each parameter, that fits to be compared share
 * @param scales likewise, positive
 * @throws what ml-matrix throws for a covariance that cannot be inverted
 */
export function dataInformation(
  fit: SolvedBoatFit,
  origin: ArrayLike<number>,
  scales: ArrayLike<number>,
): DataInformation {
  const { parameters, covariance } = fit;
  const size = parameters.length;
  const posterior = Matrix.from1DArray(size, size, covariance);
  posterior.apply((row, column) => {
    posterior.set(row, column, posterior.get(row, column) / (scales[row]! * scales[column]!));
  });
  const precision = inverse(posterior);
  const prior = priorPrecision(fit, scales);
  const from = (value: (index: number) => number): Matrix =>
    Matrix.columnVector(parameters.map((_, index) => (value(index) - origin[index]!) / scales[index]!));
  const score = Matrix.sub(
    precision.mmul(from((index) => parameters[index]!.value)),
    prior.mmul(from((index) => parameters[index]!.priorMean)),
  );
  parameters.forEach((_, index) => {
    if (isHeld(fit, index)) score.set(index, 0, 0);
  });
  return { information: symmetric(Matrix.sub(precision, prior)), score };
}

/**
 * M63. The same with a doubt added to where the data point, independent of all else: J − J (Q⁻¹ + J)⁻¹ J, Q the doubt's variances; the
 * score likewise.
 *
 * @param doubts a standard deviation for each parameter, in its scale, positive
 * Never throws.
 */
export function doubted({ information, score }: DataInformation, doubts: readonly number[]): DataInformation {
  const inner = Matrix.add(Matrix.diag(doubts.map((sd) => 1 / sd ** 2)), information);
  const share = information.mmul(inverse(inner));
  return {
    information: symmetric(Matrix.sub(information, share.mmul(information))),
    score: Matrix.sub(score, share.mmul(score)),
  };
}
