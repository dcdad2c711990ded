import { readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import type { Planning } from "../evaluation/plan/document.ts";
import { hasLines } from "../records/kit.ts";
import { studyFilesOf } from "../records/plan/study-text.ts";
import { PLAN_PAGE, planFiles } from "../report/plan/plan-files.ts";
import { type NewFile, writeFolderWhole } from "./files.ts";
import type { Io } from "./io.ts";
import type { PlanEvaluated } from "./plan-file.ts";
import type { Progress } from "./progress.ts";

export { PLAN_PAGE } from "../report/plan/plan-files.ts";

/** What a folder of a plan's page holds. */
export const PLAN_OURS: readonly string[] = [PLAN_PAGE, "planning.json", "tables", "figures"];

/** Renders and writes the folder of a plan; the earlier one stays whole until the new one stands. */
export async function writePlanFolder(folder: string, planning: Planning, progress: Progress): Promise<void> {
  progress.step("drawing the plan");
  const files = await planFiles(planning);
  progress.step(`writing ${basename(folder)}`);
  await writeFolderWhole(folder, files);
  progress.end();
}

/** Writes the study folder that a plan gives: study file, kit files, and the tables with their headers alone. */
export async function writeStudyFolder(
  io: Io,
  folder: string,
  { plan, kit, kitFile }: PlanEvaluated,
): Promise<void> {
  const lines = kit === null || hasLines(kit);
  const written = studyFilesOf(plan, kit).map(({ name, text }) => ({ name, content: text }));
  const kept = kitFile === null ? [] : [{ name: "kit.yaml", content: kitFile.bytes }];
  await writeFolderWhole(folder, [...written, ...kept, ...(lines ? await emptyTables(io) : [])]);
}

/** The tables of the template, which have headers and no rows. */
async function emptyTables(io: Io): Promise<NewFile[]> {
  const template = join(io.home, "data", "template");
  const names = (await readdir(template)).filter((name) => name.endsWith(".csv")).sort();
  return Promise.all(names.map(async (name) => ({ name, content: await readFile(join(template, name)) })));
}
