/** Residuals whose sum of squares is to be small: whitened, and with a row for each prior. */
export interface LeastSquaresProblem {
  /** Where to start from: one number a parameter, each in its own unit. */
  readonly start: ArrayLike<number>;
  /** How many residuals there are. */
  readonly count: number;
  /** Least size of each parameter, in its own unit, positive, its value being larger at times; without it a tenth of its start, or 1. */
  readonly scale?: ArrayLike<number>;
  /** Writes `count` residuals for these parameters into `out`; keeps and changes neither array otherwise. */
  residuals(parameters: Float64Array, out: Float64Array): void;
  /** Writes ∂residual/∂parameter into `out`, row-major count × parameters; without it differences are taken (M41). */
  jacobian?(parameters: Float64Array, out: Float64Array): void;
}

/** What may be asked of `leastSquares`; what is left out takes the value shown. */
export interface LeastSquaresOptions {
  /** Steps tried before giving up, taken or not; 2000, which the longest of NIST's problems needs. */
  readonly maximumSteps?: number;
  /** Settled when the step still to take is this share of a standard deviation (M42); 1e-7. */
  readonly tolerance?: number;
  /** A direction is unseen if its singular value is this share of the largest (M42); 1e-9, above the error of M41. */
  readonly rankTolerance?: number;
  /** Order of differences where there is no analytic Jacobian: 2, or 4 at twice the work; 2. */
  readonly differenceOrder?: 2 | 4;
  /** First bound of a step, as a share of the scaled length of the start; 1. */
  readonly firstStep?: number;
}

/** Where a fit stands, solved or not. */
interface Standing {
  readonly parameters: Float64Array;
  readonly residuals: Float64Array;
  readonly sumOfSquares: number;
  /** Steps tried, taken or not. */
  readonly steps: number;
}

/** Data that could answer. */
export interface SolvedLeastSquares extends Standing {
  readonly status: "solved";
  /** (JᵀJ)⁻¹, row-major: covariance of the parameters if the residuals have unit variance, as whitened ones have. */
  readonly covariance: Float64Array;
  /** Sum of squares over (count − parameters), NaN if there is nothing over; the factor where variances are unknown. */
  readonly residualVariance: number;
  /** Directions seen: all, so the number of parameters. */
  readonly rank: number;
  /** Largest over smallest singular value of the Jacobian, its columns scaled to unit length. */
  readonly condition: number;
}

/** Data that cannot answer. */
export interface UnsolvedLeastSquares extends Standing {
  readonly status: "unsolved";
  readonly reason: "not finite" | "no convergence" | "rank deficient";
  /** Rank deficient: indices of the parameters that take part in unseen directions; else empty. */
  readonly unseen: readonly number[];
  /** These directions, of unit length in parameters scaled to Jacobian columns of unit length; else empty. */
  readonly unseenDirections: readonly (readonly number[])[];
}

/** Least squares that have an answer, or the reason why not; standard deviations exist on a solved one only. */
export type LeastSquares = SolvedLeastSquares | UnsolvedLeastSquares;

/** Throws unless a problem and its options are of the right lengths, finite and in range. */
export function checkLeastSquares(problem: LeastSquaresProblem, options: LeastSquaresOptions): void {
  const { start, scale, count } = problem;
  if (!Number.isInteger(count) || count < 1)
    throw new RangeError(`leastSquares: count must be a positive whole number, got ${count}`);
  if (start.length === 0) throw new RangeError("leastSquares: needs at least one parameter, got none");
  for (let at = 0; at < start.length; at++)
    if (!Number.isFinite(start[at]))
      throw new RangeError(`leastSquares: start[${at}] must be finite, got ${start[at]}`);
  if (scale !== undefined && scale.length !== start.length)
    throw new RangeError(
      `leastSquares: scale must be as long as start (${start.length}), got ${scale.length}`,
    );
  for (let at = 0; at < (scale?.length ?? 0); at++)
    if (!(scale![at]! > 0 && scale![at]! < Number.POSITIVE_INFINITY))
      throw new RangeError(`leastSquares: scale[${at}] must be positive and finite, got ${scale![at]}`);
  for (const name of ["maximumSteps", "tolerance", "rankTolerance", "firstStep"] as const) {
    const value = options[name];
    if (value !== undefined && !(value > 0 && value < Number.POSITIVE_INFINITY))
      throw new RangeError(`leastSquares: option ${name} must be positive and finite, got ${value}`);
  }
  if (![undefined, 2, 4].includes(options.differenceOrder))
    throw new RangeError(
      `leastSquares: option differenceOrder must be 2 or 4, got ${options.differenceOrder}`,
    );
}
