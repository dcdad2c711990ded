import type { Wanted } from "../csv.ts";
import type { Study } from "../study.ts";
import type { Table } from "../table.ts";
import type { OpenTable } from "../tables.ts";
import { strataColumns } from "./context.ts";
import { DEVICE_COLUMNS } from "./devices.ts";
import { INTERPRETATION_COLUMNS } from "./interpretations.ts";
import { LINE_READING_COLUMNS } from "./line-readings.ts";
import { LOT_COLUMNS, OPERATOR_COLUMNS } from "./lots-operators.ts";
import { PEOPLE_COLUMNS } from "./people.ts";
import { REFERENCE_COLUMNS } from "./reference-tests.ts";
import { SPECIMEN_COLUMNS } from "./specimens.ts";
import { WIDE_COLUMNS } from "./wide-readings.ts";

export type LineRecords = Extract<Study["records"], { shape: "lines" }>;

/** The tables of line-level records, as opened. */
export interface LineTables {
  readonly participants: Table;
  readonly specimens: Table;
  readonly index_tests: Table;
  readonly readings: Table;
  readonly interpretations: Table | null;
  readonly reference_tests: Table;
  readonly lots: Table | null;
  readonly operators: Table | null;
  /** All that are there, in the order of the study file. */
  readonly inOrder: readonly Table[];
}

/**
 * Opens every table before any is given up, so that all faults of files are seen at once.
 * @returns `null` where a table that is needed cannot be used
 */
export function openTables(records: LineRecords, open: OpenTable, study: Study): LineTables | null {
  const wanted = (columns: Wanted, table: string): Wanted => ({
    required: columns.required,
    optional: [...columns.optional, ...strataColumns(study, table)],
  });
  const further = (file: string | undefined, columns: Wanted) =>
    file === undefined ? null : open(file, columns);
  const participants = open(records.participants, wanted(PEOPLE_COLUMNS, "participants"));
  const specimens = open(records.specimens, wanted(SPECIMEN_COLUMNS, "specimens"));
  const index_tests = open(records.index_tests, wanted(DEVICE_COLUMNS, "index_tests"));
  const readings = openReadings(records, open);
  const interpretations = further(records.interpretations, INTERPRETATION_COLUMNS);
  const reference_tests = open(records.reference_tests, REFERENCE_COLUMNS);
  const lots = further(records.lots, wanted(LOT_COLUMNS, "lots"));
  const operators = further(records.operators, wanted(OPERATOR_COLUMNS, "operators"));
  if (participants === null || specimens === null || index_tests === null) return null;
  if (readings === null || reference_tests === null) return null;
  const needed = { participants, specimens, index_tests, readings, reference_tests };
  const optional = { interpretations, lots, operators };
  const all = [
    participants,
    specimens,
    index_tests,
    readings,
    interpretations,
    reference_tests,
    lots,
    operators,
  ];
  return { ...needed, ...optional, inOrder: all.filter((table) => table !== null) };
}

function openReadings(records: LineRecords, open: OpenTable): Table | null {
  const wide = records.wide_readings;
  if (wide === undefined) return open(records.line_readings ?? "", LINE_READING_COLUMNS);
  const required = [...WIDE_COLUMNS.required, ...Object.values(wide.lines)];
  return open(wide.table, { required, optional: WIDE_COLUMNS.optional });
}
