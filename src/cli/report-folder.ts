import { basename } from "node:path";
import type { Evaluation } from "../evaluation/document.ts";
import type { StudyRecords } from "../records/model.ts";
import { REPORT_FILE, reportFiles } from "../report/report-files.ts";
import { namesIn, standsAt, writeFolderWhole } from "./files.ts";
import { type Io, wrongUsage } from "./io.ts";
import type { Progress } from "./progress.ts";
import { shownPath } from "./shown-path.ts";

export { REPORT_FILE } from "../report/report-files.ts";

const OURS: readonly string[] = [REPORT_FILE, "evaluation.json", "tables", "figures"];

/**
 * Refuses a place that holds anything but an earlier report, for the folder is replaced as a whole.
 * Asked before the work begins, so that nobody waits for a refusal.
 */
export async function refuseForeign(io: Io, folder: string, ours = OURS): Promise<void> {
  const found = await standsAt(folder);
  if (found === null) return;
  const shown = shownPath(io, folder);
  if (!found.isDirectory()) throw wrongUsage(`${shown}: not a folder`);
  const foreign = ((await namesIn(folder)) ?? []).find((name) => !ours.includes(name));
  if (foreign !== undefined) {
    throw wrongUsage(
      `${shown}: holds ${foreign}, which is not part of a report; name another folder with --out`,
    );
  }
}

/** Renders and writes a report folder; the earlier one stays whole until the new one stands. */
export async function writeReport(
  folder: string,
  study: { readonly evaluation: Evaluation; readonly records: StudyRecords },
  progress: Progress,
): Promise<void> {
  progress.step("drawing the report");
  const files = await reportFiles(study.evaluation, study.records);
  progress.step(`writing ${basename(folder)}`);
  await writeFolderWhole(folder, files);
  progress.end();
}
