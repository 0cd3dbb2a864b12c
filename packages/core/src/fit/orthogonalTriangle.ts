/**
 * M40. Triangle of a tall matrix by Householder reflections, applied to a right side as well: afterwards the upper
 * n × n part of `matrix` holds R (what lies below is scratch) and `right` holds Qᵀ · right. Nothing is allocated.
 *
 * @param matrix row-major rows × columns, overwritten
 * @param right `rows` long, overwritten
 * @param reflected scratch, `columns` long
 * Never throws; NaN in the matrix, or on the right of a row that is not 0 all through, NaN out.
 * @see G. H. Golub and C. F. Van Loan, 2013: Matrix Computations, 4th edition, section 5.2.1
 */
export function reduceToTriangle(
  matrix: Float64Array,
  right: Float64Array,
  rows: number,
  columns: number,
  reflected: Float64Array,
): void {
  for (let pivot = 0; pivot < Math.min(columns, rows - 1); pivot++) {
    const head = pivot * columns + pivot;
    const length = columnLength(matrix, rows, columns, pivot, pivot);
    if (length === 0) continue;
    const diagonal = matrix[head]! > 0 ? -length : length;
    matrix[head] = matrix[head]! - diagonal;
    const factor = 1 / (diagonal * matrix[head]!);
    reflectBelow(matrix, right, rows, columns, pivot, factor, reflected);
    matrix[head] = diagonal;
  }
}

/** Euclidean length of a column from a row down; Infinity where its square is. Never throws. */
export function columnLength(
  matrix: Float64Array,
  rows: number,
  columns: number,
  column: number,
  from = 0,
): number {
  let squares = 0;
  for (let at = from * columns + column; at < rows * columns; at += columns) squares += matrix[at]! ** 2;
  return Math.sqrt(squares);
}

/** Applies I + factor · v vᵀ to the columns right of the pivot and to the right side; v is the pivot's column. Where it is 0 nothing changes: many rows of a fit say nothing. */
function reflectBelow(
  matrix: Float64Array,
  right: Float64Array,
  rows: number,
  columns: number,
  pivot: number,
  factor: number,
  reflected: Float64Array,
): void {
  let onRight = 0;
  reflected.fill(0, pivot + 1, columns);
  for (let row = pivot; row < rows; row++) {
    const at = row * columns;
    const v = matrix[at + pivot]!;
    if (v === 0) continue;
    onRight += v * right[row]!;
    for (let column = pivot + 1; column < columns; column++)
      reflected[column] = reflected[column]! + v * matrix[at + column]!;
  }
  for (let row = pivot; row < rows; row++) {
    const at = row * columns;
    const v = matrix[at + pivot]! * factor;
    if (v === 0) continue;
    right[row] = right[row]! + v * onRight;
    for (let column = pivot + 1; column < columns; column++)
      matrix[at + column] = matrix[at + column]! + v * reflected[column]!;
  }
}
