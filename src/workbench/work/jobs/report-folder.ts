import type { Evaluation } from "../../../evaluation/document.ts";
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
  const { evaluation, records, figures } = evaluated;
  if (written?.of !== evaluation) {
    await tell(whole("writing"));
    written = { of: evaluation, files: await reportFiles(evaluation, records, figures) };
  }
  return written.files;
}

/** The last report written: its parts are often saved one after the other. */
let written: { readonly of: Evaluation; readonly files: readonly PageFile[] } | null = null;
