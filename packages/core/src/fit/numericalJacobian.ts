/** A vector function that writes its values for some parameters into `out`. */
export type VectorFunction = (parameters: Float64Array, out: Float64Array) => void;

/** Step as a share of the parameter's size: the cube root of the spacing of numbers balances truncation and rounding. */
const STEP_SHARE = Math.cbrt(Number.EPSILON);

/** With the fourth order formula the balance is at the fifth root. */
const WIDE_STEP_SHARE = Number.EPSILON ** (1 / 5);

/** How a Jacobian is had by differences, with the memory that it needs. */
export interface DifferenceWorkspace {
  readonly above: Float64Array;
  readonly below: Float64Array;
  readonly shifted: Float64Array;
}

/**
 * M41. Jacobian by central differences, (f(p + h) − f(p − h)) / 2h, each parameter's step h = ε^(1/3) · its size, made
 * exact in binary. The order 4 adds the same with 2h, (4 D(h) − D(2h)) / 3 (Richardson), with h = ε^(1/5) · size / 2.
 *
 * @param sizes typical size of each parameter, positive
 * @param order 2 (central) or 4 (Richardson)
 * @param out row-major, values × parameters
 * Never throws by itself; NaN where the function is.
 * @see W. H. Press et al., 2007: Numerical Recipes, 3rd edition, section 5.7
 */
export function numericalJacobian(
  values: VectorFunction,
  parameters: Float64Array,
  sizes: Float64Array,
  order: 2 | 4,
  workspace: DifferenceWorkspace,
  out: Float64Array,
): void {
  const { above, below, shifted } = workspace;
  const share = order === 2 ? STEP_SHARE : WIDE_STEP_SHARE / 2;
  shifted.set(parameters);
  for (let column = 0; column < parameters.length; column++) {
    const at = parameters[column]!;
    const step = at + share * sizes[column]! - at || share * sizes[column]!;
    const differences = (reach: number, weight: number): void => {
      shifted[column] = at + reach;
      values(shifted, above);
      shifted[column] = at - reach;
      values(shifted, below);
      const factor = weight / (2 * reach);
      for (let row = 0, to = column; row < above.length; row++, to += parameters.length)
        out[to] = (weight < 0 ? out[to]! : 0) + factor * (above[row]! - below[row]!);
    };
    if (order === 2) differences(step, 1);
    else {
      differences(step, 4 / 3);
      differences(2 * step, -1 / 3);
    }
    shifted[column] = at;
  }
}
