import type { ClusterCounts } from "./fields.ts";
import { type RatioEstimate, ratioEstimate, residuals } from "./ratio-estimate.ts";

export type Design = "separate" | "same";

/** Two proportions over clusters, and the variance of their difference. */
export interface Compared {
  readonly first: RatioEstimate;
  readonly second: RatioEstimate;
  /** First minus second; `null` where a side has no observations. */
  readonly value: number | null;
  readonly variance: number | null;
  /** Of the two proportions; 0 for separate clusters; `null` where a side has no variance. */
  readonly correlation: number | null;
  readonly degrees: number | null;
  /** Clusters on the side that has fewer. */
  readonly fewest: number;
}

/**
 * The difference of two proportions over clusters. Under `same`, a cluster counts if either side has an
 * observation in it, and variances and covariance have one factor m / (m - 1): they then are those of one
 * sum over clusters, and the variance of the difference is never below 0.
 * Source: obuchowski1998
 */
export function pairOf(
  first: readonly ClusterCounts[],
  second: readonly ClusterCounts[],
  design: Design,
): Compared {
  return design === "same" ? sameClusters(first, second) : separateClusters(first, second);
}

function separateClusters(first: readonly ClusterCounts[], second: readonly ClusterCounts[]): Compared {
  const one = ratioEstimate(first);
  const other = ratioEstimate(second);
  const both = one.variance !== null && other.variance !== null;
  return {
    first: one,
    second: other,
    value: one.value === null || other.value === null ? null : one.value - other.value,
    variance: both ? (one.variance ?? 0) + (other.variance ?? 0) : null,
    correlation: both ? 0 : null,
    degrees: both ? one.clusters + other.clusters - 2 : null,
    fewest: Math.min(one.clusters, other.clusters),
  };
}

function sameClusters(first: readonly ClusterCounts[], second: readonly ClusterCounts[]): Compared {
  const kept = first.map((one, at) => one.total > 0 || (second[at]?.total ?? 0) > 0);
  const firstKept = first.filter((_, at) => kept[at]);
  const secondKept = second.filter((_, at) => kept[at]);
  const clusters = firstKept.length;
  const one = ratioEstimate(firstKept);
  const other = ratioEstimate(secondKept);
  const value = one.value === null || other.value === null ? null : one.value - other.value;
  const basis = { first: one, second: other, value, fewest: clusters };
  if (one.value === null || other.value === null || clusters < 2) {
    return { ...basis, variance: null, correlation: null, degrees: null };
  }
  const mine = residuals(firstKept, one.value).map((residual) => residual / one.total);
  const theirs = residuals(secondKept, other.value).map((residual) => residual / other.total);
  const sumOf = (terms: readonly number[]) => terms.reduce((sum, term) => sum + term, 0);
  const factor = clusters / (clusters - 1);
  const variance = factor * sumOf(mine.map((part, at) => Math.pow(part - (theirs[at] as number), 2)));
  const product = Math.sqrt(
    sumOf(mine.map((part) => part * part)) * sumOf(theirs.map((part) => part * part)),
  );
  const covered = sumOf(mine.map((part, at) => part * (theirs[at] as number)));
  return {
    ...basis,
    variance,
    correlation: product > 0 ? Math.min(1, Math.max(-1, covered / product)) : null,
    degrees: clusters - 1,
  };
}
