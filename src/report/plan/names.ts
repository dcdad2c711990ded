import type { CriterionPlan, Group } from "../../evaluation/plan/document.ts";
import type { PlanCriterion } from "../../records/plan/plan.ts";
import { statedPercent, THIN } from "../formats.ts";
import type { PlanReport } from "./context.ts";

export type Direction = "at_least" | "at_most";

export function plannedTitle(report: PlanReport, analyte: string): string {
  return report.planning.plan.analytes.find(({ id }) => id === analyte)?.title ?? analyte;
}

/** Whether several analytes are planned for: otherwise none need be named. */
function severalAnalytes({ planning }: PlanReport): boolean {
  return planning.plan.analytes.length > 1;
}

export function criterionOf(report: PlanReport, id: string): PlanCriterion | undefined {
  return report.planning.plan.criteria.find((criterion) => criterion.id === id);
}

/** "sensitivity", "invalid results". */
export function plannedMeasure(report: PlanReport, measure: CriterionPlan["measure"]): string {
  const { answer, terms } = report.words;
  return measure === "invalid_rate" ? answer.invalidRate : terms.accuracy[measure];
}

/** "HBsAg sensitivity"; results that are invalid belong to no analyte. */
export function measureOf(
  report: PlanReport,
  { analyte, measure }: Pick<CriterionPlan, "analyte" | "measure">,
): string {
  const name = plannedMeasure(report, measure);
  return measure === "invalid_rate" ? name : report.words.plan.ofAnalyte(plannedTitle(report, analyte), name);
}

/** The side and the threshold that a criterion demands. */
export function demandOf(criterion: PlanCriterion): { direction: Direction; threshold: number } {
  return criterion.at_least === undefined
    ? { direction: "at_most", threshold: criterion.at_most ?? 0 }
    : { direction: "at_least", threshold: criterion.at_least };
}

/** "≥ 95 %". */
export function demandText(report: PlanReport, direction: Direction, threshold: number): string {
  return `${report.words.answer.criterion(direction, threshold)}${THIN}%`;
}

/** The specimen of a criterion where the plan has several types, else `null`: it need not be said. */
export function specimenOf({ planning, words }: PlanReport, type: string | undefined): string | null {
  const { specimens } = planning.plan;
  if (specimens.length < 2) return null;
  const found = specimens.find((one) => one.type === (type ?? specimens[0]?.type));
  return found === undefined ? null : words.grammar.inline(found.title);
}

/** "HBsAg sensitivity ≥ 95 %"; an unknown id stands for itself. */
export function criterionName(report: PlanReport, id: string): string {
  const criterion = criterionOf(report, id);
  if (criterion === undefined) return id;
  const { direction, threshold } = demandOf(criterion);
  const specimen = specimenOf(report, criterion.specimen);
  const measure = measureOf(report, criterion);
  const name = specimen === null ? measure : report.words.plan.onSpecimen(measure, specimen);
  return `${name} ${demandText(report, direction, threshold)}`;
}

/** What asks for people: a criterion, a width or a comparison, by name. */
export function needName(report: PlanReport, id: string): string {
  const { widths, comparisons } = report.planning.plan;
  const titled = [...widths, ...comparisons].find((one) => one.id === id)?.title;
  return titled === undefined ? criterionName(report, id) : report.words.grammar.inline(titled);
}

/** "HBsAg-positive people", "reference-positive people" of a single analyte, "people tested". */
export function groupName(report: PlanReport, analyte: string, of: Group): string {
  const { plan, terms } = report.words;
  if (of === "tested") return plan.tested;
  if (!severalAnalytes(report)) return terms.accuracy[of];
  return plan.group(plannedTitle(report, analyte), of);
}

/** "338 HBsAg-positive people" as a reader says it, without the word people: "HBsAg positive". */
export function groupShort(report: PlanReport, analyte: string, of: Group): string {
  return report.words.plan.groupShort(plannedTitle(report, analyte), of);
}

/** A stated share with its sign. */
export function statedSigned(share: number): string {
  return `${statedPercent(share)}${THIN}%`;
}

/** A share that was worked out, as a stated one: no more decimals than it needs, one at most. */
export function powerText(share: number): string {
  return `${statedPercent(Number(share.toFixed(3)))}${THIN}%`;
}
