import type { Matrix } from "./weights.ts";

/** A table of two readers with its margins, as shares of all items. */
export interface SquareShares {
  readonly total: number;
  readonly cells: Matrix;
  /** How often the first reader used each category. */
  readonly first: readonly number[];
  /** How often the second reader used each category. */
  readonly second: readonly number[];
}

export function sum(parts: readonly number[]): number {
  return parts.reduce((total, part) => total + part, 0);
}

/** Row and column totals of a square table of counts. */
export function marginsOf(table: Matrix): { rows: number[]; columns: number[] } {
  return {
    rows: table.map(sum),
    columns: table.map((_, column) => sum(table.map((row) => row[column] ?? 0))),
  };
}

/** Shares of a table; all of them 0 divided by 0 where it is empty, so look at the total first. */
export function sharesOf(table: Matrix): SquareShares {
  const { rows, columns } = marginsOf(table);
  const total = sum(rows);
  const share = (count: number) => count / total;
  return {
    total,
    cells: table.map((row) => row.map(share)),
    first: rows.map(share),
    second: columns.map(share),
  };
}
