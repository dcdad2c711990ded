import type { ClusterCounts } from "./fields.ts";

/** The proportion with each cluster left out in turn; not a number where nothing is left. */
export function leftOutEstimates(clusters: readonly ClusterCounts[]): number[] {
  const count = clusters.reduce((sum, cluster) => sum + cluster.count, 0);
  const total = clusters.reduce((sum, cluster) => sum + cluster.total, 0);
  return clusters.map((cluster) => (count - cluster.count) / (total - cluster.total));
}
