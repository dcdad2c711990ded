import type { EvaluationInput } from "../../evaluation/evaluate.ts";
import type { Wanted } from "../../evaluation/exploration/explored-study.ts";
import { readExplored } from "../../evaluation/exploration/read-explored.ts";
import type { Exploration } from "../../evaluation/schema/exploration.ts";
import type { InputFile, RowIssue, StudyRecords, TableLedger } from "../../records/model.ts";
import { neededFiles, parseStudy } from "../../records/read-study.ts";
import { STUDY_FILE } from "../../records/study-file.ts";
import { folderOf, plainName } from "../study/folder.ts";
import { hashOf } from "./hash.ts";

/** A study as read, with what the evaluation says of its files. */
export interface StudyRead {
  readonly records: StudyRecords;
  /** Of everybody, where the records are of some people only. */
  readonly everybody: StudyRecords;
  /** What differs from the stated plan. */
  readonly exploration: Exploration | null;
  readonly inputs: readonly EvaluationInput[];
}

/** What reading found, whether or not the study can be evaluated. */
export interface ReadingFound {
  readonly readable: boolean;
  readonly issues: readonly RowIssue[];
  readonly ledger: readonly TableLedger[];
  /** Files that the study names, in the order of reading, the study file first. */
  readonly named: readonly string[];
}

/**
 * Reads the study file and every file that it names, in the order and under the names of the command line,
 * so that the evaluation says the same of its inputs.
 */
export async function readStudyFiles(
  opened: readonly InputFile[],
  explored: readonly Wanted[] = [],
): Promise<{ readonly found: ReadingFound; readonly read: StudyRead | null }> {
  const files = namedFiles(opened);
  const outcome = readExplored(files.present, explored);
  if (!outcome.ok) {
    const found = { readable: false, issues: outcome.issues, ledger: [], named: files.named };
    return { found, read: null };
  }
  const { records, everybody, exploration } = outcome;
  const { issues, ledger } = records;
  const inputs = await inputsOf(files.present, ledger);
  return {
    found: { readable: true, issues, ledger, named: files.named },
    read: { records, everybody, exploration, inputs },
  };
}

function namedFiles(opened: readonly InputFile[]): { named: string[]; present: InputFile[] } {
  const folder = folderOf(opened);
  const study = folder.get(STUDY_FILE);
  if (study === undefined) return { named: [STUDY_FILE], present: [] };
  const plan = { name: STUDY_FILE, bytes: study };
  const parsed = parseStudy(plan);
  const needed = parsed.ok ? neededFiles(parsed.value).filter((name) => name !== STUDY_FILE) : [];
  const present = needed.flatMap((name): InputFile[] => {
    const bytes = folder.get(plainName(name));
    return bytes === undefined ? [] : [{ name, bytes }];
  });
  return { named: [STUDY_FILE, ...needed], present: [plan, ...present] };
}

function inputsOf(files: readonly InputFile[], ledger: readonly TableLedger[]): Promise<EvaluationInput[]> {
  const rows = new Map(ledger.map((table) => [table.file, table.rows]));
  return Promise.all(
    files.map(async ({ name, bytes }) => ({
      name,
      bytes: bytes.length,
      sha256: await hashOf(bytes),
      rows: rows.get(name) ?? null,
    })),
  );
}
