import { inverse, Matrix } from "ml-matrix";
import type { FittedParameter } from "../calibration/calibration.ts";
import { PARAMETER_NAMES } from "../sensors/parameterNames.ts";
import { priorCovariance, priorPrecision } from "./priorCovariance.ts";

/** M184. Faults may well be so many times as wide as the priors have them: those are common practice, not measured. */
const WIDER = 1.25;

/**
 * M184. Covariance of an estimate's error where what it was drawn to is less sure than it took it for: C + (WIDER² − 1) C P C. What the
 * data tell well hardly grows, what they do not tell at all grows to WIDER times its prior.
 *
 * @param covariance C, posterior under the priors
 * @param precision P, of the priors, in the same scales; 0 for what is not doubted
 * @returns a new covariance, likewise
 * @throws what ml-matrix throws where the sizes disagree
 */
export const withDoubtOfPriors = (covariance: Matrix, precision: Matrix): Matrix =>
  Matrix.add(
    covariance,
    covariance
      .mmul(precision)
      .mmul(covariance)
      .mul(WIDER ** 2 - 1),
  );

/** `withDoubtOfPriors` of some of what is free, by places. */
function doubting(
  covariance: Float64Array,
  free: readonly number[],
  places: readonly number[],
): Float64Array {
  const doubted = inverse(priorCovariance(places.map((place) => free[place]!)));
  const precision = Matrix.zeros(free.length, free.length);
  places.forEach((row, i) => {
    places.forEach((column, j) => {
      precision.set(row, column, doubted.get(i, j));
    });
  });
  const posterior = Matrix.from1DArray(free.length, free.length, covariance);
  return Float64Array.from(withDoubtOfPriors(posterior, precision).to1DArray());
}

const isLaw = (index: number): boolean => index >= PARAMETER_NAMES.length;

const placesOf = (free: readonly number[], law: boolean): readonly number[] =>
  free.flatMap((index, place) => (isLaw(index) === law ? [place] : []));

/**
 * M184. Covariance of all that a fit leaves free, the priors of what the laws leave out (M29) in doubt: what the parameters' own posterior is taken from.
 * Never throws.
 *
 * @param covariance row-major
 * @param free indices of what is free
 */
export function withDoubtOfLaws(covariance: Float64Array, free: readonly number[]): Float64Array {
  const laws = placesOf(free, true);
  return laws.length === 0 ? covariance : doubting(covariance, free, laws);
}

/** M184. Likewise the priors of the parameters in doubt. Never throws. */
export const errorsOfFree = (covariance: Float64Array, free: readonly number[]): Float64Array =>
  doubting(covariance, free, placesOf(free, false));

/**
 * M184. What intervals of a fit's parameters, and of all that follows from them, are made from.
 *
 * @returns row-major n × n, in the products of the parameters' units. Never throws.
 * @example
 * Math.sqrt(errorCovariance(fit)[0]) // fit.parameters[0].sd
 */
export function errorCovariance(fit: {
  readonly parameters: readonly Pick<FittedParameter, "name" | "priorSd">[];
  readonly covariance: Float64Array;
}): Float64Array {
  const scales = fit.parameters.map(({ priorSd }) => priorSd);
  const size = scales.length;
  // in prior scales, so that the inverse is of numbers of one size
  const scaled = Matrix.from1DArray(
    size,
    size,
    fit.covariance.map((value, at) => value / (scales[Math.floor(at / size)]! * scales[at % size]!)),
  );
  const errors = withDoubtOfPriors(scaled, priorPrecision(fit, scales)).to1DArray();
  return Float64Array.from(
    errors,
    (value, at) => value * scales[Math.floor(at / size)]! * scales[at % size]!,
  );
}
