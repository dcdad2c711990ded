import type { Evaluation } from "../evaluation/document.ts";
import { isComparator } from "./names.ts";
import type { Words } from "./words/en.ts";

export type SectionId =
  | "study"
  | "flow"
  | "participants"
  | "queries"
  | "accuracy"
  | "joint"
  | "invalid"
  | "subgroups"
  | "predictive"
  | "time"
  | "typed"
  | "methods"
  | "checklist"
  | "cautions"
  | "provenance";

export interface Placed {
  readonly id: SectionId;
  readonly number: number;
  readonly title: string;
}

/** The sections that this evaluation fills, in the order of the page. */
export function contentsOf(evaluation: Evaluation, words: Words): Placed[] {
  const filled: readonly (readonly [SectionId, boolean, string?])[] = [
    ["study", true],
    ["flow", evaluation.flows.length > 0],
    ["participants", true],
    ["queries", evaluation.study.records.shape !== "counts" || evaluation.queries.total > 0],
    ["accuracy", true, words.sections[accuracyTitle(evaluation)]],
    ["joint", evaluation.joint.length > 0],
    ["invalid", evaluation.invalid.length > 0],
    ["subgroups", evaluation.subgroups.length > 0],
    ["predictive", hasPredictive(evaluation)],
    ["time", evaluation.readingTime.length > 0],
    ["typed", evaluation.interpretations.length > 0],
    ["methods", true],
    ["checklist", true],
    ["cautions", true],
    ["provenance", true],
  ];
  return filled
    .filter(([, present]) => present)
    .map(([id, , title], place) => ({ id, number: place + 1, title: title ?? words.sections[id] }));
}

function accuracyTitle({ study }: Evaluation): "accuracy" | "agreement" | "mixed" {
  const comparators = study.analytes.filter(isComparator).length;
  if (comparators === 0) return "accuracy";
  return comparators === study.analytes.length ? "agreement" : "mixed";
}

/** Predictive values are shown for analytes whose reference is a reference standard. */
function hasPredictive({ predictive, study }: Evaluation): boolean {
  return predictive.some(({ analyte }) =>
    study.analytes.some((one) => one.id === analyte && !isComparator(one)),
  );
}
