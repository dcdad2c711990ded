import type { Answer } from "../../../src/evaluation/document.ts";
import type { Study } from "../../../src/records/study.ts";
import { invalidOf, treated } from "./analysis.ts";
import type { CellCounts } from "./cells.ts";
import { exact } from "./intervals.ts";
import { probabilityAbove } from "./probability.ts";

type Criterion = Study["criteria"][number];
type Proportion = Answer["estimate"];

const TREATMENTS = ["set_aside", "failure", "reactive", "nonreactive"] as const;

/** Held against the limits of the interval, as the study file's criteria are. */
function verdictOf(criterion: Criterion, { lower, upper }: Proportion): Answer["verdict"] {
  if (lower === null || upper === null) return "not_estimable";
  if (criterion.at_least !== undefined) {
    if (lower >= criterion.at_least) return "met";
    return upper < criterion.at_least ? "not_met" : "undecided";
  }
  const threshold = criterion.at_most ?? 1;
  if (upper <= threshold) return "met";
  return lower > threshold ? "not_met" : "undecided";
}

/** The smallest number of further people, at the same proportion right, that decides the criterion. */
function furtherOf(criterion: Criterion, estimate: Proportion): number | null {
  if (verdictOf(criterion, estimate) !== "undecided" || estimate.value === null) return null;
  for (let total = estimate.total + 1; total < 20_000; total += 1) {
    const scaled = exact(Math.floor(estimate.value * total), total);
    if (verdictOf(criterion, scaled) !== "undecided") return total - estimate.total;
  }
  return null;
}

function answerOf(criterion: Criterion, study: Study, cell: CellCounts): Answer {
  const invalid = invalidOf(cell);
  const under = (treatment: (typeof TREATMENTS)[number]): Proportion =>
    criterion.measure === "invalid_rate" ? invalid.firstAttempt : treated(cell, treatment)[criterion.measure];
  const estimate = under(study.treatment.invalid);
  const threshold = criterion.at_least ?? criterion.at_most ?? 0;
  const above = estimate.total === 0 ? null : probabilityAbove(estimate.count, estimate.total, threshold);
  const verdict = verdictOf(criterion, estimate);
  const treatable = criterion.measure !== "invalid_rate";
  return {
    criterion: criterion.id,
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    measure: criterion.measure,
    importance: criterion.importance,
    direction: criterion.at_least === undefined ? "at_most" : "at_least",
    threshold,
    source: criterion.source,
    enteredOn: criterion.entered_on ?? null,
    estimate,
    verdict,
    probability: above === null || criterion.at_least !== undefined ? above : 1 - above,
    further: furtherOf(criterion, estimate),
    byInvalidTreatment: TREATMENTS.filter((other) => treatable && other !== study.treatment.invalid).map(
      (treatment) => ({ treatment, verdict: verdictOf(criterion, under(treatment)) }),
    ),
    byWindowTreatment: (["set_aside", "invalid"] as const)
      .filter(() => treatable)
      .map((treatment) => ({ treatment, verdict })),
    notes: [],
  };
}

/** One answer for each criterion of the study. */
export function answersOf(study: Study, cells: readonly CellCounts[]): Answer[] {
  return study.criteria.flatMap((criterion) => {
    const specimen = criterion.specimen ?? study.specimens[0]?.type;
    const kit = criterion.kit ?? "kit-q";
    const cell = cells.find(
      (one) => one.analyte === criterion.analyte && one.specimen === specimen && one.kit === kit,
    );
    return cell === undefined ? [] : [answerOf(criterion, study, cell)];
  });
}
