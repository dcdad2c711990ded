import type { IssueLog } from "../issues.ts";
import { hasLines, type Kit } from "../kit.ts";
import { named } from "../named.ts";
import { type Fault, fieldPlace, type YamlFile } from "../yaml-file.ts";
import type { Plan } from "./plan.ts";

/** Faults between a plan and its kit, which shows every analyte and accepts every specimen type of the plan. */
export function checkPlanAgainstKit(file: string, read: YamlFile<Plan>, kit: Kit, issues: IssueLog): void {
  const fault: Fault = (path, expected, received) => {
    issues.add("unknown_name", fieldPlace(file, path, read.lineOf), expected, received, "value_ignored");
  };
  const plan = read.value;
  if (hasLines(kit)) {
    const shown = kit.lines.flatMap((line) => (line.role === "test" ? [line.analyte] : []));
    plan.analytes.forEach(({ id }, index) => {
      named(["analytes", index, "id"], id, shown, "an analyte that a line of the kit shows", fault);
    });
  }
  const types = kit.specimens.map((specimen) => specimen.type);
  plan.specimens.forEach(({ type }, index) => {
    named(["specimens", index, "type"], type, types, "a specimen type of the kit file", fault);
  });
  plan.criteria.forEach((criterion, index) => {
    if (criterion.kit === undefined) return;
    named(["criteria", index, "kit"], criterion.kit, [kit.id], "the kit of this plan", fault);
  });
  plan.comparisons.forEach(({ first, second }, index) => {
    const path = ["comparisons", index];
    if (first.kit !== undefined)
      named([...path, "first", "kit"], first.kit, [kit.id], "the kit of this plan", fault);
    if (second.kit === kit.id)
      fault([...path, "second", "kit"], "a kit other than that of this plan", kit.id);
  });
}
