import { type CsvRecord, csvRecords } from "./csv-records.ts";
import { decode } from "./decode.ts";
import type { IssueLog } from "./issues.ts";
import type { InputFile } from "./model.ts";
import { suggestion } from "./nearest.ts";
import { setAside, type Table } from "./table.ts";

export const LONG_CELL = 1000;

/** What a reader wants of a table. */
export interface Wanted {
  /** Columns without which the table cannot be used. */
  readonly required: readonly string[];
  /** Further columns to take out where they are there. Others are checked and not kept. */
  readonly optional: readonly string[];
}

/**
 * Reads a CSV table from bytes: UTF-8 with or without a byte order mark; comma, semicolon or tab,
 * whichever the header holds most of. Faulty rows become issues and are set aside; reading goes on.
 *
 * @returns the wanted columns, or `null` where the file cannot be used at all: not UTF-8, empty, or
 *   without a required column. The issues then say why.
 */
export function readCsv(file: InputFile, wanted: Wanted, issues: IssueLog): Table | null {
  const text = textOf(file, issues);
  if (text === null) return null;
  const start = { file: file.name, delimiter: delimiterOf(text), nul: text.includes("\0"), wanted };
  let builder: TableBuilder | null = null;
  csvRecords(text, start.delimiter, (record) => {
    if (builder === null) builder = tableBuilder(start, record, issues);
    else addRow(builder, record, issues);
  });
  const built = builder as TableBuilder | null;
  if (built === null || missesColumn(built.table, wanted, issues)) return null;
  if (built.table.lines.length === 0) {
    issues.add("no_rows", whole(file.name), "rows below the header", "the header alone", "kept");
  }
  return built.table;
}

function whole(file: string, row: number | null = null) {
  return { file, row, column: null };
}

function textOf(file: InputFile, issues: IssueLog): string | null {
  const decoded = decode(file.bytes);
  if (!decoded.ok) {
    issues.add(
      "not_utf8",
      whole(file.name, decoded.line),
      "text in UTF-8",
      decoded.received,
      "row_set_aside",
    );
    return null;
  }
  if (decoded.text.trim() === "") {
    issues.add("empty_file", whole(file.name), "a header and rows", "nothing", "row_set_aside");
    return null;
  }
  if (decoded.byteOrderMark) {
    issues.add("byte_order_mark", whole(file.name), "plain UTF-8", "a byte order mark", "kept");
  }
  return decoded.text;
}

/** The delimiter that the first line holds most of, quoted pieces not looked at. */
export function delimiterOf(text: string): string {
  const head = text.trimStart().split(/\r|\n/, 1)[0] ?? "";
  const bare = head.replace(/"[^"]*"/g, "");
  const counts = [",", ";", "\t"].map((sign) => ({ sign, count: bare.split(sign).length - 1 }));
  counts.sort((one, other) => other.count - one.count);
  return counts[0]?.sign ?? ",";
}

interface TableBuilder {
  readonly table: Table & { readonly lines: number[] };
  /** Number of cells that each row must have. */
  readonly width: number;
  readonly taken: readonly { readonly index: number; readonly cells: string[] }[];
  readonly names: readonly string[];
  /** Somewhere in the text there is a NUL character: look at each cell. */
  readonly nul: boolean;
}

interface Start {
  readonly file: string;
  readonly delimiter: string;
  readonly nul: boolean;
  readonly wanted: Wanted;
}

function tableBuilder(start: Start, record: CsvRecord, issues: IssueLog): TableBuilder {
  const { file, delimiter, wanted, nul } = start;
  const names = Array.from({ length: record.cells }, (_, index) => record.cell(index).trim());
  checkHeader(file, record.line, names, issues);
  const columns = new Map<string, string[]>();
  const taken: { index: number; cells: string[] }[] = [];
  const asked = new Set([...wanted.required, ...wanted.optional]);
  names.forEach((name, index) => {
    if (!asked.has(name) || columns.has(name)) return;
    const cells: string[] = [];
    columns.set(name, cells);
    taken.push({ index, cells });
  });
  const header = [...new Set(names.filter((name) => name !== ""))];
  return {
    table: { file, delimiter, header, columns, lines: [], fates: [] },
    width: names.length,
    taken,
    names,
    nul,
  };
}

function checkHeader(file: string, row: number, names: readonly string[], issues: IssueLog): void {
  names.forEach((name, index) => {
    const place = { file, row, column: name === "" ? `column ${index + 1}` : name };
    if (name === "")
      issues.add("empty_header", place, "a name for each column", "an empty name", "value_ignored");
    else if (names.indexOf(name) < index) {
      issues.add("duplicate_header", place, "each column name once", name, "value_ignored");
    }
  });
}

/** True, with an issue for each, where required columns are missing. */
function missesColumn(table: Table, wanted: Wanted, issues: IssueLog): boolean {
  const missing = wanted.required.filter((name) => !table.columns.has(name));
  for (const name of missing) {
    const hint = suggestion(name, table.header);
    const place = { file: table.file, row: 1, column: name };
    issues.add("missing_column", place, `the column ${name}${hint}`, table.header.join(","), "row_set_aside");
  }
  return missing.length > 0;
}

function addRow(builder: TableBuilder, record: CsvRecord, issues: IssueLog): void {
  const { table, taken } = builder;
  const row = table.lines.length;
  table.lines.push(record.line);
  table.fates.push(null);
  if (record.malformed || record.cells !== builder.width) {
    for (const { cells } of taken) cells.push("");
    rejectRow(builder, record, row, issues);
    return;
  }
  for (const { index, cells } of taken) {
    const before = cells[row - 1];
    cells.push(before !== undefined && record.equals(index, before) ? before : tidy(record.cell(index)));
  }
  checkCells(builder, record, row, issues);
}

function rejectRow(builder: TableBuilder, record: CsvRecord, row: number, issues: IssueLog): void {
  const { table, width } = builder;
  const place = whole(table.file, record.line);
  if (record.malformed) {
    issues.add("malformed_row", place, "quotes that close", "an open or misplaced quote", "row_set_aside");
    setAside(table, row, "malformed_row");
  } else if (record.cells === 1 && record.cell(0).trim() === "") {
    rejectBlank(table, row, issues);
  } else {
    issues.add("ragged_row", place, `${width} cells`, `${record.cells} cells`, "row_set_aside");
    setAside(table, row, "ragged_row");
  }
}

/** Long cells, NUL characters and rows without any content, in all columns, wanted or not. */
function checkCells(builder: TableBuilder, record: CsvRecord, row: number, issues: IssueLog): void {
  const { table, names } = builder;
  let blank = true;
  for (let index = 0; index < record.cells; index++) {
    const length = record.length(index);
    if (length > 0 && blank) blank = record.cell(index).trim() === "";
    if (builder.nul && record.cell(index).includes("\0")) {
      const place = { file: table.file, row: record.line, column: names[index] ?? null };
      issues.add("nul_character", place, "text", "a NUL character", "row_set_aside");
      setAside(table, row, "nul_character");
    }
    if (length >= LONG_CELL) {
      const place = { file: table.file, row: record.line, column: names[index] ?? null };
      issues.add("long_cell", place, `fewer than ${LONG_CELL} characters`, record.cell(index), "kept");
    }
  }
  if (blank) rejectBlank(table, row, issues);
}

function rejectBlank(table: Table, row: number, issues: IssueLog): void {
  const place = whole(table.file, table.lines[row] ?? null);
  issues.add("blank_row", place, "a row with content", "empty cells", "row_set_aside");
  setAside(table, row, "blank_row");
}

/** Trims only where there is something to trim. */
function tidy(cell: string): string {
  const spaced = cell !== "" && (cell.charCodeAt(0) <= 32 || isSpace(cell.charCodeAt(cell.length - 1)));
  return spaced || cell.charCodeAt(0) === 0xa0 ? cell.trim() : cell;
}

function isSpace(code: number): boolean {
  return code <= 32 || code === 0xa0;
}
