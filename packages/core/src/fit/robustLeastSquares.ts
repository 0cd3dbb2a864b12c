import { median } from "simple-statistics";
import { leastSquares } from "./leastSquares.ts";
import type { LeastSquares, LeastSquaresOptions, LeastSquaresProblem } from "./leastSquaresProblem.ts";
import { MEDIAN_DEVIATION_FACTOR } from "./robustWeights.ts";

/** A fit of weighted residuals, with the weights and the scale that they were found with. */
export interface RobustLeastSquares {
  /** Its residuals, sum of squares and covariance are those of √weight · residual. */
  readonly fit: LeastSquares;
  /** One number from 0 to 1 a residual. */
  readonly weights: Float64Array;
  /** Robust standard deviation of the residuals. */
  readonly scale: number;
  /** Whether residuals came to rest; they cannot where half of them vanish, which leaves no scale. */
  readonly atRest: boolean;
}

/** Rounds before giving up; a few dozen are usual. */
const MOST_ROUNDS = 200;

/** At rest when no weighted residual moves by this share of the scale any more. */
const AT_REST = 1e-9;

/**
 * M43. Robust fit by iteratively reweighted least squares from the plain fit on: scale = factor · median |residual|, weights
 * from residual / scale, then the weighted fit, until nothing moves. With a weight that falls to 0 the result depends on
 * where it began.
 *
 * @param problem with residuals in one unit, as the scale is found from them; no prior rows
 * @param weight of a standardised residual, from 0 to 1: `huberWeight`, `bisquareWeight`
 * @returns the last fit, `unsolved` as soon as one is
 * @throws RangeError as `leastSquares`
 * @see P. J. Huber, 1981: Robust Statistics, section 7.8
 * @example
 * const values = [3.9, 4, 4.1, 4.05, 3.95, 90];
 * const problem = { start: [1], count: 6, residuals: ([x], out) => values.forEach((value, at) => { out[at] = x - value; }) };
 * robustLeastSquares(problem, bisquareWeight).fit.parameters[0].toFixed(2) // "4.00"
 */
export function robustLeastSquares(
  problem: LeastSquaresProblem,
  weight: (standardised: number) => number,
  options: LeastSquaresOptions = {},
): RobustLeastSquares {
  const weights = new Float64Array(problem.count).fill(1);
  const residuals = new Float64Array(problem.count);
  const before = new Float64Array(problem.count);
  let fit = leastSquares(problem, options);
  for (let round = 0; ; round++) {
    before.set(residuals);
    problem.residuals(Float64Array.from(fit.parameters), residuals);
    const scale = MEDIAN_DEVIATION_FACTOR * median(Array.from(residuals, Math.abs));
    const atRest =
      fit.status === "solved" &&
      round > 0 &&
      residuals.every((residual, row) => Math.abs(residual - before[row]!) <= AT_REST * scale);
    if (fit.status === "unsolved" || atRest || round === MOST_ROUNDS) return { fit, weights, scale, atRest };
    if (scale === 0) return { fit, weights, scale, atRest: false };
    residuals.forEach((residual, row) => {
      weights[row] = weight(residual / scale);
    });
    fit = leastSquares(weighted(problem, weights, fit.parameters), options);
  }
}

/** The same problem with each residual times √weight. */
function weighted(
  problem: LeastSquaresProblem,
  weights: Float64Array,
  start: Float64Array,
): LeastSquaresProblem {
  const roots = weights.map(Math.sqrt);
  const { count, scale, jacobian } = problem;
  const scaled = {
    start,
    count,
    ...(scale && { scale }),
    residuals(parameters: Float64Array, out: Float64Array): void {
      problem.residuals(parameters, out);
      for (let row = 0; row < count; row++) out[row] = out[row]! * roots[row]!;
    },
  };
  if (!jacobian) return scaled;
  return {
    ...scaled,
    jacobian(parameters, out) {
      problem.jacobian?.(parameters, out);
      for (let at = 0; at < out.length; at++) out[at] = out[at]! * roots[Math.floor(at / start.length)]!;
    },
  };
}
