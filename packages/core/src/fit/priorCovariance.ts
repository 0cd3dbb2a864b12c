import { CholeskyDecomposition, EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import type { FittedParameter, SolvedBoatFit } from "../calibration/calibration.ts";
import type { ParameterName } from "../sensors/parameterNames.ts";
import { DEFICIT_PRIOR } from "./deficitPrior.ts";
import { priorSds } from "./priors.ts";
import { INDEX_OF, LAW_INDEX_OF } from "./settingsVector.ts";

const INTERCEPT = INDEX_OF["speed.intercept"];
const GAIN = INDEX_OF["speed.gain"];
const FALLING = LAW_INDEX_OF.deficitFalling;

const SDS = priorSds();

/** M190. What is tied beforehand. */
const TIES: readonly (readonly [number, number, number])[] = [
  [INTERCEPT, GAIN, DEFICIT_PRIOR.interceptAndGain],
  [INTERCEPT, FALLING, DEFICIT_PRIOR.interceptAndFalling],
  [GAIN, FALLING, DEFICIT_PRIOR.gainAndFalling],
];

/** M190. Covariance of the priors (M46) of some places of the vector, the others being anything. Never throws for places of the vector. */
export function priorCovariance(places: readonly number[]): Matrix {
  const covariance = Matrix.diag(places.map((index) => SDS[index]! ** 2));
  for (const [one, other, value] of TIES) {
    const [row, column] = [places.indexOf(one), places.indexOf(other)];
    if (row < 0 || column < 0) continue;
    covariance.set(row, column, value);
    covariance.set(column, row, value);
  }
  return covariance;
}

/** M190. The lower triangle L of priorCovariance = L Lᵀ: a normal number for each place makes values as tied as the priors are. */
export const priorSpread = (places: readonly number[]): Matrix =>
  new CholeskyDecomposition(priorCovariance(places)).lowerTriangularMatrix;

/** M190. What makes (value − mean) of some places independent and of variance one: the inverse of `priorSpread`, a lower triangle. */
export const priorWhitening = (places: readonly number[]): Matrix => inverse(priorSpread(places));

/** So near to its prior nothing is learnt; at the prior itself what the data said (M63) would be nothing less rounding. */
const NOTHING_LEARNT = 1 - 1e-6;

/**
 * M192. A covariance nowhere wider than the priors: in coordinates in which these have variance one, no direction of a larger variance.
 *
 * @param covariance of those places, row-major, in the products of their units
 * @returns a new one, or the same where it is within. Never throws for places of the vector.
 */
export function withinPriors(covariance: Float64Array, places: readonly number[]): Float64Array {
  const size = places.length;
  const whitening = priorWhitening(places);
  const white = whitening.mmul(Matrix.from1DArray(size, size, covariance)).mmul(whitening.transpose());
  const symmetric = Matrix.add(white, white.transpose()).mul(0.5);
  const { eigenvectorMatrix, realEigenvalues } = new EigenvalueDecomposition(symmetric, {
    assumeSymmetric: true,
  });
  if (realEigenvalues.every((variance) => variance <= NOTHING_LEARNT)) return covariance;
  const bounded = Matrix.diag(realEigenvalues.map((variance) => Math.min(NOTHING_LEARNT, variance)));
  const back = priorSpread(places).mmul(eigenvectorMatrix);
  return Float64Array.from(back.mmul(bounded).mmul(back.transpose()).to1DArray());
}

/** M190. Covariance of the priors of a fit's parameters, row-major n × n. Never throws. */
export const priorCovarianceOf = ({ parameters }: Pick<SolvedBoatFit, "parameters">): Float64Array =>
  Float64Array.from(
    parameters.flatMap((one) =>
      parameters.map((other) => priorCorrelation(one.name, other.name) * one.priorSd * other.priorSd),
    ),
  );

/** M190. Correlation of two parameters' priors, 1 of a parameter with itself. Never throws. */
export function priorCorrelation(one: ParameterName, other: ParameterName): number {
  if (one === other) return 1;
  const [row, column] = [INDEX_OF[one], INDEX_OF[other]];
  const tie = TIES.find(([from, to]) => (from === row && to === column) || (from === column && to === row));
  return tie === undefined ? 0 : tie[2] / (SDS[row]! * SDS[column]!);
}

/** As much of a fit as its priors need. */
interface WithPriors {
  readonly parameters: readonly Pick<FittedParameter, "name" | "priorSd">[];
  readonly covariance: Float64Array;
}

/** Whether a parameter was held while others were fitted: on its own, as doubtful as its prior. Never throws. */
export function isHeld({ parameters, covariance }: WithPriors, index: number): boolean {
  const size = parameters.length;
  const { priorSd } = parameters[index]!;
  const alone = parameters.every((_, other) => other === index || covariance[index * size + other] === 0);
  return alone && Math.abs(covariance[index * (size + 1)]! / priorSd ** 2 - 1) < 1e-9;
}

/** M190. The inverse of the priors' covariance, counted in scales; parameters that were held are tied to none. Never throws. */
export function priorPrecision(fit: WithPriors, scales: ArrayLike<number>): Matrix {
  const { parameters } = fit;
  const held = parameters.map((_, index) => isHeld(fit, index));
  const prior = Matrix.zeros(parameters.length, parameters.length);
  prior.apply((row, column) => {
    const [one, other] = [parameters[row]!, parameters[column]!];
    const isApart = row !== column && (held[row]! || held[column]!);
    const correlation = isApart ? 0 : priorCorrelation(one.name, other.name);
    prior.set(row, column, (correlation * one.priorSd * other.priorSd) / (scales[row]! * scales[column]!));
  });
  return inverse(prior);
}
