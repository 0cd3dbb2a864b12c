import { type PrincipalDirections, principalDirections } from "./boundedStep.ts";
import type { LeastSquaresProblem } from "./leastSquaresProblem.ts";
import { type DifferenceMemory, numericalJacobian } from "./numericalJacobian.ts";
import { columnLength, reduceToTriangle } from "./orthogonalTriangle.ts";

/** Without a stated scale a parameter counts as at least this share of its start, lest differences fail as it nears 0. */
const SHARE_OF_START = 0.1;

/** A point on the way down a sum of squares, the point that is tried next, and all memory that both need. */
export class Descent {
  readonly count: number;
  parameters: Float64Array;
  residuals: Float64Array;
  sumOfSquares: number;
  /** Step in scaled parameters, to be tried. */
  readonly step: Float64Array;
  readonly #problem: LeastSquaresProblem;
  readonly #differenceOrder: 2 | 4;
  readonly #jacobian: Float64Array;
  readonly #rotated: Float64Array;
  readonly #lengths: Float64Array;
  readonly #longest: Float64Array;
  readonly #sizes: Float64Array;
  readonly #differences: DifferenceMemory;
  #trial: Float64Array;
  #trialResiduals: Float64Array;
  #trialSum = Number.NaN;

  constructor(problem: LeastSquaresProblem, differenceOrder: 2 | 4) {
    const { count, start } = problem;
    this.count = count;
    this.#problem = problem;
    this.#differenceOrder = differenceOrder;
    this.parameters = Float64Array.from(start);
    this.residuals = new Float64Array(count);
    this.step = new Float64Array(start.length);
    this.#jacobian = new Float64Array(Math.max(count, start.length) * start.length);
    this.#rotated = new Float64Array(count);
    this.#lengths = new Float64Array(start.length);
    this.#longest = new Float64Array(start.length);
    this.#sizes = new Float64Array(start.length);
    this.#trial = new Float64Array(start.length);
    this.#trialResiduals = new Float64Array(count);
    this.#differences = {
      above: new Float64Array(count),
      below: new Float64Array(count),
      shifted: new Float64Array(start.length),
    };
    this.sumOfSquares = this.#sumOfSquaresAt(this.parameters, this.residuals);
  }

  /** Makes the triangle of the Jacobian here; false if that is not finite. */
  linearise(): boolean {
    const { start } = this.#problem;
    for (let column = 0; column < start.length; column++) this.#sizes[column] = this.#size(column);
    this.#writeJacobian();
    for (let column = 0; column < start.length; column++) {
      const length = columnLength(this.#jacobian, this.count, start.length, column);
      if (!Number.isFinite(length)) return false;
      this.#lengths[column] = length || 1;
      this.#longest[column] = Math.max(this.#longest[column]!, length);
    }
    for (let column = 0; column < start.length; column++) this.#longest[column] ||= 1;
    this.#rotated.set(this.residuals);
    reduceToTriangle(this.#jacobian, this.#rotated, this.count, start.length, this.step);
    return true;
  }

  /** Principal directions for steps: parameters scaled by the longest that their columns were on the way (Moré). */
  directionsForSteps = (): PrincipalDirections => this.#directions(this.#longest);

  /** Principal directions for judging: parameters scaled by their columns here, so that no scale of the past matters. */
  directionsHere = (): PrincipalDirections => this.#directions(this.#lengths);

  /** Columns' lengths here, 1 for a column of zeros: scaled parameter = length · parameter. */
  get scaleHere(): Float64Array {
    return this.#lengths;
  }

  /** Length of the parameters, scaled as for steps, each at its typical size if that is larger. */
  scaledLength(): number {
    let sum = 0;
    for (let column = 0; column < this.step.length; column++)
      sum += (this.#longest[column]! * this.#sizes[column]!) ** 2;
    return Math.sqrt(sum);
  }

  /** By how much the step lowers the sum of squares; −Infinity where it leads to what is not finite. */
  fallByStep(): number {
    for (let column = 0; column < this.step.length; column++)
      this.#trial[column] = this.parameters[column]! + this.step[column]! / this.#longest[column]!;
    this.#trialSum = this.#sumOfSquaresAt(this.#trial, this.#trialResiduals);
    return Number.isFinite(this.#trialSum) ? this.sumOfSquares - this.#trialSum : Number.NEGATIVE_INFINITY;
  }

  /** Goes to the point last tried, or, called again, back. */
  takeStep(): void {
    [this.parameters, this.#trial] = [this.#trial, this.parameters];
    [this.residuals, this.#trialResiduals] = [this.#trialResiduals, this.residuals];
    [this.sumOfSquares, this.#trialSum] = [this.#trialSum, this.sumOfSquares];
  }

  #directions(scale: Float64Array): PrincipalDirections {
    return principalDirections(this.#jacobian, this.count, this.step.length, this.#rotated, scale);
  }

  #size(column: number): number {
    const { scale, start } = this.#problem;
    const least = scale === undefined ? SHARE_OF_START * Math.abs(start[column]!) || 1 : scale[column]!;
    return Math.max(Math.abs(this.parameters[column]!), least);
  }

  #writeJacobian(): void {
    const out = this.#jacobian.subarray(0, this.count * this.step.length);
    if (this.#problem.jacobian) {
      out.fill(Number.NaN);
      this.#problem.jacobian(this.parameters, out);
    } else {
      const values = this.#problem.residuals.bind(this.#problem);
      numericalJacobian(values, this.parameters, this.#sizes, this.#differenceOrder, this.#differences, out);
    }
  }

  #sumOfSquaresAt(parameters: Float64Array, residuals: Float64Array): number {
    residuals.fill(Number.NaN);
    this.#problem.residuals(parameters, residuals);
    let sum = 0;
    for (let row = 0; row < residuals.length; row++) sum += residuals[row]! ** 2;
    return sum;
  }
}
