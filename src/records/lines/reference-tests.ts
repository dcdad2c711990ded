import { placeOf, texts, truths, wholeNumbers, words } from "../cells.ts";
import type { IssueRule } from "../issue-rules.ts";
import { moment } from "../moments.ts";
import { suggestion } from "../nearest.ts";
import { REFERENCE_RESULTS, type ReferenceResult } from "../reference-algorithm.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Person } from "./people.ts";
import { type Specimen, type Specimens, specimenHint } from "./specimens.ts";

export const REFERENCE_COLUMNS = {
  required: ["specimen_id", "analyte_id", "assay_id", "ref_result"],
  optional: ["step_no", "run_at", "run_id", "lab_id", "blinded_to_index", "triggered_by_index"],
};

/** One component result of the reference. */
export interface ReferenceRun {
  readonly assay: string;
  readonly result: ReferenceResult;
  readonly step: number;
  readonly runAt: number;
  readonly row: number;
}

/** Component results of everyone. Analytes are named by their place in the study file. */
export interface ReferenceTests {
  readonly table: Table;
  /** In the order in which they were run. */
  readonly runsOf: (person: Person, analyte: number) => readonly ReferenceRun[];
  /** The person had assays outside the algorithm: they describe, and decide nothing. */
  readonly hasFurther: (person: Person, analyte: number) => boolean;
  readonly facts: ReferenceFacts;
}

export interface ReferenceFacts {
  total: number;
  triggered: number;
  notBlinded: number;
  blindingStated: number;
  readonly triggeringLabs: Set<string>;
}

/**
 * Reads the component results of the reference. They hang on any specimen of the same person and
 * visit: the reference is often run on another specimen than the rapid test.
 */
export function readReferenceTests(table: Table, specimens: Specimens, context: Context): ReferenceTests {
  const runs: ReferenceRun[][][] = context.study.analytes.map(() => []);
  const further = context.study.analytes.map(() => new Set<Person>());
  const facts = {
    total: 0,
    triggered: 0,
    notBlinded: 0,
    blindingStated: 0,
    triggeringLabs: new Set<string>(),
  };
  const take = runReader(table, specimens, context);
  const note = factReader(table, context, facts);
  const isRepeated = duplicateFinder(table);
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
      const place = placeOf(table, row, "specimen_id");
      context.issues.add("duplicate_reference", place, "each run once", found.specimen.id, "row_set_aside");
      setAside(table, row, "duplicate_reference");
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

interface FoundRun {
  readonly specimen: Specimen;
  readonly analyte: number;
  /** `null` for an assay outside the algorithm. */
  readonly run: ReferenceRun | null;
}

function runReader(table: Table, specimens: Specimens, context: Context) {
  const { issues, study } = context;
  const assay = texts(table, "assay_id");
  const analyte = texts(table, "analyte_id");
  const result = words(
    { table, name: "ref_result", issues, consequence: "row_set_aside" },
    REFERENCE_RESULTS,
  );
  const step = wholeNumbers({ table, name: "step_no", issues });
  const runAt = runTime(table, context);
  const specimenOf = specimenFinder(table, specimens, context);
  const analytes = study.analytes.map((entry) => entry.id);
  const assays = study.analytes.map((entry) => (entry.reference.algorithm ?? []).map((at) => at.assay));
  return (row: number): FoundRun | null => {
    const reject = (rule: IssueRule, column: string, expected: string, received: unknown) => {
      issues.add(rule, placeOf(table, row, column), expected, received, "row_set_aside");
      setAside(table, row, rule);
      return null;
    };
    const specimen = specimenOf(row);
    if (specimen === null) return null;
    const name = analyte(row);
    if (name === null) return reject("blank_identifier", "analyte_id", "an analyte", "");
    const index = analytes.indexOf(name);
    if (index < 0) {
      const expected = `an analyte of the study file${suggestion(name, analytes)}`;
      return reject("unknown_analyte", "analyte_id", expected, name);
    }
    const kind = assay(row);
    if (kind === null) return reject("blank_identifier", "assay_id", "an assay", "");
    if (!assays[index]?.includes(kind)) return { specimen, analyte: index, run: null };
    const found = result(row);
    if (found === null) {
      if (!result.faulty(row)) return reject("missing_value", "ref_result", "a result", "");
      setAside(table, row, "unknown_code");
      return null;
    }
    const run = { assay: kind, result: found, step: step(row) ?? 1, runAt: runAt(row), row };
    return { specimen, analyte: index, run };
  };
}

function specimenFinder(table: Table, specimens: Specimens, { issues }: Context) {
  const id = texts(table, "specimen_id");
  return (row: number): Specimen | null => {
    const name = id(row);
    if (name === null) {
      issues.add("blank_identifier", placeOf(table, row, "specimen_id"), "a specimen", "", "row_set_aside");
      setAside(table, row, "blank_identifier");
      return null;
    }
    const specimen = specimens.byId.get(name);
    if (specimen !== undefined && specimen.reason === null) return specimen;
    const known = specimen?.reason ?? specimens.faulty.get(name);
    if (known === undefined) {
      const place = placeOf(table, row, "specimen_id");
      issues.add("unknown_reference_id", place, specimenHint(specimens, name), name, "row_set_aside");
    }
    setAside(table, row, known ?? "unknown_reference_id");
    return null;
  };
}

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

function runTime(table: Table, { issues }: Context) {
  const text = texts(table, "run_at");
  return (row: number): number => {
    const cell = text(row);
    if (cell === null) return 0;
    const read = moment(cell);
    if (read === null) {
      const place = placeOf(table, row, "run_at");
      issues.add("not_a_date", place, "a time as 2026-04-01T10:15", cell, "value_ignored");
      return 0;
    }
    return read.minutes - (read.offset ?? 0);
  };
}

function factReader(table: Table, { issues }: Context, facts: ReferenceFacts) {
  const blinded = truths({ table, name: "blinded_to_index", issues });
  const triggered = truths({ table, name: "triggered_by_index", issues });
  const lab = texts(table, "lab_id");
  return (row: number): void => {
    facts.total += 1;
    const state = blinded(row);
    if (state !== null) facts.blindingStated += 1;
    if (state === false) facts.notBlinded += 1;
    if (triggered(row) === true) {
      facts.triggered += 1;
      facts.triggeringLabs.add(lab(row) ?? "");
    }
  };
}
