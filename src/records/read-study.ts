import { alarmsOf } from "./alarms.ts";
import { checkStudyAgainstKit } from "./check-study.ts";
import type { Gathered } from "./gathered.ts";
import { type IssueLog, inFileOrder, issueLog } from "./issues.ts";
import { hasLines, type Kit } from "./kit.ts";
import { readLines } from "./lines/read-lines.ts";
import type { InputFile, RowIssue, StudyRecords } from "./model.ts";
import { kitFrom } from "./parse-kit.ts";
import { neededFiles, studyFrom } from "./parse-study.ts";
import { readCounts } from "./read-counts.ts";
import { readResults } from "./read-results.ts";
import type { Study } from "./study.ts";
import { STUDY_FILE } from "./study-file.ts";
import { ledgerOf } from "./table.ts";
import { fileFinder, tableOpener } from "./tables.ts";
import { totalsOf } from "./totals.ts";

export { parseKit } from "./parse-kit.ts";
export { neededFiles, parseStudy } from "./parse-study.ts";

export type ReadStudy =
  | { readonly ok: true; readonly records: StudyRecords }
  | { readonly ok: false; readonly issues: readonly RowIssue[] };

/**
 * Reads a study folder: `study.yaml`, its kit file and the tables it names, as bytes. Faults of the
 * data are issues and reading goes on: every row ends as analysed or as set aside with a reason, and
 * every person enrolled is in each paired set or counted before it.
 *
 * @param files names relative to the folder; files that the study does not name are not looked at
 * @returns `ok: false` only where study or kit file cannot be understood, or a table that is needed
 *   is missing, cannot be decoded or lacks a column that is needed; never throws for bad data
 */
export function readStudy(files: readonly InputFile[]): ReadStudy {
  const issues = issueLog();
  const plan = readPlan(files, issues);
  if (plan === null) return { ok: false, issues: issues.list };
  const { study, kit } = plan;
  const gathered = readRecords(study, kit, files, issues);
  const order = [STUDY_FILE, ...neededFiles(study)];
  if (gathered === null) return { ok: false, issues: inFileOrder(issues.list, order) };
  const ledger = gathered.tables.map(ledgerOf);
  return {
    ok: true,
    records: {
      study,
      kit,
      issues: inFileOrder(issues.list, order),
      ledger,
      results: gathered.results,
      interpretations: gathered.interpretations,
      sets: gathered.sets,
      alarms: alarmsOf(gathered, ledger, study),
      totals: totalsOf(gathered),
    },
  };
}

function readPlan(files: readonly InputFile[], issues: IssueLog): { study: Study; kit: Kit } | null {
  const find = fileFinder(files);
  const missing = (name: string) => {
    issues.say(
      "missing_file",
      { file: name, row: null, column: null },
      "this file",
      "no such file",
      "row_set_aside",
    );
    return null;
  };
  const studyFile = find(STUDY_FILE);
  if (studyFile === null) return missing(STUDY_FILE);
  const study = studyFrom(studyFile, issues);
  if (study === null) return null;
  const kitFile = find(study.value.kit);
  if (kitFile === null) return missing(study.value.kit);
  const kit = kitFrom(kitFile, issues);
  if (kit === null) return null;
  const before = issues.list.length;
  checkStudyAgainstKit(STUDY_FILE, study, kit.value, issues);
  return issues.list.length === before ? { study: study.value, kit: kit.value } : null;
}

function readRecords(study: Study, kit: Kit, files: readonly InputFile[], issues: IssueLog): Gathered | null {
  const context = { study, kit, issues };
  const open = tableOpener(files, issues);
  const { records } = study;
  // A kit without lines was refused before, for records of lines.
  if (records.shape === "lines") return hasLines(kit) ? readLines(records, open, { ...context, kit }) : null;
  if (records.shape === "results") return readResults(records, open, context);
  return readCounts(records, open, context);
}
