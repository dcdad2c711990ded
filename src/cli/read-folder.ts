import { describe } from "../core/input-error.ts";
import type { Evaluation } from "../evaluation/document.ts";
import type { Exploration } from "../evaluation/schema/exploration.ts";
import type { InputFile, RowIssue, StudyRecords } from "../records/model.ts";
import { STUDY_FILE } from "../records/study-file.ts";
import { failed } from "./io.ts";
import type { Progress } from "./progress.ts";
import { readInside, sha256Of } from "./study-folder.ts";

export type Reading =
  | {
      readonly ok: true;
      readonly files: readonly InputFile[];
      readonly records: StudyRecords;
      readonly exploration: Exploration | null;
    }
  | { readonly ok: false; readonly files: readonly InputFile[]; readonly issues: readonly RowIssue[] };

/**
 * Reads the study file, every file that it names, and nothing else of the folder.
 *
 * @param exploration choices to read it with instead of the stated ones
 */
export async function readFolder(
  folder: string,
  progress: Progress,
  exploration: Exploration | null = null,
): Promise<Reading> {
  const { readExplored } = await import("../evaluation/exploration/read-explored.ts");
  const { neededFiles, parseStudy } = await import("../records/read-study.ts");
  const plan = await readInside(folder, STUDY_FILE);
  if (plan === null) {
    throw failed(`no ${STUDY_FILE} in ${describe(folder)}; \`fourfold start\` makes a folder with one`);
  }
  const parsed = parseStudy(plan);
  if (!parsed.ok) return { ok: false, files: [plan], issues: parsed.issues };
  const files: InputFile[] = [plan];
  for (const name of neededFiles(parsed.value)) {
    if (name === STUDY_FILE) continue;
    const file = await readInside(folder, name);
    if (file !== null) files.push(file);
  }
  const size = files.reduce((total, file) => total + file.bytes.length, 0);
  progress.step(`reading ${files.length} files, ${inWords(size)}`);
  const wanted = exploration?.changes ?? [];
  const outcome = readExplored(
    files,
    wanted.map(({ path, explored }) => ({ path, value: explored })),
  );
  progress.end();
  return { ...outcome, files };
}

/** As `readFolder`, and evaluates. A study that can't be read stops here, its first faults named. */
export async function evaluateFolder(
  folder: string,
  progress: Progress,
  exploration: Exploration | null = null,
): Promise<{ readonly records: StudyRecords; readonly evaluation: Evaluation }> {
  const reading = await readFolder(folder, progress, exploration);
  if (!reading.ok) throw failed(unreadable(reading.issues));
  const { evaluate } = await import("../evaluation/evaluate.ts");
  progress.step("evaluating");
  const { records, files } = reading;
  const rows = new Map(records.ledger.map((table) => [table.file, table.rows]));
  const inputs = files.map(({ name, bytes }) => ({
    name,
    bytes: bytes.length,
    sha256: sha256Of(bytes),
    rows: rows.get(name) ?? null,
  }));
  const evaluation = evaluate(records, inputs, reading.exploration);
  progress.end();
  return { records, evaluation };
}

const SHOWN = 10;

function unreadable(issues: readonly RowIssue[]): string {
  const lines = issues.slice(0, SHOWN).map((issue) => `  ${issue.file}: ${inOneLine(issue)}`);
  const more = issues.length - SHOWN;
  if (more > 0) lines.push(`  … and ${more} more`);
  return `the study can't be read; \`fourfold check\` explains\n${lines.join("\n")}`;
}

/** An issue without its file: place, expected, received. */
export function inOneLine(issue: RowIssue): string {
  const place = [
    issue.row === null ? null : `row ${issue.row}`,
    issue.column === null ? null : `column ${issue.column}`,
  ].filter((part) => part !== null);
  const where = place.length === 0 ? "" : `${place.join(", ")}: `;
  return `${where}expected ${issue.expected}, received ${issue.received}`;
}

function inWords(bytes: number): string {
  if (bytes < 1024) return `${bytes} bytes`;
  return bytes < 1024 ** 2 ? `${(bytes / 1024).toFixed(0)} KB` : `${(bytes / 1024 ** 2).toFixed(1)} MB`;
}
