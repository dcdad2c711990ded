import { texts } from "../cells.ts";
import { rejecter } from "../reject.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Person } from "./people.ts";
import { factReader, noFacts, type ReferenceFacts } from "./reference-facts.ts";
import { type ReferenceRun, runReader } from "./reference-run.ts";
import type { Specimens } from "./specimens.ts";

export const REFERENCE_COLUMNS = {
  required: ["specimen_id", "analyte_id", "assay_id", "ref_result"],
  optional: ["step_no", "run_at", "run_id", "lab_id", "blinded_to_index", "triggered_by_index"],
};

/** Component results of everyone. Analytes are named by their place in the study file. */
export interface ReferenceTests {
  readonly table: Table;
  /** In the order in which they were run. */
  readonly runsOf: (person: Person, analyte: number) => readonly ReferenceRun[];
  /** The person had assays outside the algorithm: they describe, and decide nothing. */
  readonly hasFurther: (person: Person, analyte: number) => boolean;
  readonly facts: ReferenceFacts;
}

/**
 * Reads the component results of the reference. They hang on any specimen of the same person and
 * visit: the reference is often run on another specimen than the rapid test.
 */
export function readReferenceTests(table: Table, specimens: Specimens, context: Context): ReferenceTests {
  const runs: ReferenceRun[][][] = context.study.analytes.map(() => []);
  const further = context.study.analytes.map(() => new Set<Person>());
  const facts = noFacts();
  const take = runReader(table, specimens, context);
  const note = factReader(table, context, facts);
  const isRepeated = duplicateFinder(table);
  const reject = rejecter(table, context.issues);
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const found = take(row);
    if (found === null) continue;
    const { person } = found.specimen;
    if (found.run === null) {
      note(row);
      further[found.analyte]?.add(person);
      setAside(table, row, "assay_outside_algorithm");
      continue;
    }
    const ofAnalyte = runs[found.analyte] as ReferenceRun[][];
    const list = ofAnalyte[person.index];
    if (isRepeated(row, list ?? NONE)) {
      reject(row, "duplicate_reference", "specimen_id", "each run once", found.specimen.id);
      continue;
    }
    note(row);
    if (list === undefined) ofAnalyte[person.index] = [found.run];
    else list.push(found.run);
  }
  for (const list of runs.flat()) {
    if (list.length > 1) list.sort((a, b) => a.runAt - b.runAt || a.step - b.step || a.row - b.row);
  }
  return {
    table,
    runsOf: (person, analyte) => runs[analyte]?.[person.index] ?? NONE,
    hasFurther: (person, analyte) => further[analyte]?.has(person) === true,
    facts,
  };
}

const NONE: readonly ReferenceRun[] = [];

/**
 * Same specimen, assay, step and run as a row before it. Without a step or run number, repeats are
 * runs of their own.
 */
function duplicateFinder(table: Table) {
  const key = ["specimen_id", "assay_id", "step_no", "run_id"].map((name) => texts(table, name));
  const numbered = key.slice(2);
  return (row: number, others: readonly ReferenceRun[]): boolean => {
    if (others.length === 0 || numbered.every((cell) => cell(row) === null)) return false;
    return others.some((other) => key.every((cell) => cell(row) === cell(other.row)));
  };
}
