import { Matrix } from "ml-matrix";

/** What residuals say of parameters, in the scales of these: JᵀJ, and Jᵀu. */
export class Said {
  readonly #scales: readonly number[];
  /** Lower triangle, row-major. */
  readonly #information: Float64Array;
  readonly #score: Float64Array;

  constructor(scales: readonly number[]) {
    this.#scales = scales;
    this.#information = new Float64Array(scales.length ** 2);
    this.#score = new Float64Array(scales.length);
  }

  /**
   * Adds what one residual says.
   *
   * @param slopes row-major, rows × parameters
   * @param row of the slopes that are the residual's
   */
  add(slopes: Float64Array, row: number, residual: number): void {
    const size = this.#scales.length;
    const from = row * size;
    for (let i = 0; i < size; i++) {
      const slope = slopes[from + i]!;
      if (slope === 0) continue;
      this.#score[i] = this.#score[i]! + slope * residual;
      for (let j = 0; j <= i; j++)
        this.#information[i * size + j] = this.#information[i * size + j]! + slope * slopes[from + j]!;
    }
  }

  /** JᵀJ, in the scales. */
  get information(): Matrix {
    const size = this.#scales.length;
    const matrix = Matrix.zeros(size, size);
    for (let i = 0; i < size; i++)
      for (let j = 0; j <= i; j++) {
        const value = this.#information[i * size + j]! * this.#scales[i]! * this.#scales[j]!;
        matrix.set(i, j, value);
        matrix.set(j, i, value);
      }
    return matrix;
  }

  /** Jᵀu, in the scales: a column. */
  get score(): Matrix {
    return Matrix.columnVector(Array.from(this.#score, (value, at) => value * this.#scales[at]!));
  }
}
