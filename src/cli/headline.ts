import { isComparator, kitTitle } from "../evaluation/cells.ts";
import type { Accuracy, Answer, Comparison, Evaluation } from "../evaluation/document.ts";
import { MEASURES } from "../evaluation/measures.ts";
import type { Report } from "../report/context.ts";
import {
  countOf,
  percentDecimals,
  percentRange,
  percentSigned,
  points,
  pointsDecimals,
  pointsRange,
  statedPercent,
} from "../report/formats.ts";
import { type Warned, warningLines } from "../report/reference-warning-lines.ts";
import { en } from "../report/words/en.ts";

const LONGEST_VERDICT = Math.max(...Object.values(en.codes.verdicts).map((word) => word.length));
const CAREFUL_SHOWN = 3;

/**
 * The answers of a study in a few lines: the verdicts, alone and together, or without criteria the two
 * measures; the comparisons with a margin; and the gravest of what is a threat to them: verdicts that hang
 * on the reference, and what the records themselves show.
 */
export function headline(evaluation: Evaluation): string {
  const answers =
    evaluation.answers.length > 0
      ? evaluation.answers.map((answer) => answerLine(evaluation, answer))
      : evaluation.accuracy.flatMap((accuracy) => accuracyLines(evaluation, accuracy));
  const lines = [
    ...answers,
    ...decisionLines(evaluation),
    ...evaluation.comparisons.flatMap((comparison) => comparisonLines(evaluation, comparison)),
    ...carefulLines(evaluation),
  ];
  return lines.map((line) => `${line.replaceAll(/[\u00a0\u202f]/g, " ")}\n`).join("");
}

function answerLine(evaluation: Evaluation, answer: Answer): string {
  const verdict = verdictWord(answer.verdict);
  const asked = `${answer.direction === "at_least" ? "at least" : "at most"} ${statedPercent(answer.threshold)} %`;
  return `${verdict}  ${whose(evaluation, answer)}: ${measureName(evaluation, answer)} ${shown(answer.estimate, answer.threshold)}, asked ${asked}`;
}

function verdictWord(verdict: Answer["verdict"]): string {
  return en.codes.verdicts[verdict].padEnd(LONGEST_VERDICT);
}

/** What the criteria give together, where the study file joins them. */
function decisionLines({ decision }: Evaluation): string[] {
  if (decision === null || decision.control === "each" || decision.criteria.length < 2) return [];
  const asked = decision.control === "all_must_pass" ? "all primary criteria" : "any of the primary criteria";
  return [`${verdictWord(decision.overall)}  together: ${asked}`];
}

/** Comparisons that were to keep within a margin. */
function comparisonLines(evaluation: Evaluation, { title, analyte, measures }: Comparison): string[] {
  return measures.flatMap(({ measure, difference, margin }) => {
    if (margin === null) return [];
    const most = `${statedPercent(margin.margin)} points`;
    const asked = margin.kind === "equivalence" ? `within ${most} either way` : `at most ${most} less`;
    const name = measureName(evaluation, { analyte, measure });
    return [
      `${verdictWord(margin.verdict)}  ${title}: ${name} ${apart(difference, margin.margin)}, asked ${asked}`,
    ];
  });
}

function apart(difference: Comparison["measures"][number]["difference"], margin: number): string {
  if (difference.value === null) return "not estimable";
  const decimals = pointsDecimals(difference, [margin]);
  const range = pointsRange(difference, decimals);
  return `${points(difference.value, decimals)} points${range === null ? "" : ` (${range})`}`;
}

function accuracyLines(evaluation: Evaluation, accuracy: Accuracy): string[] {
  return MEASURES.map((measure) => {
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

function whose(
  evaluation: Evaluation,
  cell: Pick<Answer, "analyte" | "kit" | "specimen" | "reader">,
): string {
  const { analytes, specimens } = evaluation.study;
  const kit = evaluation.kits.length > 1 ? `, ${kitTitle(evaluation.kits, cell.kit)}` : "";
  const analyte = analytes.find((entry) => entry.id === cell.analyte)?.title ?? cell.analyte;
  const specimen = specimens.find((entry) => entry.type === cell.specimen)?.title ?? cell.specimen;
  const reader = cell.reader === "recorded" ? "" : `, ${cell.reader}`;
  return `${analyte}${kit}, ${specimen}${reader}`;
}

function shown(estimate: Answer["estimate"], threshold?: number): string {
  if (estimate.value === null) return `${countOf(estimate.count, estimate.total)} (not estimable)`;
  const decimals = percentDecimals(estimate, threshold);
  const counts = countOf(estimate.count, estimate.total);
  return `${counts} = ${percentSigned(estimate.value, decimals)} (${percentRange(estimate, decimals)})`;
}

/** In the order of the report's first page: gravest first. */
function carefulLines(evaluation: Evaluation): string[] {
  const report: Report = { evaluation, words: en, figures: new Map(), methodTexts: [], contents: [] };
  const warnings = warningLines(report);
  const told = (place: Warned["place"]) =>
    warnings.filter((one) => one.place === place).map(({ text }) => text);
  const found = [...told("first"), ...alarmTexts(evaluation), ...told("last")];
  const lines = found.slice(0, CAREFUL_SHOWN).map((text) => `careful: ${text}`);
  const more = found.length - lines.length;
  return more > 0 ? [...lines, `careful: ${more} more on the first page of the report`] : lines;
}

/** What the records themselves show. */
function alarmTexts(evaluation: Evaluation): string[] {
  const windowTreatment = en.codes.windowTreatments[evaluation.study.treatment.outside_window];
  return Object.entries(en.alarms).flatMap(([code, words]) =>
    evaluation.alarms
      .filter((alarm) => alarm.code === code)
      .map(({ count, total, subjects }) => words.text({ count, total, subjects, windowTreatment })),
  );
}
