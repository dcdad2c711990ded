import { isComparator } from "../evaluation/cells.ts";
import type { Accuracy, Answer, Evaluation } from "../evaluation/document.ts";
import { countOf, percentDecimals, percentRange, percentSigned, statedPercent } from "../report/formats.ts";

const VERDICT = {
  met: "met",
  not_met: "not met",
  undecided: "undecided",
  not_estimable: "not estimable",
} as const;

const MEASURE = {
  sensitivity: "sensitivity",
  specificity: "specificity",
  invalid_rate: "invalid at first attempt",
} as const;

const AGREEMENT = {
  sensitivity: "positive percent agreement",
  specificity: "negative percent agreement",
  invalid_rate: MEASURE.invalid_rate,
} as const;

/** The answers of a study in a few lines: the verdicts, or without criteria the two measures. */
export function headline(evaluation: Evaluation): string {
  const lines =
    evaluation.answers.length > 0
      ? evaluation.answers.map((answer) => answerLine(evaluation, answer))
      : evaluation.accuracy.flatMap((accuracy) => accuracyLines(evaluation, accuracy));
  return lines.map((line) => `${line.replaceAll(/[\u00a0\u202f]/g, " ")}\n`).join("");
}

function answerLine(evaluation: Evaluation, answer: Answer): string {
  const verdict = VERDICT[answer.verdict].padEnd(VERDICT.not_estimable.length);
  const asked = `${answer.direction === "at_least" ? "at least" : "at most"} ${statedPercent(answer.threshold)} %`;
  return `${verdict}  ${whose(evaluation, answer)}: ${measureName(evaluation, answer)} ${shown(answer.estimate, answer.threshold)}, asked ${asked}`;
}

function accuracyLines(evaluation: Evaluation, accuracy: Accuracy): string[] {
  return (["sensitivity", "specificity"] as const).map((measure) => {
    const name = measureName(evaluation, { analyte: accuracy.analyte, measure });
    return `${whose(evaluation, accuracy)}: ${name} ${shown(accuracy[measure])}`;
  });
}

function measureName(
  evaluation: Evaluation,
  { analyte, measure }: Pick<Answer, "analyte" | "measure">,
): string {
  return (isComparator(evaluation.study, analyte) ? AGREEMENT : MEASURE)[measure];
}

function whose(evaluation: Evaluation, cell: Pick<Answer, "analyte" | "specimen" | "reader">): string {
  const { analytes, specimens } = evaluation.study;
  const analyte = analytes.find((entry) => entry.id === cell.analyte)?.title ?? cell.analyte;
  const specimen = specimens.find((entry) => entry.type === cell.specimen)?.title ?? cell.specimen;
  const reader = cell.reader === "recorded" ? "" : `, ${cell.reader}`;
  return `${analyte}, ${specimen}${reader}`;
}

function shown(estimate: Answer["estimate"], threshold?: number): string {
  if (estimate.value === null) return `${countOf(estimate.count, estimate.total)} (not estimable)`;
  const decimals = percentDecimals(estimate, threshold);
  const counts = countOf(estimate.count, estimate.total);
  return `${counts} = ${percentSigned(estimate.value, decimals)} (${percentRange(estimate, decimals)})`;
}
