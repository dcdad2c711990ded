import type { Evaluation } from "../evaluation/document.ts";
import { isComparator } from "./names.ts";
import type { Words } from "./words/en.ts";

export type SectionId =
  | "study"
  | "flow"
  | "participants"
  | "queries"
  | "accuracy"
  | "decision"
  | "reference"
  | "joint"
  | "invalid"
  | "comparisons"
  | "subgroups"
  | "sites"
  | "predictive"
  | "prevalence"
  | "readers"
  | "time"
  | "typed"
  | "intensity"
  | "detection"
  | "methods"
  | "checklist"
  | "cautions"
  | "provenance";

/** A section on the page. `Id`: the sections that the report in hand can have. */
export interface Placed<Id extends string = SectionId> {
  readonly id: Id;
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
    ["decision", (evaluation.decision?.criteria.length ?? 0) > 0 || evaluation.assurance.length > 0],
    ["reference", filledByReference(evaluation)],
    ["joint", evaluation.joint.length > 0],
    ["invalid", evaluation.invalid.length > 0],
    ["comparisons", evaluation.comparisons.length > 0],
    ["subgroups", evaluation.subgroups.length > 0],
    ["sites", evaluation.pooled.length > 0, words.sections[pooledTitle(evaluation)]],
    ["predictive", onlyReferences(evaluation, evaluation.predictive)],
    ["prevalence", onlyReferences(evaluation, evaluation.truePrevalence)],
    ["readers", evaluation.agreement.length + evaluation.manyReaders.length > 0],
    ["time", evaluation.readingTime.length + evaluation.rereadings.length > 0],
    ["typed", evaluation.interpretations.length > 0],
    ["intensity", evaluation.intensities.length + evaluation.intensityComparisons.length > 0],
    ["detection", evaluation.panels.length > 0],
    ["methods", true],
    ["checklist", true],
    ["cautions", true],
    ["provenance", true],
  ];
  return filled
    .filter(([, present]) => present)
    .map(([id, , title], place) => ({ id, number: place + 1, title: title ?? words.sections[id] }));
}

/** Whether anything is known of the reference's own errors, of people without it, or of a model without one. */
function filledByReference(evaluation: Evaluation): boolean {
  const { referenceErrors, verification, latentClass, discrepant } = evaluation;
  return referenceErrors.length + verification.length + latentClass.length > 0 || discrepant !== null;
}

function accuracyTitle({ study }: Evaluation): "accuracy" | "agreement" | "mixed" {
  const comparators = study.analytes.filter(isComparator).length;
  if (comparators === 0) return "accuracy";
  return comparators === study.analytes.length ? "agreement" : "mixed";
}

/** Sites are called so; the groups of another stratum are groups. */
function pooledTitle({ pooled, study }: Evaluation): "sites" | "groups" {
  const pooledBy = pooled[0]?.by.stratum;
  const stratum = study.strata.find(({ id }) => id === pooledBy);
  return pooledBy === "site" || stratum?.column.startsWith("site") === true ? "sites" : "groups";
}

/** Predictive values and true prevalence are shown for analytes whose reference is a reference standard. */
function onlyReferences({ study }: Evaluation, cells: readonly { readonly analyte: string }[]): boolean {
  return cells.some(({ analyte }) => study.analytes.some((one) => one.id === analyte && !isComparator(one)));
}
