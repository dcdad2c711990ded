import { placeOf, texts, wholeNumbers } from "../cells.ts";
import { readCsv } from "../csv.ts";
import type { IssueLog } from "../issues.ts";
import type { InputFile } from "../model.ts";
import { rejecter } from "../reject.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { PoolFile } from "./pool-schema.ts";

/** One study of the table: its fourfold table, and its level of the covariate. */
export interface PoolStudy {
  readonly label: string;
  /** `null`: there is no covariate, or the study does not say. */
  readonly level: string | null;
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  readonly trueNegatives: number;
}

/** A row that could not be used. */
export interface LeftOut {
  /** Name of the study; `null` where the row has none. */
  readonly study: string | null;
  readonly row: number;
  readonly column: string | null;
  readonly expected: string;
  readonly received: string;
}

export interface StudyTable {
  readonly studies: readonly PoolStudy[];
  readonly leftOut: readonly LeftOut[];
}

const MOST_PEOPLE = 1e9;
const PAIRS = [
  ["true_positives", "false_negatives"],
  ["false_positives", "true_negatives"],
] as const;
type CountField = (typeof PAIRS)[number][number];

/**
 * The studies of a table of counts. A study that tells of people of one kind alone leaves the two counts of the other
 * kind empty: they are 0 of 0. A row with half a pair, no count, no name, or the name of a study above is left out.
 *
 * @returns `null` where the table can't be used at all: the issues then say why
 */
export function readStudies(
  { columns }: Pick<PoolFile, "columns">,
  file: InputFile,
  issues: IssueLog,
): StudyTable | null {
  const required = Object.values(columns).filter((name) => name !== undefined);
  const table = readCsv(file, { required, optional: [] }, issues);
  if (table === null) return null;
  const labelOf = texts(table, columns.study);
  const levelOf = columns.covariate === undefined ? () => null : texts(table, columns.covariate);
  const countsOf = countReader(table, columns, issues);
  const reject = rejecter(table, issues);
  const seen = new Set<string>();
  const studies: PoolStudy[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const label = labelOf(row);
    if (label === null) {
      reject(row, "blank_identifier", columns.study, "the name of the study", "");
      continue;
    }
    if (seen.has(label)) {
      reject(row, "duplicate_study", columns.study, "a name that no study above bears", label);
      continue;
    }
    seen.add(label);
    const counts = countsOf(row);
    if (counts !== null) studies.push({ label, level: levelOf(row), ...counts });
  }
  return { studies, leftOut: leftOutOf(table, labelOf, issues) };
}

type Counts = Omit<PoolStudy, "label" | "level">;

function countReader(table: Table, columns: PoolFile["columns"], issues: IssueLog) {
  const reader = (field: CountField) =>
    wholeNumbers({ table, name: columns[field], issues, consequence: "row_set_aside" });
  const readers = {
    true_positives: reader("true_positives"),
    false_positives: reader("false_positives"),
    false_negatives: reader("false_negatives"),
    true_negatives: reader("true_negatives"),
  };
  const fault = (
    row: number,
    rule: "missing_value" | "out_of_range",
    field: CountField,
    received: unknown,
  ) => {
    const expected = rule === "missing_value" ? "a count, as the other one of this kind is given" : EXPECTED;
    issues.add(rule, placeOf(table, row, columns[field]), expected, received, "row_set_aside");
    setAside(table, row, rule);
    return null;
  };
  return (row: number): Counts | null => {
    const given = { true_positives: 0, false_positives: 0, false_negatives: 0, true_negatives: 0 };
    let kinds = 0;
    for (const pair of PAIRS) {
      const read = pair.map((field) => readers[field](row));
      const bad = pair.find((field) => readers[field].faulty(row));
      if (bad !== undefined) {
        setAside(table, row, "not_a_number");
        return null;
      }
      if (read.every((count) => count === null)) continue;
      kinds += 1;
      for (const [at, field] of pair.entries()) {
        const count = read[at] ?? null;
        if (count === null) return fault(row, "missing_value", field, "");
        if (count < 0 || count > MOST_PEOPLE) return fault(row, "out_of_range", field, count);
        given[field] = count;
      }
    }
    if (kinds === 0) return nothing(table, row, columns.true_positives, issues);
    return {
      truePositives: given.true_positives,
      falsePositives: given.false_positives,
      falseNegatives: given.false_negatives,
      trueNegatives: given.true_negatives,
    };
  };
}

const EXPECTED = "a count, 0 or more";

function nothing(table: Table, row: number, column: string, issues: IssueLog): null {
  const expected = "counts of people with the condition, without it, or both";
  issues.add("missing_value", placeOf(table, row, column), expected, "", "row_set_aside");
  setAside(table, row, "missing_value");
  return null;
}

/** The first fault of every row that was set aside, in the order of the table. */
function leftOutOf(table: Table, labelOf: (row: number) => string | null, issues: IssueLog): LeftOut[] {
  return table.lines.flatMap((line, row) => {
    if (isCounted(table, row)) return [];
    const issue = issues.list.find(
      (one) => one.file === table.file && one.row === line && one.consequence === "row_set_aside",
    );
    if (issue === undefined || issue.rule === "blank_row") return [];
    const { column, expected, received } = issue;
    return [{ study: labelOf(row), row: line, column, expected, received }];
  });
}
