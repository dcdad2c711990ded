import type { InputFile, RowIssue, StudyRecords } from "../../src/records/model.ts";
import { readStudy } from "../../src/records/read-study.ts";
import { buildStudy, type PersonPlan, type StudyPlan } from "./build-study.ts";

/** Reads a study that must be readable. */
export function recordsOf(files: readonly InputFile[]): StudyRecords {
  const read = readStudy(files);
  if (!read.ok) throw new Error(`not readable: ${JSON.stringify(read.issues.slice(0, 3))}`);
  return read.records;
}

/** Two people with one sound device each: the second is negative for both analytes. */
export const SOUND_PEOPLE: readonly PersonPlan[] = [
  {
    id: "P1",
    reference: { A1: "positive", A2: "negative" },
    devices: [{ readings: [{ lines: ["clear", "faint", "absent"] }] }],
  },
  {
    id: "P2",
    site: "S2",
    reference: { A1: "negative", A2: "negative" },
    devices: [{ lot: "LOT2", readings: [{ lines: ["clear", "absent", "absent"] }] }],
  },
];

/** The records of the two sound people, with one thing changed. */
export function changed(plan: Partial<StudyPlan>): StudyRecords {
  return recordsOf(buildStudy({ people: SOUND_PEOPLE, ...plan }));
}

/** Rule, file and line of issues, for short expectations. */
export function places(issues: readonly RowIssue[]): [string, string, number | null][] {
  return issues.map(({ rule, file, row }) => [rule, file.replace(".csv", ""), row]);
}

/** Every row of every table has exactly one fate; every person of every set is accounted for. */
export function accounts(records: StudyRecords): { rows: boolean; people: boolean } {
  const rows = records.ledger.every(({ rows, analysed, setAside }) => {
    const aside = setAside.flatMap((entry) => entry.rows);
    return rows === analysed + aside.length && new Set(aside).size === aside.length;
  });
  const people = records.sets.every((set) => {
    const paired = set.pairs.reduce((sum, pair) => sum + pair.weight, 0);
    const before = set.before.reduce((sum, entry) => sum + entry.people, 0);
    return paired + before === records.totals.enrolled;
  });
  return { rows, people };
}
