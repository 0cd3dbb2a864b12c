import {
  dampingWithin,
  type PrincipalDirections,
  predictedFall,
  principalDirections,
  writeStep,
} from "./boundedStep.ts";
import { type DifferenceWorkspace, numericalJacobian } from "./numericalJacobian.ts";
import { columnLength, reduceToTriangle } from "./orthogonalTriangle.ts";

/** Residuals that are to be small in the sense of their sum of squares; whitened, prior rows included. */
export interface LeastSquaresProblem {
  readonly start: ArrayLike<number>;
  /** How many residuals there are. */
  readonly count: number;
  /** Typical size of each parameter, positive; without it the size of its value, or 1 where that is 0. */
  readonly scale?: ArrayLike<number>;
  /** Writes `count` residuals for these parameters into `out`. It must not keep or change the parameters. */
  residuals(parameters: Float64Array, out: Float64Array): void;
  /** Writes ∂residual/∂parameter into `out`, row-major count × parameters; without it differences are taken. */
  jacobian?(parameters: Float64Array, out: Float64Array): void;
}

export interface LeastSquaresOptions {
  /** Steps taken or tried before giving up; 2000. */
  readonly maximumSteps?: number;
  /** Settled when the step still to take is this share of the standard deviations; 1e-7. */
  readonly tolerance?: number;
  /** A direction counts as unseen when its singular value is this share of the largest; 1e-9. */
  readonly rankTolerance?: number;
  /** Order of the differences where there is no analytic Jacobian: 2 (central) or 4 (Richardson, twice the work); 2. */
  readonly differenceOrder?: 2 | 4;
  /** First bound of a step, as a multiple of the scaled length of the start; 1. */
  readonly firstStep?: number;
}

/** Where a fit stands, solved or not. */
interface Ending {
  readonly parameters: Float64Array;
  readonly residuals: Float64Array;
  readonly sumOfSquares: number;
  /** Steps taken or tried. */
  readonly steps: number;
}

export interface SolvedLeastSquares extends Ending {
  readonly status: "solved";
  /** (JᵀJ)⁻¹, row-major: the covariance of the parameters if the residuals have unit variance. */
  readonly covariance: Float64Array;
  /** Sum of squares over count − parameters; NaN where that is 0. Times the covariance: if all that is known is that the residuals' variances are equal. */
  readonly residualVariance: number;
  /** Directions seen: the number of parameters. */
  readonly rank: number;
  /** Largest over smallest singular value of the Jacobian, its columns scaled to equal length. */
  readonly condition: number;
}

export interface UnsolvedLeastSquares extends Ending {
  readonly status: "unsolved";
  readonly reason: "not finite" | "no convergence" | "rank deficient";
  /** Rank deficient: which parameters take part in the unseen directions, and these (unit length in parameters scaled by column); else empty. */
  readonly unseen: readonly number[];
  readonly unseenDirections: readonly (readonly number[])[];
}

export type LeastSquares = SolvedLeastSquares | UnsolvedLeastSquares;

/** A parameter takes part in unseen directions if they hold this share of it or more. */
const TAKES_PART = 0.1;

/** Share of a sum of squares below which a fall cannot be told from rounding of the residuals. */
const ROUNDING_OF_SUM = 1e-12;

/** Least share of the fall promised that a step must bring (Moré 1978). */
const LEAST_GAIN = 1e-4;

/**
 * M40. Parameters that make the sum of squares of the residuals smallest: Levenberg-Marquardt with bounded, scaled
 * steps (Moré 1978) on the triangle of the Jacobian. It is solved when the undamped step still to take is `tolerance`
 * of the standard deviations (M42), or, where residuals vanish, as small as rounding, and every direction is seen.
 *
 * @returns `solved`, or `unsolved` with its reason
 * @throws RangeError if a start, scale, count or option is not finite or out of range; TypeError if lengths disagree
 */
export function leastSquares(problem: LeastSquaresProblem, options: LeastSquaresOptions = {}): LeastSquares {
  const fit = new Fit(problem, options);
  return fit.run();
}

class Fit {
  private readonly n: number;
  private readonly count: number;
  private parameters: Float64Array;
  private trial: Float64Array;
  private residuals: Float64Array;
  private trialResiduals: Float64Array;
  private readonly jacobian: Float64Array;
  private readonly rotated: Float64Array;
  private readonly columnScale: Float64Array;
  private readonly sizes: Float64Array;
  private readonly step: Float64Array;
  private readonly workspace: DifferenceWorkspace;
  private sumOfSquares = Number.NaN;
  private steps = 0;
  private readonly maximumSteps: number;
  private readonly tolerance: number;
  private readonly rankTolerance: number;

  constructor(
    private readonly problem: LeastSquaresProblem,
    private readonly options: LeastSquaresOptions,
  ) {
    const n = problem.start.length;
    this.n = n;
    this.count = problem.count;
    this.maximumSteps = options.maximumSteps ?? 2000;
    this.tolerance = options.tolerance ?? 1e-7;
    this.rankTolerance = options.rankTolerance ?? 1e-9;
    this.parameters = Float64Array.from(problem.start);
    this.trial = new Float64Array(n);
    this.residuals = new Float64Array(this.count);
    this.trialResiduals = new Float64Array(this.count);
    this.jacobian = new Float64Array(Math.max(this.count, n) * n);
    this.rotated = new Float64Array(this.count);
    this.columnScale = new Float64Array(n);
    this.sizes = new Float64Array(n);
    this.step = new Float64Array(n);
    this.workspace = {
      above: new Float64Array(this.count),
      below: new Float64Array(this.count),
      shifted: new Float64Array(n),
    };
  }

  run(): LeastSquares {
    this.problem.residuals(this.parameters, this.residuals);
    this.sumOfSquares = squares(this.residuals);
    let bound = Number.NaN;
    if (!Number.isFinite(this.sumOfSquares)) return this.unsolved("not finite");
    for (;;) {
      const principal = this.linearise();
      if (principal === undefined) return this.unsolved("not finite");
      const seen = directionsAbove(principal, this.rankTolerance);
      if (this.settled(principal, seen)) return this.ending(principal, seen);
      const kept = directionsAbove(principal, this.n * Number.EPSILON);
      if (Number.isNaN(bound)) bound = (this.options.firstStep ?? 1) * (this.scaledLength() || 1);
      for (;;) {
        if (this.steps++ >= this.maximumSteps) return this.unsolved("no convergence");
        const damping = dampingWithin(principal, kept, bound);
        const length = writeStep(principal, kept, damping, this.step);
        const gain = this.tryStep() / predictedFall(principal, kept, damping);
        if (!(gain >= 0.25)) bound = Math.min(bound, length) * (gain > -1 ? 0.5 : 0.1);
        else if (gain > 0.75 || damping === 0) bound = Math.max(bound, 2 * length);
        if (gain > LEAST_GAIN) break;
        if (damping === 0 && this.withinRounding(principal, kept)) return this.ending(principal, seen);
        if (!(length > Number.EPSILON * this.scaledLength())) return this.unsolved("no convergence");
      }
      this.takeTrial();
    }
  }

  private linearise(): PrincipalDirections | undefined {
    const { n, count, jacobian } = this;
    for (let j = 0; j < n; j++)
      this.sizes[j] = this.problem.scale
        ? Math.max(Math.abs(this.parameters[j]!), this.problem.scale[j]!)
        : Math.abs(this.parameters[j]!) || 1;
    if (this.problem.jacobian) this.problem.jacobian(this.parameters, jacobian);
    else
      numericalJacobian(
        (p, out) => this.problem.residuals(p, out),
        this.parameters,
        this.sizes,
        this.options.differenceOrder ?? 2,
        this.workspace,
        jacobian,
      );
    for (let j = 0; j < n; j++) {
      const length = columnLength(jacobian, count, n, j, 0);
      if (!Number.isFinite(length)) return undefined;
      this.columnScale[j] = Math.max(this.columnScale[j]!, length);
    }
    const scale = this.columnScale.map((s) => s || 1);
    this.rotated.set(this.residuals);
    reduceToTriangle(jacobian, this.rotated, count, n, this.step);
    return principalDirections(jacobian, count, n, this.rotated, scale);
  }

  private scaledLength(): number {
    let sum = 0;
    for (let j = 0; j < this.n; j++) sum += ((this.columnScale[j]! || 1) * this.sizes[j]!) ** 2;
    return Math.sqrt(sum);
  }

  private tryStep(): number {
    for (let j = 0; j < this.n; j++)
      this.trial[j] = this.parameters[j]! + this.step[j]! / (this.columnScale[j]! || 1);
    this.problem.residuals(this.trial, this.trialResiduals);
    const sum = squares(this.trialResiduals);
    return Number.isFinite(sum) ? this.sumOfSquares - sum : Number.NEGATIVE_INFINITY;
  }

  private takeTrial(): void {
    [this.parameters, this.trial] = [this.trial, this.parameters];
    [this.residuals, this.trialResiduals] = [this.trialResiduals, this.residuals];
    this.sumOfSquares = squares(this.residuals);
  }

  private settled(principal: PrincipalDirections, seen: number): boolean {
    let tangent = 0;
    let step = 0;
    for (let i = 0; i < seen; i++) {
      tangent += principal.along[i]! ** 2;
      step += (principal.along[i]! / principal.lengths[i]!) ** 2;
    }
    if (Math.sqrt(step) <= 1e-13 * this.scaledLength()) return true;
    const free = this.count - seen;
    const noise = free > 0 ? Math.max(0, this.sumOfSquares - tangent) / free : 0;
    return tangent / Math.max(seen, 1) <= this.tolerance ** 2 * noise;
  }

  /** Whether the fall still to be had is lost in the rounding of the sum of squares. */
  private withinRounding(principal: PrincipalDirections, kept: number): boolean {
    return predictedFall(principal, kept, 0) <= ROUNDING_OF_SUM * this.sumOfSquares;
  }

  private ending(principal: PrincipalDirections, seen: number): LeastSquares {
    if (seen < this.n) {
      const unseenDirections = principal.directions.slice(seen);
      const unseen = Array.from({ length: this.n }, (_, j) => j).filter(
        (j) => Math.hypot(...unseenDirections.map((axis) => axis[j]!)) > TAKES_PART,
      );
      return { ...this.unsolved("rank deficient"), unseen, unseenDirections };
    }
    const { n } = this;
    const covariance = new Float64Array(n * n);
    for (let i = 0; i < n; i++)
      for (let a = 0; a < n; a++)
        for (let b = 0; b < n; b++)
          covariance[a * n + b] =
            covariance[a * n + b]! +
            (principal.directions[i]![a]! * principal.directions[i]![b]!) /
              (principal.lengths[i]! ** 2 * this.columnScale[a]! * this.columnScale[b]!);
    return {
      status: "solved",
      ...this.where(),
      covariance,
      residualVariance: this.count > n ? this.sumOfSquares / (this.count - n) : Number.NaN,
      rank: n,
      condition: principal.lengths[0]! / principal.lengths[n - 1]!,
    };
  }

  private unsolved(reason: UnsolvedLeastSquares["reason"]): UnsolvedLeastSquares {
    return { status: "unsolved", ...this.where(), reason, unseen: [], unseenDirections: [] };
  }

  private where(): Ending {
    return {
      parameters: this.parameters,
      residuals: this.residuals,
      sumOfSquares: this.sumOfSquares,
      steps: this.steps,
    };
  }
}

function directionsAbove(principal: PrincipalDirections, share: number): number {
  const least = share * principal.lengths[0]!;
  let seen = 0;
  while (seen < principal.lengths.length && principal.lengths[seen]! > least) seen++;
  return seen;
}

function squares(values: Float64Array): number {
  let sum = 0;
  for (let at = 0; at < values.length; at++) sum += values[at]! ** 2;
  return sum;
}
