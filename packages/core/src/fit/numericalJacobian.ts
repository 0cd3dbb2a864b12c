/** A vector function that writes its values for some parameters into `out`. */
export type VectorFunction = (parameters: Float64Array, out: Float64Array) => void;

/** Memory that differences need: two columns of values and one of parameters. */
export interface DifferenceMemory {
  readonly above: Float64Array;
  readonly below: Float64Array;
  readonly shifted: Float64Array;
}

/** Step as a share of a parameter's size: at the cube root of the spacing of numbers, truncation and rounding balance. */
const CENTRAL_STEP = Math.cbrt(Number.EPSILON);

/** With the fourth order formula they balance at the fifth root; it looks at this and at half of it. */
const RICHARDSON_STEP = Number.EPSILON ** (1 / 5);

/**
 * M41. Jacobian by differences: of order 2 by D(h) = (f(p + h) − f(p − h)) / 2h with h = ε^(1/3) · size, each parameter in
 * turn; of order 4 by (4 D(h/2) − D(h)) / 3 with h = ε^(1/5) · size.
 *
 * @param sizes typical size of each parameter, positive
 * @param out row-major, values × parameters
 * Never throws by itself; NaN where the function is.
 * @see W. H. Press et al., 2007: Numerical Recipes, 3rd edition, section 5.7
 */
export function numericalJacobian(
  values: VectorFunction,
  parameters: Float64Array,
  sizes: Float64Array,
  order: 2 | 4,
  memory: DifferenceMemory,
  out: Float64Array,
): void {
  out.fill(0);
  memory.shifted.set(parameters);
  for (let column = 0; column < parameters.length; column++) {
    const step = (order === 2 ? CENTRAL_STEP : RICHARDSON_STEP) * sizes[column]!;
    if (order === 2) addDifference(values, parameters[column]!, column, step, 1, memory, out);
    else {
      addDifference(values, parameters[column]!, column, step / 2, 4 / 3, memory, out);
      addDifference(values, parameters[column]!, column, step, -1 / 3, memory, out);
    }
  }
}

/** Adds weight · D(step) to a column of the Jacobian; the step is what the shifted parameters differ by in binary. */
function addDifference(
  values: VectorFunction,
  centre: number,
  column: number,
  step: number,
  weight: number,
  memory: DifferenceMemory,
  out: Float64Array,
): void {
  const { above, below, shifted } = memory;
  const higher = centre + step;
  const lower = centre - step;
  shifted[column] = higher;
  values(shifted, above);
  shifted[column] = lower;
  values(shifted, below);
  shifted[column] = centre;
  const factor = weight / (higher - lower);
  for (let row = 0, at = column; row < above.length; row++, at += shifted.length)
    out[at] = out[at]! + factor * (above[row]! - below[row]!);
}
