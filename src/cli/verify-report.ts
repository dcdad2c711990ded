import type { Evaluation } from "../evaluation/document.ts";
import { readEvaluation } from "../evaluation/read.ts";
import { writeEvaluation } from "../evaluation/write.ts";
import { readEmbeddedEvaluation, renderReport } from "../report/render-report.tsx";
import type { Progress } from "./progress.ts";
import { evaluateFolder } from "./read-folder.ts";
import { verifyDocument } from "./verify-document.ts";
import type { Findings } from "./verify-findings.ts";

/**
 * Holds a report against itself and, where a study folder is given, against a new evaluation.
 * @throws Refusal when there is no readable evaluation in the page, or the study can't be read
 */
export function verifyReport(html: string, study: string | null, progress: Progress): Promise<Findings> {
  const evaluateAnew = async (folder: string, { exploration }: Evaluation): Promise<Evaluation> => {
    const { evaluation } = await evaluateFolder(folder, progress, exploration);
    return readEvaluation(JSON.parse(writeEvaluation(evaluation)));
  };
  const verified = {
    kind: "a report",
    read: (page: string) => readEvaluation(readEmbeddedEvaluation(page)),
    draw: (evaluation: Evaluation) => renderReport(evaluation),
    anew: study === null ? null : (made: Evaluation) => evaluateAnew(study, made),
  };
  return verifyDocument(html, verified, progress);
}
