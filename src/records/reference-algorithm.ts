import type { ReferenceStatus } from "./model.ts";
import type { Study } from "./study.ts";

export type ReferenceAlgorithm = NonNullable<Study["analytes"][number]["reference"]["algorithm"]>;

export const REFERENCE_RESULTS = ["reactive", "nonreactive", "greyzone", "indeterminate", "failed"] as const;
export type ReferenceResult = (typeof REFERENCE_RESULTS)[number];

export const FINAL_STATUSES = ["positive", "negative", "indeterminate"] as const;

/** Where the algorithm ended for one person and one analyte. */
export interface ReferenceOutcome {
  readonly status: ReferenceStatus;
  /** Assays gone through, in order. */
  readonly path: readonly string[];
  /** The assay whose result is wanting, for a status of `not_done`. */
  readonly wanting: string | null;
  /** An assay whose result leads nowhere in the algorithm: the status is indeterminate. */
  readonly deadEnd: string | null;
}

/**
 * Runs the reference algorithm on component results. It starts at the first step; each result leads
 * to a final status or another assay. An assay without a result ends as `not_done`; a result for
 * which the algorithm has no way on ends as `indeterminate`. Neither is guessed.
 *
 * @param runs results of one assay, in the order in which they were run
 */
export function referenceStatus(
  algorithm: ReferenceAlgorithm,
  runs: (assay: string) => readonly ReferenceResult[],
): ReferenceOutcome {
  const path: string[] = [];
  let step = algorithm[0];
  while (step !== undefined && !path.includes(step.assay)) {
    const result = combined(step.several, runs(step.assay));
    if (result === null) return { status: "not_done", path, wanting: step.assay, deadEnd: null };
    path.push(step.assay);
    const next: string | undefined = step.leads_to[result];
    if (next === undefined) return { status: "indeterminate", path, wanting: null, deadEnd: step.assay };
    if (isFinal(next)) return { status: next, path, wanting: null, deadEnd: null };
    step = algorithm.find((candidate) => candidate.assay === next);
  }
  return { status: "indeterminate", path, wanting: null, deadEnd: path.at(-1) ?? null };
}

function isFinal(name: string): name is (typeof FINAL_STATUSES)[number] {
  return (FINAL_STATUSES as readonly string[]).includes(name);
}

/**
 * Several runs of one assay as one result. `all_reactive`: reactive if every run is, else the last
 * result that is not; `any_reactive`: reactive if one run is, else the last result.
 */
export function combined(
  several: ReferenceAlgorithm[number]["several"],
  results: readonly ReferenceResult[],
): ReferenceResult | null {
  const last = results.at(-1) ?? null;
  if (several === "last" || last === null) return last;
  if (several === "any_reactive") return results.includes("reactive") ? "reactive" : last;
  return results.findLast((result) => result !== "reactive") ?? "reactive";
}
