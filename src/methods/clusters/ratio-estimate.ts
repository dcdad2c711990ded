import type { ClusterCounts } from "./fields.ts";

/** A proportion over clusters, with the variance that the clusters themselves show. */
export interface RatioEstimate {
  /** Clusters in which something was observed. */
  readonly clusters: number;
  readonly count: number;
  readonly total: number;
  /** `null` where nothing was observed. */
  readonly value: number | null;
  /** `null` with fewer than two clusters. */
  readonly variance: number | null;
  /** The variance over that of independent observations; `null` where either is not to be had. */
  readonly designEffect: number | null;
}

/**
 * All events over all observations, with the between-cluster variance of that ratio:
 * m / (m - 1) * sum of (count - value * total)² / (sum of totals)².
 * Sources: rao1992, obuchowski1998
 */
export function ratioEstimate(clusters: readonly ClusterCounts[]): RatioEstimate {
  const observed = clusters.filter(({ total }) => total > 0);
  const count = observed.reduce((sum, cluster) => sum + cluster.count, 0);
  const total = observed.reduce((sum, cluster) => sum + cluster.total, 0);
  const basis = { clusters: observed.length, count, total };
  if (total === 0) return { ...basis, value: null, variance: null, designEffect: null };
  const value = count / total;
  if (observed.length < 2) return { ...basis, value, variance: null, designEffect: null };
  const squares = residuals(observed, value).reduce((sum, residual) => sum + residual * residual, 0);
  const variance = ((observed.length / (observed.length - 1)) * squares) / (total * total);
  const independent = (value * (1 - value)) / total;
  const designEffect = independent > 0 ? variance / independent : null;
  return { ...basis, value, variance, designEffect };
}

/** What each cluster has beyond its expected events. */
export function residuals(clusters: readonly ClusterCounts[], value: number): number[] {
  return clusters.map(({ count, total }) => count - value * total);
}

/** What a design effect leaves of a total. One below 1 counts as 1: it is mostly chance. */
export function effectiveTotal(total: number, designEffect: number): number {
  return total / Math.max(1, designEffect);
}

/** The design effect that these cluster sizes have under an intra-cluster correlation. Source: donner2000 */
export function plannedDesignEffect(clusters: readonly ClusterCounts[], icc: number): number {
  const total = clusters.reduce((sum, cluster) => sum + cluster.total, 0);
  const squares = clusters.reduce((sum, cluster) => sum + cluster.total * cluster.total, 0);
  return 1 + (squares / total - 1) * icc;
}
