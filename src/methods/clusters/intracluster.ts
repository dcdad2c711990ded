import type { ClusterCounts } from "./fields.ts";

/** Two estimates of how alike observations of one cluster are; `null` where the data can't give them. */
export interface IntraclusterCorrelation {
  readonly anova: number | null;
  readonly fleissCuzick: number | null;
  /** The size that clusters of equal size would have in the analysis of variance. */
  readonly meanSize: number | null;
}

const NONE: IntraclusterCorrelation = { anova: null, fleissCuzick: null, meanSize: null };

/**
 * Intra-cluster correlation of a binary result: by analysis of variance,
 * (between - within) / (between + (n0 - 1) within), and by Fleiss and Cuzick,
 * 1 - sum of count (total - count) / total / ((N - m) p (1 - p)). Either may be below 0.
 *
 * `null` with fewer than two clusters; the correlations also where every cluster has one observation or
 * all results are the same.
 * Sources: donner2000, fleiss1979
 */
export function intraclusterCorrelation(clusters: readonly ClusterCounts[]): IntraclusterCorrelation {
  const observed = clusters.filter(({ total }) => total > 0);
  const groups = observed.length;
  if (groups < 2) return NONE;
  const total = observed.reduce((sum, cluster) => sum + cluster.total, 0);
  const value = observed.reduce((sum, cluster) => sum + cluster.count, 0) / total;
  const squares = observed.reduce((sum, cluster) => sum + cluster.total * cluster.total, 0);
  const meanSize = (total - squares / total) / (groups - 1);
  if (total === groups || value === 0 || value === 1) return { ...NONE, meanSize };
  const spread = observed.reduce(
    (sum, { count, total: size }) => sum + Math.pow(count - value * size, 2) / size,
    0,
  );
  const inside = observed.reduce((sum, { count, total: size }) => sum + (count * (size - count)) / size, 0);
  const between = spread / (groups - 1);
  const within = inside / (total - groups);
  return {
    anova: (between - within) / (between + (meanSize - 1) * within),
    fleissCuzick: 1 - within / (value * (1 - value)),
    meanSize,
  };
}
