import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import type { Placed } from "../contents.ts";
import type { Words } from "../words/en.ts";

export type AlgorithmSectionId =
  | "tree"
  | "predictive"
  | "dependence"
  | "uncertainty"
  | "search"
  | "kits"
  | "costs"
  | "observed"
  | "together"
  | "given"
  | "methods"
  | "cautions"
  | "provenance";

/** The sections that this file fills, in the order of the page. */
export function algorithmContentsOf(algorithms: Algorithms, words: Words): Placed<AlgorithmSectionId>[] {
  const filled: readonly (readonly [AlgorithmSectionId, boolean])[] = [
    ["tree", algorithms.outcomes.length > 0],
    ["predictive", algorithms.predictive.length > 0],
    ["dependence", algorithms.dependence.pairs.length + algorithms.dependence.sweeps.length > 0],
    ["uncertainty", algorithms.uncertainty.length > 0],
    ["search", algorithms.frontier.length > 0],
    ["kits", algorithms.stock.length > 0],
    ["costs", algorithms.answer.lines.length > 0],
    ["observed", algorithms.observed.length > 0],
    ["together", algorithms.together !== null],
    ["given", true],
    ["methods", true],
    ["cautions", true],
    ["provenance", true],
  ];
  return filled
    .filter(([, present]) => present)
    .map(([id], place) => ({ id, number: place + 1, title: words.algorithm.sections[id] }));
}

/** Number and title of a section that is on the page, or `null`. */
export function placeOfAlgorithm(
  report: { readonly contents: readonly Placed<AlgorithmSectionId>[] },
  id: AlgorithmSectionId,
): Placed<AlgorithmSectionId> | null {
  return report.contents.find((placed) => placed.id === id) ?? null;
}
