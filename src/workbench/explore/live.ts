import type { Estimate } from "../../core/estimate.ts";
import { compute } from "../../core/method.ts";
import { demandOf, judgedBy } from "../../evaluation/criteria.ts";
import type { Evaluation } from "../../evaluation/document.ts";
import { atPrevalence } from "../../methods/predictive/at-prevalence.ts";
import { expectedCounts } from "../../methods/predictive/expected-counts.ts";
import { criterionVerdict, type Verdict } from "../../methods/proportion/criterion.ts";
import { proportionInterval } from "../../methods/proportion/proportion-interval.ts";
import type { Study } from "../../records/study.ts";

/** What a result is worth at a prevalence, and how many people that is. */
interface Trust {
  readonly specimen: string;
  readonly ppv: Estimate;
  readonly npv: Estimate;
  /** Expected people per 10,000 tested. */
  readonly reactive: number | null;
  readonly truePositives: number | null;
  readonly falsePositives: number | null;
  readonly falseNegatives: number | null;
}

const TESTED = 10_000;

/**
 * Recomputes, from the counts of the evaluation on the page, what the report will say at another prevalence:
 * of the analyte's first cell, as the report does. Light enough to follow a slider.
 *
 * @returns `null` where no accuracy can be had: against a comparator, or without any counts
 */
export function trustAt(
  { accuracy }: Evaluation,
  study: Study,
  analyte: string,
  prevalence: number,
): Trust | null {
  const cell = accuracy.find((one) => one.analyte === analyte);
  const role = study.analytes.find(({ id }) => id === analyte)?.reference.role;
  if (cell === undefined || role === "comparator") return null;
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = cell.counts;
  const input = {
    truePositives,
    positives: truePositives + falseNegatives,
    trueNegatives,
    negatives: trueNegatives + falsePositives,
    prevalence,
  };
  const { ppv, npv } = compute(atPrevalence, input, { level: study.interval.level }).values;
  const expected = compute(expectedCounts, { ...input, tested: TESTED }, study.interval).values;
  return {
    specimen: cell.specimen,
    ppv,
    npv,
    reactive: expected.reactive.value,
    truePositives: expected.truePositives.value,
    falsePositives: expected.falsePositives.value,
    falseNegatives: expected.falseNegatives.value,
  };
}

interface Judged {
  readonly estimate: Estimate;
  readonly verdict: Verdict;
}

/** The verdict on a criterion as it stands in the changed study, from the counts of the evaluation on the page. */
export function judgedNow({ answers }: Evaluation, study: Study, id: string): Judged {
  const criterion = study.criteria.find((one) => one.id === id);
  const answer = answers.find((one) => one.criterion === id);
  const nothing = { estimate: { value: null, lower: null, upper: null }, verdict: "not_estimable" as const };
  if (criterion === undefined || answer === undefined || answer.estimate.total === 0) return nothing;
  const { count, total } = answer.estimate;
  const { options } = judgedBy(study.interval, criterion);
  const verdict = criterionVerdict({ count, total, ...demandOf(criterion) }, options);
  return {
    estimate: { value: count / total, ...proportionInterval(count, total, study.interval) },
    verdict,
  };
}
