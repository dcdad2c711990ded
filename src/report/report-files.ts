import type { Evaluation } from "../evaluation/document.ts";
import { evaluationTables } from "../evaluation/tables.ts";
import { writeEvaluation } from "../evaluation/write.ts";
import type { StudyRecords } from "../records/model.ts";
import { filesBeside, type PageFile } from "./files-beside.ts";
import { type RenderedFigure, renderFigures } from "./render-figures.ts";
import { renderReport } from "./render-report.tsx";

export const REPORT_FILE = "report.html";

/**
 * Everything a report folder holds: the report, the evaluation document, tables and specifications.
 * The same evaluation gives the same bytes, whoever writes them down.
 *
 * @param figures drawings made by `renderFigures` for the same evaluation; drawn here when absent
 */
export async function reportFiles(
  evaluation: Evaluation,
  records: StudyRecords,
  figures?: readonly RenderedFigure[],
): Promise<PageFile[]> {
  const drawn = figures ?? (await renderFigures(evaluation));
  return [
    { name: REPORT_FILE, content: await renderReport(evaluation, { figures: drawn }) },
    { name: "evaluation.json", content: writeEvaluation(evaluation) },
    ...filesBeside(evaluationTables(evaluation, records), drawn),
  ];
}
