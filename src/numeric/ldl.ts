/** A symmetric matrix as L D Lᵀ: L has ones on its diagonal, D is diagonal. Rows one after another. */
export interface LdlFactors {
  readonly size: number;
  readonly lower: Float64Array;
  readonly diagonal: Float64Array;
  /** Whether every pivot is above 0: the matrix is positive definite. */
  readonly positive: boolean;
}

/**
 * Factors a symmetric matrix without pivoting: made for positive definite ones, and to tell whether one is.
 * A pivot that is not above 0 ends the factoring, with `positive` false.
 *
 * @param matrix size × size numbers, row by row; only the lower triangle is read
 * Source: Golub and Van Loan 2013, Matrix Computations, section 4.1 (memory)
 */
export function ldlFactors(matrix: Float64Array, size: number): LdlFactors {
  const lower = new Float64Array(size * size);
  const diagonal = new Float64Array(size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let sum = matrix[row * size + column] as number;
      for (let k = 0; k < column; k += 1) {
        sum -= at(lower, row * size + k) * at(lower, column * size + k) * at(diagonal, k);
      }
      if (column < row) lower[row * size + column] = sum / at(diagonal, column);
      else if (sum > 0) diagonal[row] = sum;
      else return { size, lower, diagonal, positive: false };
    }
    lower[row * size + row] = 1;
  }
  return { size, lower, diagonal, positive: true };
}

/** The solution x of A x = right, for a matrix A that was found positive definite. */
export function solveLdl({ size, lower, diagonal }: LdlFactors, right: ArrayLike<number>): Float64Array {
  const solution = Float64Array.from(right);
  for (let row = 0; row < size; row += 1) {
    for (let k = 0; k < row; k += 1)
      solution[row] = at(solution, row) - at(lower, row * size + k) * at(solution, k);
  }
  for (let row = 0; row < size; row += 1) solution[row] = at(solution, row) / at(diagonal, row);
  for (let row = size - 1; row >= 0; row -= 1) {
    for (let k = row + 1; k < size; k += 1)
      solution[row] = at(solution, row) - at(lower, k * size + row) * at(solution, k);
  }
  return solution;
}

/** The inverse of a matrix that was found positive definite, row by row. */
export function inverseLdl(factors: LdlFactors): Float64Array {
  const { size } = factors;
  const inverse = new Float64Array(size * size);
  for (let column = 0; column < size; column += 1) {
    const unit = new Float64Array(size);
    unit[column] = 1;
    const solved = solveLdl(factors, unit);
    for (let row = 0; row < size; row += 1) inverse[row * size + column] = at(solved, row);
  }
  return inverse;
}

function at(values: Float64Array, place: number): number {
  return values[place] as number;
}
