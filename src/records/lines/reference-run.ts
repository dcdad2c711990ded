import { placeOf, texts, wholeNumbers, words } from "../cells.ts";
import { moment } from "../moments.ts";
import { suggestion } from "../nearest.ts";
import { REFERENCE_RESULTS, type ReferenceResult } from "../reference-algorithm.ts";
import { rejecter } from "../reject.ts";
import { setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Specimen, Specimens } from "./specimens.ts";

/** One component result of the reference. */
export interface ReferenceRun {
  readonly assay: string;
  readonly result: ReferenceResult;
  readonly step: number;
  readonly runAt: number;
  readonly row: number;
}

export interface FoundRun {
  readonly specimen: Specimen;
  readonly analyte: number;
  /** `null` for an assay outside the algorithm. */
  readonly run: ReferenceRun | null;
}

/** One row as a component result; rows that are none are set aside. */
export function runReader(table: Table, specimens: Specimens, context: Context) {
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
  const reject = rejecter(table, issues);
  const analytes = study.analytes.map((entry) => entry.id);
  const assays = study.analytes.map((entry) => (entry.reference.algorithm ?? []).map((at) => at.assay));
  return (row: number): FoundRun | null => {
    const specimen = specimenOf(row);
    if (specimen === null) return null;
    const name = analyte(row);
    if (name === null) return reject(row, "blank_identifier", "analyte_id", "an analyte", "");
    const index = analytes.indexOf(name);
    if (index < 0) {
      const expected = `an analyte of the study file${suggestion(name, analytes)}`;
      return reject(row, "unknown_analyte", "analyte_id", expected, name);
    }
    const kind = assay(row);
    if (kind === null) return reject(row, "blank_identifier", "assay_id", "an assay", "");
    if (!assays[index]?.includes(kind)) return { specimen, analyte: index, run: null };
    const found = result(row);
    if (found === null) {
      if (!result.faulty(row)) return reject(row, "missing_value", "ref_result", "a result", "");
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
      issues.add("unknown_reference_id", place, specimens.hint(name), name, "row_set_aside");
    }
    setAside(table, row, known ?? "unknown_reference_id");
    return null;
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
