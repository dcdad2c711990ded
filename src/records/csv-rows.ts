import type { CellStore } from "./cell-store.ts";
import type { CsvRecord } from "./csv-records.ts";
import type { IssueLog } from "./issues.ts";
import { setAside, type Table } from "./table.ts";

const LONG_CELL = 1000;

/** A table while its rows are being read. */
export interface OpenRows {
  readonly table: Table & { readonly lines: number[] };
  readonly store: CellStore;
  /** Column names by place; the number of cells that each row must have. */
  readonly names: readonly string[];
  /** Somewhere in the text there is a NUL character: look at each cell. */
  readonly nul: boolean;
}

/** Adds one record as a row. A faulty one is a row too, of empty cells, and set aside. */
export function addRow(rows: OpenRows, record: CsvRecord, issues: IssueLog): void {
  const { table, names } = rows;
  const row = table.lines.length;
  table.lines.push(record.line);
  table.fates.push(null);
  if (record.malformed || record.cells !== names.length) {
    rows.store.add(null);
    rejectRow(rows, record, row, issues);
    return;
  }
  rows.store.add(record);
  checkCells(rows, record, row, issues);
}

function rejectRow({ table, names }: OpenRows, record: CsvRecord, row: number, issues: IssueLog): void {
  const place = { file: table.file, row: record.line, column: null };
  if (record.malformed) {
    issues.say("malformed_row", place, "quotes that close", "an open or misplaced quote", "row_set_aside");
    setAside(table, row, "malformed_row");
  } else if (record.cells === 1 && record.cell(0).trim() === "") {
    rejectBlank(table, row, issues);
  } else {
    issues.say("ragged_row", place, `${names.length} cells`, `${record.cells} cells`, "row_set_aside");
    setAside(table, row, "ragged_row");
  }
}

/** Long cells, NUL characters and rows without any content, in all columns, wanted or not. */
function checkCells(rows: OpenRows, record: CsvRecord, row: number, issues: IssueLog): void {
  const { table, names } = rows;
  if (isBlank(record)) rejectBlank(table, row, issues);
  if (!rows.nul && record.longest < LONG_CELL) return;
  for (let index = 0; index < record.cells; index++) {
    const cell = record.cell(index);
    const place = { file: table.file, row: record.line, column: names[index] ?? null };
    if (cell.includes("\0")) {
      issues.say("nul_character", place, "text", "a NUL character", "row_set_aside");
      setAside(table, row, "nul_character");
    }
    if (cell.length >= LONG_CELL) {
      issues.add("long_cell", place, `fewer than ${LONG_CELL} characters`, cell, "kept");
    }
  }
}

function isBlank(record: CsvRecord): boolean {
  for (let index = 0; index < record.cells; index++) {
    if (record.end(index) > record.start(index) && record.cell(index).trim() !== "") return false;
  }
  return true;
}

function rejectBlank(table: Table, row: number, issues: IssueLog): void {
  const place = { file: table.file, row: table.lines[row] ?? null, column: null };
  issues.say("blank_row", place, "a row with content", "empty cells", "row_set_aside");
  setAside(table, row, "blank_row");
}
