/**
 * How many columns of a matrix are independent, by Householder QR with column pivoting. Columns are first brought
 * to length 1, so that the answer does not hang on their units; a column of zeros counts as dependent.
 *
 * @param rows      the rows, each with as many numbers as there are columns
 * @param tolerance what is left of a column once the others are taken out of it, below which it counts as nothing
 * @returns the rank, and the places of the columns that depend on the others
 * Behaves badly where columns are nearly dependent: the answer is then the tolerance's
 * Source: Golub and Van Loan 2013, Matrix Computations, section 5.4 (memory)
 */
export function qrRank(
  rows: readonly Float64Array[],
  columns: number,
  tolerance: number,
): { rank: number; dependent: number[] } {
  const left = Array.from({ length: columns }, (_, column) => unitColumn(rows, column));
  const order = left.map((_, column) => column);
  let rank = 0;
  while (rank < Math.min(rows.length, columns)) {
    const lengths = order.slice(rank).map((column) => lengthOf(left[column] as Float64Array, rank));
    const longest = Math.max(...lengths);
    if (!(longest > tolerance)) break;
    const chosen = rank + lengths.indexOf(longest);
    [order[rank], order[chosen]] = [order[chosen] as number, order[rank] as number];
    reflect(left, order, rank, longest);
    rank += 1;
  }
  return { rank, dependent: order.slice(rank).sort((a, b) => a - b) };
}

/** Takes the pivot's direction out of every later column, leaving its length in the pivot's row. */
function reflect(left: Float64Array[], order: readonly number[], step: number, length: number): void {
  const pivot = left[order[step] as number] as Float64Array;
  const mirror = pivot.slice(step);
  mirror[0] = (mirror[0] as number) + ((mirror[0] as number) < 0 ? -length : length);
  const size = mirror.reduce((sum, part) => sum + part * part, 0);
  for (const column of order.slice(step + 1)) {
    const other = left[column] as Float64Array;
    let shared = 0;
    for (let k = 0; k < mirror.length; k += 1) shared += (mirror[k] as number) * (other[step + k] as number);
    const factor = (2 * shared) / size;
    for (let k = 0; k < mirror.length; k += 1) {
      other[step + k] = (other[step + k] as number) - factor * (mirror[k] as number);
    }
  }
}

function unitColumn(rows: readonly Float64Array[], column: number): Float64Array {
  const values = Float64Array.from(rows, (row) => row[column] as number);
  const length = lengthOf(values, 0);
  return length > 0 ? values.map((part) => part / length) : values;
}

function lengthOf(values: Float64Array, from: number): number {
  let squares = 0;
  for (let place = from; place < values.length; place += 1) squares += Math.pow(values[place] as number, 2);
  return Math.sqrt(squares);
}
