import type { SolvedBoatFit } from "../calibration/calibration.ts";
import { PARAMETER_NAMES } from "../sensors/parameterNames.ts";
import { priorSds } from "./priors.ts";

/** M184. Faults may well be so many times as wide as the priors have them: those are common practice, not measured. */
const WIDER = 1.25;

/**
 * M184. Covariance of an estimate's error where what it was drawn to is less sure than it took it for: C + (WIDER² − 1) C P C, P the
 * precisions of the priors. What the data tell well hardly grows, what they do not tell at all grows to WIDER times its prior.
 *
 * @param covariance posterior under the priors, row-major n × n
 * @param priorSds n standard deviations in the same units; Infinity for what is not doubted
 * @returns a new covariance, likewise. Never throws.
 * @see the error's covariance of a linear estimate under another covariance than it assumes, any text on Bayesian regression
 * @example
 * withDoubtOfPriors(Float64Array.of(4), [2])[0] // 6.25
 */
export function withDoubtOfPriors(covariance: Float64Array, priorSds: readonly number[]): Float64Array {
  const size = priorSds.length;
  return covariance.map((value, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    let through = 0;
    priorSds.forEach((sd, prior) => {
      through += (covariance[row * size + prior]! * covariance[prior * size + column]!) / sd ** 2;
    });
    return value + (WIDER ** 2 - 1) * through;
  });
}

/**
 * M184. Likewise of all that a fit leaves free, the priors of what the laws leave out (M29) not doubted. Never throws.
 *
 * @param free indices of what is free
 */
export function errorsOfFree(covariance: Float64Array, free: readonly number[]): Float64Array {
  const sds = priorSds();
  return withDoubtOfPriors(
    covariance,
    free.map((index) => (index < PARAMETER_NAMES.length ? sds[index]! : Number.POSITIVE_INFINITY)),
  );
}

/**
 * M184. What intervals of a fit's parameters, and of all that follows from them, are made from.
 *
 * @returns row-major n × n, in the products of the parameters' units. Never throws.
 * @example
 * Math.sqrt(errorCovariance(fit)[0]) // fit.parameters[0].sd
 */
export const errorCovariance = ({
  parameters,
  covariance,
}: Pick<SolvedBoatFit, "parameters" | "covariance">): Float64Array =>
  withDoubtOfPriors(
    covariance,
    parameters.map(({ priorSd }) => priorSd),
  );
