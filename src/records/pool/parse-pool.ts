import { type IssueLog, issueLog } from "../issues.ts";
import type { InputFile } from "../model.ts";
import type { Parsed } from "../parse-kit.ts";
import { type Fault, fieldPlace, readYaml, type YamlFile } from "../yaml-file.ts";
import { type PoolFile, PoolFileSchema } from "./pool-schema.ts";
import { readStudies, type StudyTable } from "./read-studies.ts";

/**
 * Reads a pooling file from its bytes. All faults come at once, each with its line and field; the table that it
 * names is read by `readPool`.
 */
export function parsePool(file: InputFile): Parsed<PoolFile> {
  const issues = issueLog();
  const read = readYaml(file, PoolFileSchema, issues);
  if (read !== null) checkPool(file.name, read, issues);
  if (read === null || issues.list.length > 0) return { ok: false, issues: issues.list };
  return { ok: true, value: read.value, issues: issues.list };
}

/** A pooling file with the studies of its table. */
export interface PoolRead extends StudyTable {
  readonly file: PoolFile;
}

/**
 * Reads the table of a pooling file. Rows with faults are left out, each with its reason; reading goes on.
 *
 * @param pool  as read by `parsePool`
 * @param table the table that it names; `null` where there is none of that name
 * @returns issues alone where the table can't be used, or none of its rows
 */
export function readPool(pool: PoolFile, table: InputFile | null): Parsed<PoolRead> {
  const issues = issueLog();
  if (table === null) {
    const place = { file: pool.table, row: null, column: null };
    issues.say("missing_file", place, "this file", "no such file", "value_ignored");
    return { ok: false, issues: issues.list };
  }
  const read = readStudies(pool, table, issues);
  const twice = issues.list.some(({ rule }) => rule === "duplicate_header");
  if (read === null || twice || read.studies.length === 0) return { ok: false, issues: issues.list };
  return { ok: true, value: { file: pool, ...read }, issues: issues.list };
}

function checkPool(file: string, { value, lineOf }: YamlFile<PoolFile>, issues: IssueLog): void {
  const wrong: Fault = (path, expected, received) =>
    issues.add("wrong_field", fieldPlace(file, path, lineOf), expected, received, "value_ignored");
  const { columns, covariate, criteria } = value;
  if (columns.covariate !== undefined && covariate === undefined) {
    wrong(["columns", "covariate"], "covariate too, which says what it holds", columns.covariate);
  }
  if (columns.covariate === undefined && covariate !== undefined) {
    wrong(["covariate"], "columns.covariate too, the column that holds it", covariate);
  }
  const entries = Object.entries(columns);
  entries.forEach(([field, name], at) => {
    if (entries.findIndex(([, other]) => other === name) < at) {
      wrong(["columns", field], "a column of its own", name);
    }
  });
  criteria.forEach(({ measure }, at) => {
    if (criteria.findIndex((other) => other.measure === measure) < at) {
      wrong(["criteria", at, "measure"], "one criterion for each measure", measure);
    }
  });
}
