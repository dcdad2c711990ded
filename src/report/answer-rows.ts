import type { Accuracy, Answer } from "../evaluation/document.ts";
import { measureWord, sentencesOf } from "./answer-facts.ts";
import type { Report } from "./context.ts";
import { analyteTitle, type Cell, termsOf, toldKit, toldReader, toldSpecimen } from "./names.ts";

/** One line of the answer: a measure, its estimate, and the criterion where there is one. */
export interface AnswerRow {
  readonly analyte: string;
  readonly measure: string;
  readonly place: string | null;
  readonly scale: "high" | "low";
  readonly estimate: Answer["estimate"];
  readonly answer: Answer | null;
  readonly sentences: readonly string[];
}

export interface AnswerGroup {
  readonly analyte: string;
  readonly title: string;
  readonly rows: readonly AnswerRow[];
}

/** The lines by analyte, in the order of the study file; without criteria, the estimates alone. */
export function answerGroups(report: Report): AnswerGroup[] {
  const { answers, accuracy } = report.evaluation;
  const rows =
    answers.length > 0
      ? answers.map((answer) => rowOf(report, answer))
      : accuracy.flatMap((one) => [
          estimateRow(report, one, "sensitivity"),
          estimateRow(report, one, "specificity"),
        ]);
  const analytes = [...new Set(rows.map((row) => row.analyte))];
  return analytes.map((analyte) => ({
    analyte,
    title: analyteTitle(report, analyte),
    rows: rows.filter((row) => row.analyte === analyte),
  }));
}

/** Kit, specimen and reader, where the study has several. */
function placeOf(report: Report, cell: Cell): string | null {
  const parts = [
    toldKit(report, cell.kit),
    toldSpecimen(report, cell.specimen),
    toldReader(report, cell.reader),
  ];
  return parts.filter((part) => part !== null).join(", ") || null;
}

function rowOf(report: Report, answer: Answer): AnswerRow {
  return {
    analyte: answer.analyte,
    measure: report.words.grammar.sentence(measureWord(report, answer)),
    place: placeOf(report, answer),
    scale: answer.measure === "invalid_rate" ? "low" : "high",
    estimate: answer.estimate,
    answer,
    sentences: sentencesOf(report, answer),
  };
}

function estimateRow(report: Report, accuracy: Accuracy, measure: "sensitivity" | "specificity"): AnswerRow {
  return {
    analyte: accuracy.analyte,
    measure: report.words.grammar.sentence(termsOf(report, accuracy.analyte)[measure]),
    place: placeOf(report, accuracy),
    scale: "high",
    estimate: accuracy[measure],
    answer: null,
    sentences: [],
  };
}
