import { isComparator } from "../evaluation/cells.ts";
import type { Accuracy, Answer, Evaluation } from "../evaluation/document.ts";
import { countOf, percentDecimals, percentRange, percentSigned, statedPercent } from "../report/formats.ts";
import { en } from "../report/words/en.ts";

const LONGEST_VERDICT = Math.max(...Object.values(en.codes.verdicts).map((word) => word.length));
const ALARMS_SHOWN = 3;

/**
 * The answers of a study in a few lines: the verdicts, or without criteria the two measures, and the
 * gravest of what the records themselves show to be a threat to them.
 */
export function headline(evaluation: Evaluation): string {
  const answers =
    evaluation.answers.length > 0
      ? evaluation.answers.map((answer) => answerLine(evaluation, answer))
      : evaluation.accuracy.flatMap((accuracy) => accuracyLines(evaluation, accuracy));
  const lines = [...answers, ...alarmLines(evaluation)];
  return lines.map((line) => `${line.replaceAll(/[\u00a0\u202f]/g, " ")}\n`).join("");
}

function answerLine(evaluation: Evaluation, answer: Answer): string {
  const verdict = en.codes.verdicts[answer.verdict].padEnd(LONGEST_VERDICT);
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
  if (measure === "invalid_rate") return "invalid at the first attempt";
  return en.terms[isComparator(evaluation.study, analyte) ? "agreement" : "accuracy"][measure];
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

/** In the order of the report: gravest first. */
function alarmLines(evaluation: Evaluation): string[] {
  const found = Object.entries(en.alarms).flatMap(([code, words]) =>
    evaluation.alarms.filter((alarm) => alarm.code === code).map((alarm) => ({ ...alarm, words })),
  );
  const windowTreatment = en.codes.windowTreatments[evaluation.study.treatment.outside_window];
  const lines = found
    .slice(0, ALARMS_SHOWN)
    .map(
      ({ words, count, total, subjects }) =>
        `careful: ${words.text({ count, total, subjects, windowTreatment })}`,
    );
  const more = found.length - lines.length;
  return more > 0 ? [...lines, `careful: ${more} more on the first page of the report`] : lines;
}
