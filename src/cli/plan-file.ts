import { stat } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import type { Planning } from "../evaluation/plan/document.ts";
import type { InputFile, RowIssue } from "../records/model.ts";
import type { PlanRead } from "../records/plan/parse-plan.ts";
import { PLAN_FILE } from "../records/plan/plan-file.ts";
import { isMissing } from "./files.ts";
import { failed, type Io, wrongUsage } from "./io.ts";
import type { Progress } from "./progress.ts";
import { inOneLine } from "./read-folder.ts";
import { readInside, sha256Of } from "./study-folder.ts";

/** Where a plan stands: its folder, and its name in it. */
export interface PlanPlace {
  readonly folder: string;
  readonly name: string;
}

/** A plan's place from what the user typed: the file, or the folder that holds a plan.yaml. */
export async function findPlan(io: Io, typed: string): Promise<PlanPlace> {
  const path = resolve(io.folder, typed);
  try {
    if ((await stat(path)).isDirectory()) return { folder: path, name: PLAN_FILE };
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw wrongUsage(`no such file: ${typed}`);
  }
  return { folder: dirname(path), name: basename(path) };
}

/** A plan as read and evaluated, with its files. */
export interface PlanEvaluated extends PlanRead {
  readonly planning: Planning;
  readonly kitFile: InputFile | null;
}

/**
 * Reads a plan file and the kit file that it names, and evaluates it.
 * @throws Refusal naming the faults of a plan that can't be understood
 */
export async function evaluatePlanFile(
  { folder, name }: PlanPlace,
  progress: Progress,
): Promise<PlanEvaluated> {
  const { parsePlan, readPlan } = await import("../records/plan/parse-plan.ts");
  const file = await readInside(folder, name);
  if (file === null) throw failed(`no ${name} in ${folder}`);
  const alone = parsePlan(file);
  if (!alone.ok) throw failed(unreadable(alone.issues));
  const kitFile = alone.value.kit === undefined ? null : await readInside(folder, alone.value.kit);
  const read = readPlan(file, kitFile);
  if (!read.ok) throw failed(unreadable(read.issues));
  const { evaluatePlan } = await import("../evaluation/plan/evaluate-plan.ts");
  progress.step("planning");
  const inputs = [file, ...(kitFile === null ? [] : [kitFile])].map(({ name: input, bytes }) => ({
    name: input,
    bytes: bytes.length,
    sha256: sha256Of(bytes),
  }));
  const planning = evaluatePlan(read.value.plan, inputs);
  progress.end();
  return { ...read.value, planning, kitFile };
}

const SHOWN = 20;

function unreadable(issues: readonly RowIssue[]): string {
  const lines = issues.slice(0, SHOWN).map((issue) => `  ${issue.file}: ${inOneLine(issue)}`);
  const more = issues.length - SHOWN;
  if (more > 0) lines.push(`  … and ${more} more`);
  return `the plan can't be read\n${lines.join("\n")}`;
}
