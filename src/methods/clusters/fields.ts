import * as v from "valibot";
import { count, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";

/** So many of so many within one cluster: a site, an operator, or a person seen more than once. */
export interface ClusterCounts {
  readonly label?: string | undefined;
  readonly count: number;
  readonly total: number;
}

const Cluster = v.strictObject({
  label: v.optional(text("name of the cluster")),
  count: count("how many of them in this cluster"),
  total: count("of how many observed in this cluster"),
});

/** A list of clusters, one entry each; entries with a total of 0 are allowed. */
export function clusterList(meaning: string) {
  return v.pipe(v.array(Cluster), v.minLength(1, "expected one cluster or more"), v.description(meaning));
}

/** @throws InputError where a count is larger than its total */
export function requireClusters(clusters: readonly ClusterCounts[], place: string): void {
  for (const [at, { count: seen, total }] of clusters.entries()) {
    if (seen > total) {
      throw new InputError(["input", place, at, "count"], `at most the total, ${total}`, seen);
    }
  }
}

/** Below so many clusters their variance is a guess, and Student's t takes the normal's place. */
export const FEW_CLUSTERS = 10;

/** Option of the methods that choose between normal and t. */
export const REFERENCES = ["auto", "normal", "t"] as const;
