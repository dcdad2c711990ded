import type { IssueLog } from "./issues.ts";
import { issueLog } from "./issues.ts";
import { type Kit, KitSchema } from "./kit.ts";
import type { InputFile, RowIssue } from "./model.ts";
import { suggestion } from "./nearest.ts";
import { fieldPlace, readYaml, type YamlFile } from "./yaml-file.ts";

export type Parsed<Value> =
  | { readonly ok: true; readonly value: Value; readonly issues: readonly RowIssue[] }
  | { readonly ok: false; readonly issues: readonly RowIssue[] };

/** Reads a kit file from its bytes. All faults come at once, each with its line and field. */
export function parseKit(file: InputFile): Parsed<Kit> {
  const issues = issueLog();
  const read = kitFrom(file, issues);
  if (read === null) return { ok: false, issues: issues.list };
  return { ok: true, value: read.value, issues: issues.list };
}

/** As `parseKit`, with the lines of its fields, for checks that need both files. */
export function kitFrom(file: InputFile, issues: IssueLog): YamlFile<Kit> | null {
  const read = readYaml(file, KitSchema, issues);
  if (read === null) return null;
  const before = issues.list.length;
  checkCutoffs(file.name, read, issues);
  return issues.list.length === before ? read : null;
}

/** Every line needs a cut-off, the control line too, and only lines of the kit may have one. */
function checkCutoffs(file: string, read: YamlFile<Kit>, issues: IssueLog): void {
  const { instrument, lines } = read.value;
  if (instrument === undefined) return;
  const ids = lines.map((line) => line.id);
  for (const id of Object.keys(instrument.cutoffs)) {
    if (ids.includes(id)) continue;
    const place = fieldPlace(file, ["instrument", "cutoffs", id], read.lineOf);
    issues.add("unknown_name", place, `a line of this kit${suggestion(id, ids)}`, id, "value_ignored");
  }
  for (const id of ids) {
    if (Object.hasOwn(instrument.cutoffs, id)) continue;
    const place = fieldPlace(file, ["instrument", "cutoffs"], read.lineOf);
    issues.add("unknown_name", place, `a cut-off for the line ${id}`, undefined, "value_ignored");
  }
}
