import type { Planning } from "../../evaluation/plan/document.ts";
import type { Placed } from "../contents.ts";
import type { Words } from "../words/en.ts";

export type PlanSectionId =
  | "criteria"
  | "precision"
  | "enrolment"
  | "together"
  | "comparisons"
  | "agreement"
  | "stopping"
  | "whatif"
  | "effort"
  | "methods"
  | "cautions"
  | "provenance";

/** The sections that this plan fills, in the order of the page. */
export function planContentsOf(planning: Planning, words: Words): Placed<PlanSectionId>[] {
  const filled: readonly (readonly [PlanSectionId, boolean])[] = [
    ["criteria", planning.criteria.length > 0],
    ["precision", planning.widths.length + planning.normalSizes.length > 0],
    ["enrolment", planning.enrolment.some(({ enrolment }) => enrolment !== null)],
    ["together", planning.together !== null],
    ["comparisons", planning.comparisons.length > 0],
    ["agreement", planning.agreement.length > 0],
    ["stopping", planning.stopping.length > 0],
    ["whatif", planning.whatIf.length > 0],
    ["effort", planning.effort !== null],
    ["methods", true],
    ["cautions", true],
    ["provenance", true],
  ];
  return filled
    .filter(([, present]) => present)
    .map(([id], place) => ({ id, number: place + 1, title: words.plan.sections[id] }));
}

/** Number and title of a section that is on the page, or `null`. */
export function placeOfPlan(
  report: { readonly contents: readonly Placed<PlanSectionId>[] },
  id: PlanSectionId,
): Placed<PlanSectionId> | null {
  return report.contents.find((placed) => placed.id === id) ?? null;
}
