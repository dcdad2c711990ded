import type { SquareShares } from "./square-shares.ts";
import type { Matrix } from "./weights.ts";

/** Kappa of two readers with both of its large-sample standard errors. */
export interface KappaEstimate {
  readonly observed: number;
  readonly expected: number;
  /** `null` where chance alone gives full agreement: both readers used one and the same category. */
  readonly kappa: number | null;
  /** Standard error of the estimate; 0 where the formula sees no spread at all. */
  readonly standardError: number | null;
  /** Standard error if the readers agreed by chance only; 0 where a reader used one category. */
  readonly nullStandardError: number | null;
}

/** A variance below this share of the mean square is rounding: the terms are all alike. */
const ROUNDING = 1e-26;

/**
 * Weighted kappa: (observed - expected) / (1 - expected agreement).
 *
 * @param shares  a table that is not empty
 * @param weights symmetric, 1 on the diagonal, 0..1
 * Sources: cohen1960, cohen1968, fleiss1969 (standard errors)
 */
export function kappaEstimate(shares: SquareShares, weights: Matrix): KappaEstimate {
  const { total, cells, first, second } = shares;
  const chance = first.map((row) => second.map((column) => row * column));
  const observed = weighted(cells, weights);
  const expected = weighted(chance, weights);
  const room = weighted(chance, weights, (weight) => 1 - weight);
  if (room === 0) return { observed, expected, kappa: null, standardError: null, nullStandardError: null };
  const missed = weighted(cells, weights, (weight) => 1 - weight);
  const ofRow = weights.map((row) => dot(row, second));
  const ofColumn = weights.map((row) => dot(row, first));
  const meanWeight = (row: number, column: number) => (ofRow[row] as number) + (ofColumn[column] as number);
  const spread = spreadOf(
    cells,
    (row, column) => at(weights, row, column) * room - meanWeight(row, column) * missed,
  );
  const nullSpread = spreadOf(chance, (row, column) => at(weights, row, column) - meanWeight(row, column));
  return {
    observed,
    expected,
    kappa: 1 - missed / room,
    standardError: Math.sqrt(spread / total) / (room * room),
    nullStandardError: Math.sqrt(nullSpread / total) / room,
  };
}

function at(matrix: Matrix, row: number, column: number): number {
  return matrix[row]?.[column] ?? 0;
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((total, part, index) => total + part * (other[index] ?? 0), 0);
}

function weighted(
  shares: Matrix,
  weights: Matrix,
  of: (weight: number) => number = (weight) => weight,
): number {
  return shares.reduce(
    (total, row, index) =>
      total + row.reduce((inner, share, column) => inner + share * of(at(weights, index, column)), 0),
    0,
  );
}

/** Variance of a term over the cells, centred first so that no digits cancel; exact 0 for equal terms. */
function spreadOf(shares: Matrix, term: (row: number, column: number) => number): number {
  const mean = momentOf(shares, term);
  const spread = momentOf(shares, (row, column) => Math.pow(term(row, column) - mean, 2));
  const size = momentOf(shares, (row, column) => Math.pow(term(row, column), 2));
  return spread <= ROUNDING * size ? 0 : spread;
}

function momentOf(shares: Matrix, term: (row: number, column: number) => number): number {
  return shares.reduce(
    (total, row, index) =>
      total + row.reduce((inner, share, column) => inner + share * term(index, column), 0),
    0,
  );
}
