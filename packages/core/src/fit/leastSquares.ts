import { dampingWithin, type PrincipalDirections, predictedFall, writeStep } from "./boundedStep.ts";
import { Descent } from "./descent.ts";
import {
  checkLeastSquares,
  type LeastSquares,
  type LeastSquaresOptions,
  type LeastSquaresProblem,
  type SolvedLeastSquares,
  type UnsolvedLeastSquares,
} from "./leastSquaresProblem.ts";

/** Least share of the promised fall that a step must bring to be taken (Moré 1978). */
const LEAST_GAIN = 1e-4;

/** Below the one share of the promised fall steps become shorter, above the other longer (Moré 1978). */
const POOR_GAIN = 0.25;
const GOOD_GAIN = 0.75;

const TOO_LONG = 0.5;
const FAR_TOO_LONG = 0.1;

/** A fall smaller than this share of the sum of squares drowns in the rounding of thousands of residuals. */
const ROUNDING_OF_SUM = 1e-12;

/** A step smaller than this share of the parameters is rounding, a few digits being lost on the way to residuals. */
const ROUNDING_OF_STEP = 1e-12;

/** Less than this of a parameter in the unseen directions is rounding of a direction, not taking part. */
const TAKES_PART = 0.1;

/**
 * M40. The parameters at which a sum of squares is smallest, by Levenberg and Marquardt's method with steps bounded in
 * scaled parameters (Moré 1978), and their covariance. It is solved when the undamped step still to take is `tolerance` of
 * the standard deviations or drowns in rounding, and no direction is unseen (M42). Where that lies depends on the start:
 * a sum of squares may have several minima.
 *
 * @returns `solved`, or `unsolved`: residuals or Jacobian not finite where the fit stood, steps used up or none that
 *   leads down, or directions of parameters in which nothing changes
 * @throws RangeError if start, scale, count or options are not finite, out of range or of the wrong length
 * @see J. J. Moré, 1978: The Levenberg-Marquardt algorithm: implementation and theory, Lecture Notes in Mathematics 630,
 *   105-116
 * @example
 * const problem = { start: [1], count: 2, residuals: ([x], out) => out.set([x - 3, x - 5]) };
 * leastSquares(problem).parameters[0].toFixed(6) // "4.000000"
 */
export function leastSquares(problem: LeastSquaresProblem, options: LeastSquaresOptions = {}): LeastSquares {
  checkLeastSquares(problem, options);
  const { maximumSteps = 2000, tolerance = 1e-7, rankTolerance = 1e-9, firstStep = 1 } = options;
  const descent = new Descent(problem, options.differenceOrder ?? 2);
  if (!Number.isFinite(descent.sumOfSquares)) return unsolved(descent, 0, "not finite");
  let bound = Number.NaN;
  for (let steps = 0; ; ) {
    if (!descent.linearise()) {
      if (steps === 0) return unsolved(descent, steps, "not finite");
      descent.takeStep();
      descent.linearise();
      bound *= FAR_TOO_LONG;
    }
    const principal = descent.directionsForSteps();
    if (settled(descent, principal, rankTolerance, tolerance)) {
      const here = descent.directionsHere();
      if (settled(descent, here, rankTolerance, tolerance))
        return ending(descent, here, steps, rankTolerance);
    }
    if (Number.isNaN(bound)) bound = firstStep * descent.scaledLength();
    const kept = longerThan(principal, problem.start.length * Number.EPSILON);
    for (let gain = 0; !(gain > LEAST_GAIN); ) {
      if (steps++ >= maximumSteps) return unsolved(descent, maximumSteps, "no convergence");
      const damping = dampingWithin(principal, kept, bound);
      const length = writeStep(principal, kept, damping, descent.step);
      const promised = predictedFall(principal, kept, damping);
      gain = descent.fallByStep() / promised;
      if (gain > LEAST_GAIN) descent.takeStep();
      else if (damping === 0 && promised <= ROUNDING_OF_SUM * descent.sumOfSquares)
        return ending(descent, descent.directionsHere(), steps, rankTolerance);
      else if (length < Number.EPSILON * descent.scaledLength())
        return unsolved(descent, steps, "no convergence");
      bound = nextBound(bound, length, gain, damping);
    }
  }
}

/** A step that kept less than its promise halves the bound, one that led up steeply or nowhere cuts it to a tenth. */
function nextBound(bound: number, length: number, gain: number, damping: number): number {
  if (!(gain >= POOR_GAIN)) return Math.min(bound, length) * (gain > -1 ? TOO_LONG : FAR_TOO_LONG);
  return gain > GOOD_GAIN || damping === 0 ? Math.max(bound, 2 * length) : bound;
}

/** How many principal directions are longer than a share of the longest. */
function longerThan({ lengths }: PrincipalDirections, share: number): number {
  const unseen = lengths.findIndex((length) => !(length > share * lengths[0]!));
  return unseen === -1 ? lengths.length : unseen;
}

/**
 * M42. Whether the undamped step along the seen directions is small: its length in standard deviations, which is the
 * residuals' projection on the tangent plane over their noise, or its length in scaled parameters.
 *
 * @see D. M. Bates and D. G. Watts, 1981: A relative offset orthogonality convergence criterion for nonlinear least
 *   squares, Technometrics 23, 179-183
 */
function settled(
  descent: Descent,
  principal: PrincipalDirections,
  rankTolerance: number,
  tolerance: number,
): boolean {
  const seen = longerThan(principal, rankTolerance);
  let tangent = 0;
  let step = 0;
  for (let direction = 0; direction < seen; direction++) {
    tangent += principal.along[direction]! ** 2;
    step += (principal.along[direction]! / principal.lengths[direction]!) ** 2;
  }
  const over = descent.count - seen;
  const noise = over > 0 ? Math.max(0, descent.sumOfSquares - tangent) / over : 0;
  return (
    tangent <= seen * tolerance ** 2 * noise || Math.sqrt(step) <= ROUNDING_OF_STEP * descent.scaledLength()
  );
}

function ending(
  descent: Descent,
  here: PrincipalDirections,
  steps: number,
  rankTolerance: number,
): LeastSquares {
  const parameters = descent.parameters.length;
  const seen = longerThan(here, rankTolerance);
  return seen < parameters
    ? { ...unsolved(descent, steps, "rank deficient"), ...unseenOf(here, seen) }
    : solved(descent, here, steps);
}

/** M42. The directions that the data do not see, and the parameters that make them up. */
function unseenOf({ directions }: PrincipalDirections, seen: number) {
  const unseenDirections = directions.slice(seen);
  const share = (parameter: number): number =>
    Math.hypot(...unseenDirections.map((axis) => axis[parameter]!));
  const unseen = directions.map((_, parameter) => parameter).filter((one) => share(one) > TAKES_PART);
  return { unseen, unseenDirections };
}

function solved(descent: Descent, here: PrincipalDirections, steps: number): SolvedLeastSquares {
  const { parameters, residuals, sumOfSquares, count } = descent;
  const rank = parameters.length;
  return {
    status: "solved",
    parameters,
    residuals,
    sumOfSquares,
    steps,
    covariance: covarianceOf(here, descent.scaleHere),
    residualVariance: count > rank ? sumOfSquares / (count - rank) : Number.NaN,
    rank,
    condition: here.lengths[0]! / here.lengths[rank - 1]!,
  };
}

function unsolved(
  { parameters, residuals, sumOfSquares }: Descent,
  steps: number,
  reason: UnsolvedLeastSquares["reason"],
): UnsolvedLeastSquares {
  return {
    status: "unsolved",
    parameters,
    residuals,
    sumOfSquares,
    steps,
    reason,
    unseen: [],
    unseenDirections: [],
  };
}

/** M42. (JᵀJ)⁻¹ = D⁻¹ V S⁻² Vᵀ D⁻¹ of a Jacobian with scaled columns J D⁻¹ = Q U S Vᵀ. */
function covarianceOf({ lengths, directions }: PrincipalDirections, scale: Float64Array): Float64Array {
  const size = scale.length;
  const covariance = new Float64Array(size * size);
  directions.forEach((axis, direction) => {
    for (let row = 0; row < size; row++)
      for (let column = 0; column < size; column++) {
        const at = row * size + column;
        const part = (axis[row]! / scale[row]!) * (axis[column]! / scale[column]!);
        covariance[at] = covariance[at]! + part / lengths[direction]! ** 2;
      }
  });
  return covariance;
}

/**
 * M42. Standard deviations of fitted parameters: √(variance · covarianceᵢᵢ).
 *
 * @param variance of the residuals, in the square of their unit: 1 if they were whitened, `residualVariance` if all that is known is that they are
 *   alike
 * @returns one a parameter, in its unit. Never throws.
 * @example
 * // the mean of four numbers of unit variance is known to a half
 * const problem = { start: [1], count: 4, residuals: ([x], out) => out.set([x - 3, x - 5, x - 4, x - 4]) };
 * standardDeviations(leastSquares(problem))[0].toFixed(6) // "0.500000"
 */
export const standardDeviations = (
  { covariance, rank }: SolvedLeastSquares,
  variance: number = 1,
): Float64Array =>
  Float64Array.from({ length: rank }, (_, at) => Math.sqrt(variance * covariance[at * (rank + 1)]!));
