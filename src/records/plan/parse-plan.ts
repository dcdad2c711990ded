import { type IssueLog, issueLog } from "../issues.ts";
import type { Kit } from "../kit.ts";
import type { InputFile } from "../model.ts";
import { kitFrom, type Parsed } from "../parse-kit.ts";
import { readYaml, type YamlFile } from "../yaml-file.ts";
import { checkPlan } from "./check-plan.ts";
import { checkPlanAgainstKit } from "./check-plan-kit.ts";
import { type Plan, PlanSchema } from "./plan.ts";

/**
 * Reads a plan file from its bytes. All faults come at once, each with its line and field; faults that
 * need the kit file too are found by `readPlan`.
 */
export function parsePlan(file: InputFile): Parsed<Plan> {
  const issues = issueLog();
  const read = planFrom(file, issues);
  if (read === null) return { ok: false, issues: issues.list };
  return { ok: true, value: read.value, issues: issues.list };
}

/** A plan with the kit that it names, if it names one. */
export interface PlanRead {
  readonly plan: Plan;
  readonly kit: Kit | null;
}

/**
 * Reads a plan file and the kit file that it names.
 *
 * @param file the plan file
 * @param kit  the kit file; `null` where there is none of that name, or the plan names none
 */
export function readPlan(file: InputFile, kit: InputFile | null): Parsed<PlanRead> {
  const issues = issueLog();
  const read = planFrom(file, issues);
  if (read === null) return { ok: false, issues: issues.list };
  const named = read.value.kit;
  if (named === undefined) return { ok: true, value: { plan: read.value, kit: null }, issues: issues.list };
  if (kit === null) {
    const place = { file: named, row: null, column: null };
    issues.say("missing_file", place, "this file", "no such file", "value_ignored");
    return { ok: false, issues: issues.list };
  }
  const kitRead = kitFrom(kit, issues);
  if (kitRead !== null) checkPlanAgainstKit(file.name, read, kitRead.value, issues);
  if (kitRead === null || issues.list.length > 0) return { ok: false, issues: issues.list };
  return { ok: true, value: { plan: read.value, kit: kitRead.value }, issues: issues.list };
}

function planFrom(file: InputFile, issues: IssueLog): YamlFile<Plan> | null {
  const read = readYaml(file, PlanSchema, issues);
  if (read === null) return null;
  checkPlan(file.name, read, issues);
  return issues.list.length === 0 ? read : null;
}
