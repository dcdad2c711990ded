import { checkStudy } from "./check-study.ts";
import { type IssueLog, issueLog } from "./issues.ts";
import type { InputFile } from "./model.ts";
import type { Parsed } from "./parse-kit.ts";
import { kitFilesOf, type Study, StudySchema } from "./study.ts";
import { readYaml, type YamlFile } from "./yaml-file.ts";

/**
 * Reads a study file from its bytes. All faults come at once, each with its line and field; faults
 * that need the kit file too are found by `readStudy`.
 */
export function parseStudy(file: InputFile): Parsed<Study> {
  const issues = issueLog();
  const read = studyFrom(file, issues);
  if (read === null) return { ok: false, issues: issues.list };
  return { ok: true, value: read.value, issues: issues.list };
}

/** As `parseStudy`, with the lines of its fields. */
export function studyFrom(file: InputFile, issues: IssueLog): YamlFile<Study> | null {
  const read = readYaml(file, StudySchema, issues);
  if (read === null) return null;
  const before = issues.list.length;
  checkStudy(file.name, read, issues);
  return issues.list.length === before ? read : null;
}

/** The files that a study names, apart from itself: kit files, the main one first, then the tables. */
export function neededFiles(study: Study): string[] {
  return [...kitFilesOf(study), ...tableFiles(study)];
}

/** The table files that a study names, in the order of the study file. */
function tableFiles({ records, panels }: Study): string[] {
  const ofPanels = panels.map(({ table }) => table);
  if (records.shape !== "lines") return [records.table, ...ofPanels];
  const files = [
    records.participants,
    records.specimens,
    records.index_tests,
    records.line_readings,
    records.wide_readings?.table,
    records.interpretations,
    records.reference_tests,
    records.lots,
    records.operators,
    ...ofPanels,
  ];
  return files.filter((file) => file !== undefined);
}
