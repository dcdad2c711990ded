import type { Note } from "../../core/note.ts";
import type { CriterionPlan } from "../../evaluation/plan/document.ts";
import type { PlanReport } from "./context.ts";
import {
  criterionOf,
  type Direction,
  demandOf,
  groupName,
  groupShort,
  plannedMeasure,
  plannedTitle,
  specimenOf,
} from "./names.ts";

/** One criterion as the first page's table shows it. */
export interface PlanRow {
  readonly line: CriterionPlan;
  readonly measure: string;
  /** What stands in small print under the measure. */
  readonly place: string | null;
  readonly group: string;
  readonly expected: number;
  readonly threshold: number;
  readonly direction: Direction;
  /** Shares that would meet the criterion at the size planned. */
  readonly passing: { readonly from: number; readonly to: number } | null;
  readonly sentences: readonly string[];
  readonly scale: "high" | "low";
}

export interface PlanRows {
  readonly analyte: string;
  readonly title: string;
  readonly rows: readonly PlanRow[];
}

/** The criteria by analyte, in the order of the plan. */
export function planRows(report: PlanReport): PlanRows[] {
  const { criteria, plan } = report.planning;
  return plan.analytes
    .map(({ id }) => ({
      analyte: id,
      title: plannedTitle(report, id),
      rows: criteria.filter((line) => line.analyte === id).map((line) => rowOf(report, line)),
    }))
    .filter(({ rows }) => rows.length > 0);
}

function rowOf(report: PlanReport, line: CriterionPlan): PlanRow {
  const { codes, grammar } = report.words;
  const criterion = criterionOf(report, line.criterion);
  const { direction, threshold } = criterion === undefined ? line.size.input : demandOf(criterion);
  const specimen = specimenOf(report, criterion?.specimen);
  const importance = criterion?.importance === "secondary" ? [codes.importance.secondary] : [];
  return {
    line,
    measure: grammar.sentence(plannedMeasure(report, line.measure)),
    place: [...(specimen === null ? [] : [specimen]), ...importance].join(", ") || null,
    group: groupShort(report, line.analyte, line.of),
    expected: line.size.input.expected,
    threshold,
    direction,
    passing: passingOf(line),
    sentences: sentencesOf(report, line),
    scale: line.measure === "invalid_rate" || direction === "at_most" ? "low" : "high",
  };
}

function passingOf({ size }: CriterionPlan): PlanRow["passing"] {
  const { total, needed, allowed } = size.values.stays;
  if (total === null || needed === null || allowed === null) return null;
  return size.input.direction === "at_least"
    ? { from: needed / total, to: 1 }
    : { from: 0, to: allowed / total };
}

/** Why a criterion can't be planned, in the words of what was tried. */
export function whyNot(line: Pick<CriterionPlan, "size" | "clustered" | "notes">): Note[] {
  return [...line.size.notes, ...(line.clustered?.notes ?? []), ...line.notes];
}

function sentencesOf(report: PlanReport, line: CriterionPlan): string[] {
  const { grammar, plan } = report.words;
  const { total, allowed } = line.size.values.stays;
  if (total === null || allowed === null || line.needed === null) {
    const messages = new Set(whyNot(line).map(({ message }) => message));
    return [...messages].map((message) => grammar.closed(grammar.sentence(message)));
  }
  const rule = plan.answer.rule(
    criterionOf(report, line.criterion)?.rule ?? "interval",
    report.planning.plan.interval.level,
  );
  return [
    plan.answer.said({
      measure: line.measure,
      direction: line.size.input.direction,
      group: groupName(report, line.analyte, line.of),
      total,
      allowed,
      needed: line.needed,
    }),
    ...(rule === null ? [] : [rule]),
  ];
}
