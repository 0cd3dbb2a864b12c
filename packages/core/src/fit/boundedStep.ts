import { Matrix, SVD } from "ml-matrix";

/** A linear least squares problem seen in its principal directions: min ‖right + U S Vᵀ z‖. */
export interface PrincipalDirections {
  /** Singular values, falling. */
  readonly lengths: readonly number[];
  /** Vᵀ: one direction a row, one parameter a column, in scaled parameters. */
  readonly directions: readonly (readonly number[])[];
  /** Uᵀ · right: the residual along each direction. */
  readonly along: readonly number[];
}

/**
 * M40. The principal directions of the scaled triangle R D⁻¹ and the residual along them.
 *
 * @param triangle row-major with `columns` a row, upper triangle used
 * @param rows how many rows the triangle really has (fewer than columns if there are fewer residuals)
 * @param right Qᵀ · residuals
 * @param scale D, positive
 * Never throws on finite input.
 */
export function principalDirections(
  triangle: Float64Array,
  rows: number,
  columns: number,
  right: Float64Array,
  scale: Float64Array,
): PrincipalDirections {
  const matrix = Matrix.zeros(columns, columns);
  for (let row = 0; row < Math.min(rows, columns); row++)
    for (let column = row; column < columns; column++)
      matrix.set(row, column, triangle[row * columns + column]! / scale[column]!);
  const svd = new SVD(matrix);
  const left = svd.leftSingularVectors;
  const along = svd.diagonal.map((_, direction) => {
    let sum = 0;
    for (let row = 0; row < Math.min(rows, columns); row++) sum += left.get(row, direction) * right[row]!;
    return sum;
  });
  return { lengths: svd.diagonal, directions: svd.rightSingularVectors.transpose().to2DArray(), along };
}

/** How near the step's length comes to the bound: exactness there buys nothing (Moré 1978 uses the same tenth). */
const BOUND_SLACK = 0.1;

/**
 * M40. The damping λ ≥ 0 at which the step of length ‖z(λ)‖, z(λ) = −V S (S² + λ)⁻¹ Uᵀ r, does not pass a bound: 0 if
 * the undamped step is within it, else by Newton's method on 1/‖z‖ (Hebden), which climbs to the root from 0.
 *
 * @param kept how many leading directions take part
 * Never throws.
 * @see J. J. Moré, 1978: The Levenberg-Marquardt algorithm, Lecture Notes in Mathematics 630, 105-116
 */
export function dampingWithin(principal: PrincipalDirections, kept: number, bound: number): number {
  let damping = 0;
  for (let round = 0; round < 50; round++) {
    let squares = 0;
    let slope = 0;
    for (let direction = 0; direction < kept; direction++) {
      const s = principal.lengths[direction]!;
      const damped = s * s + damping;
      const part = (s * principal.along[direction]!) / damped;
      squares += part * part;
      slope += (part * part) / damped;
    }
    const length = Math.sqrt(squares);
    if (length <= bound * (1 + BOUND_SLACK)) return damping;
    damping += ((length - bound) / bound) * (squares / slope);
  }
  return damping;
}

/** M40. Writes the scaled step z(λ) into `out` and returns its length. Never throws. */
export function writeStep(
  principal: PrincipalDirections,
  kept: number,
  damping: number,
  out: Float64Array,
): number {
  out.fill(0);
  for (let direction = 0; direction < kept; direction++) {
    const s = principal.lengths[direction]!;
    const part = (-s * principal.along[direction]!) / (s * s + damping);
    const axis = principal.directions[direction]!;
    for (let column = 0; column < out.length; column++) out[column] = out[column]! + part * axis[column]!;
  }
  return Math.hypot(...out);
}

/**
 * M40. How much the sum of squares falls by the damped step if the residuals are linear:
 * Σ gᵢ² (1 − (λ / (sᵢ² + λ))²). Never throws.
 */
export function predictedFall(principal: PrincipalDirections, kept: number, damping: number): number {
  let fall = 0;
  for (let direction = 0; direction < kept; direction++) {
    const left = damping / (principal.lengths[direction]! ** 2 + damping);
    fall += principal.along[direction]! ** 2 * (1 - left * left);
  }
  return fall;
}
