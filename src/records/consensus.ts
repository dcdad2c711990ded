import type { RapidResult } from "./model.ts";
import type { Study } from "./study.ts";

/** What a group of readers gives together; `disagree`: they differ and the study sets them aside. */
export type Consensus = RapidResult | "disagree";

/**
 * Several readers' results of one device as one. All alike: that result. Any invalid beside valid
 * ones: invalid, since the device can't be called sound. Reactive beside nonreactive: as the study
 * file says of readers who disagree.
 */
export function consensus(
  results: readonly RapidResult[],
  disagreement: Study["readers"]["disagreement"],
): Consensus | null {
  const [first] = results;
  if (first === undefined) return null;
  if (results.every((result) => result === first)) return first;
  if (results.includes("invalid")) return "invalid";
  return disagreement === "set_aside" ? "disagree" : disagreement;
}
