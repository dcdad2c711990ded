import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { stringify } from "yaml";
import type { Pooling } from "../../../src/evaluation/pool/document.ts";
import { evaluatePooling } from "../../../src/evaluation/pool/evaluate-pooling.ts";
import type { RowIssue } from "../../../src/records/model.ts";
import { type PoolRead, parsePool, readPool } from "../../../src/records/pool/parse-pool.ts";

/** Pooling files and tables for the tests, as a user would write them. */
export type PoolText = Readonly<Record<string, unknown>>;

const COLUMNS = {
  study: "study",
  true_positives: "tp",
  false_positives: "fp",
  false_negatives: "fn",
  true_negatives: "tn",
};

/** A sound pooling file; `undefined` takes a field out. */
export function poolText(change: PoolText = {}): PoolText {
  const whole = {
    format: "fourfold-pool/1",
    id: "P",
    title: "Some studies",
    question: "How well does it do?",
    table: "studies.csv",
    columns: COLUMNS,
    source: "made up",
    ...change,
  };
  return Object.fromEntries(Object.entries(whole).filter(([, value]) => value !== undefined));
}

/** The same with a column that tells the studies apart. */
export const withKinds = (change: PoolText = {}): PoolText =>
  poolText({ columns: { ...COLUMNS, covariate: "kind" }, covariate: "the kind", ...change });

/** A study as one row of the table: true and false positives, false and true negatives; its kind. */
export type StudyRow = readonly [
  tp: number | "",
  fp: number | "",
  fn: number | "",
  tn: number | "",
  kind?: string,
];

export function tableText(rows: readonly StudyRow[]): string {
  const lines = rows.map(([tp, fp, fn, tn, kind = ""], at) => `S${at + 1},${tp},${fp},${fn},${tn},${kind}`);
  return `study,tp,fp,fn,tn,kind\n${lines.join("\n")}\n`;
}

const bytes = (text: string) => new TextEncoder().encode(text);

/** A file and a table read as the command line reads them; all issues, of whichever. */
export function poolRead(
  file: PoolText,
  table: string | null,
): { read: PoolRead | null; issues: RowIssue[] } {
  const parsed = parsePool({ name: "pool.yaml", bytes: bytes(stringify(file)) });
  if (!parsed.ok) return { read: null, issues: [...parsed.issues] };
  const read = readPool(parsed.value, table === null ? null : { name: "studies.csv", bytes: bytes(table) });
  return { read: read.ok ? read.value : null, issues: [...read.issues] };
}

export function pooled(rows: readonly StudyRow[] | string, file: PoolText = poolText()): Pooling {
  const { read, issues } = poolRead(file, typeof rows === "string" ? rows : tableText(rows));
  if (read === null) throw new Error(JSON.stringify(issues));
  return evaluatePooling(read, []);
}

interface WorkedCase {
  readonly id: string;
  readonly inputs: Readonly<Record<"tp" | "fn" | "fp" | "tn", readonly number[]>>;
  readonly expected: Readonly<Record<string, number>>;
}

/** A case of the worked examples, by its id, with its counts as rows of a table. */
export function workedCase(id: string): { rows: StudyRow[]; expected: WorkedCase["expected"] } {
  const path = resolve(import.meta.dirname, "../../reference/worked-examples.json");
  const cases = JSON.parse(readFileSync(path, "utf8")) as WorkedCase[];
  const found = cases.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no worked example ${id}`);
  const { tp, fp, fn, tn } = found.inputs;
  const at = (column: readonly number[], place: number) => column[place] as number;
  const rows = tp.map((count, i): StudyRow => [count, at(fp, i), at(fn, i), at(tn, i)]);
  return { rows, expected: found.expected };
}
