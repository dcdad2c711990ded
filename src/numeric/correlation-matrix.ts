/**
 * The smallest pivot of a symmetric matrix, by Cholesky's elimination: above 0 for a set of correlations that
 * can hold together, 0 where some variable is determined by the others, below 0 where no variables have them.
 */
export function leastPivot(matrix: readonly (readonly number[])[]): number {
  const left = matrix.map((row) => [...row]);
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step < left.length; step += 1) {
    const row = left[step] as number[];
    const pivot = row[step] as number;
    least = Math.min(least, pivot);
    if (pivot < 0) return least;
    for (let other = step + 1; other < left.length; other += 1) {
      const below = left[other] as number[];
      const shared = row[other] as number;
      if (pivot <= PIVOT_ROUNDING) {
        if (Math.abs(shared) > Math.sqrt(PIVOT_ROUNDING)) return -Math.abs(shared);
        continue;
      }
      for (let column = other; column < left.length; column += 1) {
        below[column] = (below[column] as number) - (shared * (row[column] as number)) / pivot;
      }
    }
  }
  return least;
}

/** A pivot this small may be rounding alone. */
export const PIVOT_ROUNDING = 1e-12;
