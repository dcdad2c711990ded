import type { PageFile } from "../../../report/files-beside.ts";
import { reportFiles } from "../../../report/report-files.ts";
import { evaluatedStudy, type StudyAsk } from "../evaluated.ts";
import { type Tell, whole } from "../step.ts";

/**
 * The files of a study's report folder, byte for byte as the command line writes them.
 * `null` where the study can't be read.
 */
export async function reportFolder(ask: StudyAsk, tell: Tell): Promise<readonly PageFile[] | null> {
  const { evaluated } = await evaluatedStudy(ask, tell);
  if (evaluated === null) return null;
  await tell(whole("writing"));
  return reportFiles(evaluated.evaluation, evaluated.records, evaluated.figures);
}
