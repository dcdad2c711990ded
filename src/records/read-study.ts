import { alarmsOf } from "./alarms.ts";
import { checkStudyAgainstKits } from "./check-kits.ts";
import type { Gathered } from "./gathered.ts";
import { type IssueLog, inFileOrder, issueLog } from "./issues.ts";
import { hasLines, type Kit } from "./kit.ts";
import { readLines } from "./lines/read-lines.ts";
import type { InputFile, RowIssue, StudyRecords } from "./model.ts";
import { suggestion } from "./nearest.ts";
import { kitFrom } from "./parse-kit.ts";
import { neededFiles, studyFrom } from "./parse-study.ts";
import { readCounts } from "./read-counts.ts";
import { readPanels } from "./read-panels.ts";
import { readResults } from "./read-results.ts";
import { kitFilesOf, type Study } from "./study.ts";
import { STUDY_FILE } from "./study-file.ts";
import { ledgerOf } from "./table.ts";
import { fileFinder, type OpenTable, tableOpener } from "./tables.ts";
import { totalsOf } from "./totals.ts";
import { fieldPlace, type YamlFile } from "./yaml-file.ts";

export { parseKit } from "./parse-kit.ts";
export { neededFiles, parseStudy } from "./parse-study.ts";

export type ReadStudy =
  | { readonly ok: true; readonly records: StudyRecords }
  | { readonly ok: false; readonly issues: readonly RowIssue[] };

/**
 * Reads a study folder: `study.yaml`, its kit files and the tables it names, as bytes. Faults of the
 * data are issues and reading goes on: every row ends as analysed or as set aside with a reason, and
 * every person enrolled is in each paired set or counted before it.
 *
 * @param files names relative to the folder; files that the study does not name are not looked at
 * @param change gives the study that the records are read for, from the one that the study file states
 * @returns `ok: false` only where study or a kit file cannot be understood, or a table that is needed
 *   is missing, cannot be decoded or lacks a column that is needed; never throws for bad data
 */
export function readStudy(
  files: readonly InputFile[],
  change: (planned: Study) => Study = (planned) => planned,
): ReadStudy {
  const issues = issueLog();
  const stated = readPlan(files, issues);
  if (stated === null) return { ok: false, issues: issues.list };
  const plan = { ...stated, study: change(stated.study) };
  const { study, kits } = plan;
  const gathered = readRecords(plan, files, issues);
  const order = [STUDY_FILE, ...neededFiles(study)];
  if (gathered === null) return { ok: false, issues: inFileOrder(issues.list, order) };
  checkComparedReaders(plan, gathered, issues);
  const ledger = gathered.tables.map(ledgerOf);
  return {
    ok: true,
    records: {
      study,
      kits,
      issues: inFileOrder(issues.list, order),
      ledger,
      results: gathered.results,
      interpretations: gathered.interpretations,
      rereadings: gathered.rereadings,
      sets: gathered.sets,
      panels: gathered.panels,
      alarms: alarmsOf(gathered, ledger, study),
      totals: totalsOf(gathered),
    },
  };
}

/** Study and kits as understood, the main kit first; `lineOf` says where a field of the study file stands. */
interface Plan {
  readonly study: Study;
  readonly lineOf: YamlFile<Study>["lineOf"];
  readonly kits: readonly Kit[];
}

function readPlan(files: readonly InputFile[], issues: IssueLog): Plan | null {
  const find = fileFinder(files);
  const missing = (file: string) => {
    issues.say(
      "missing_file",
      { file, row: null, column: null },
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
  const kits = kitFilesOf(study.value).map((name) => {
    const file = find(name);
    return file === null ? missing(name) : kitFrom(file, issues);
  });
  const read = kits.flatMap((kit) => (kit === null ? [] : [kit.value]));
  if (read.length < kits.length) return null;
  const before = issues.list.length;
  checkStudyAgainstKits(STUDY_FILE, study, read, issues);
  return issues.list.length === before ? { study: study.value, lineOf: study.lineOf, kits: read } : null;
}

function readRecords({ study, kits }: Plan, files: readonly InputFile[], issues: IssueLog): Gathered | null {
  const open = tableOpener(files, issues);
  const shaped = readShape({ study, kits }, open, issues);
  // Faults of all tables are seen at once.
  const read = readPanels(open, { study, kits, issues });
  if (shaped === null || read === null) return null;
  return { ...shaped, tables: [...shaped.tables, ...read.tables], panels: read.panels };
}

function readShape(
  { study, kits }: Pick<Plan, "study" | "kits">,
  open: OpenTable,
  issues: IssueLog,
): Gathered | null {
  const { records } = study;
  // Kits without lines were refused before, for records of lines.
  if (records.shape === "lines") {
    return readLines(records, open, { study, kits: kits.filter(hasLines), issues });
  }
  if (records.shape === "results") return readResults(records, open, { study, kits, issues });
  return readCounts(records, open, { study, kits, issues });
}

/** Comparisons of readers whom the records don't know, instruments that measured nothing; only the records can tell. */
function checkComparedReaders({ study, lineOf }: Plan, gathered: Gathered, issues: IssueLog): void {
  if (gathered.results.length === 0) return;
  study.comparisons.forEach((comparison, index) => {
    for (const side of ["first", "second"] as const) {
      const { reader } = comparison[side];
      const known = new Set(gathered.sets.map((set) => set.reader));
      if (reader === undefined || known.has(reader)) continue;
      const place = fieldPlace(STUDY_FILE, ["comparisons", index, side, "reader"], lineOf);
      const expected = `a reader of the records${suggestion(reader, [...known])}`;
      issues.add("reader_without_readings", place, expected, reader, "kept");
    }
  });
  study.instruments.forEach(({ kit, reader }, index) => {
    const measured = gathered.sets.some(
      (set) =>
        (reader === undefined || set.reader === reader) &&
        (kit === undefined || set.kit === kit) &&
        set.pairs.some((pair) => typeof pair.measured?.intensity === "number"),
    );
    if (measured) return;
    const place = fieldPlace(STUDY_FILE, ["instruments", index], lineOf);
    issues.add("reader_without_readings", place, "readings with a number", reader ?? kit ?? "none", "kept");
  });
}
