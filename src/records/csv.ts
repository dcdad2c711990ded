import { cellStore } from "./cell-store.ts";
import { type CsvRecord, csvRecords } from "./csv-records.ts";
import { addRow, type OpenRows } from "./csv-rows.ts";
import { decode } from "./decode.ts";
import type { IssueLog } from "./issues.ts";
import type { InputFile } from "./model.ts";
import { suggestion } from "./nearest.ts";
import type { Column, Table } from "./table.ts";

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
  const start = { file: file.name, text, delimiter: delimiterOf(text), wanted };
  let rows: OpenRows | null = null;
  csvRecords(text, start.delimiter, (record) => {
    if (rows === null) rows = openRows(start, record, issues);
    else addRow(rows, record, issues);
  });
  const built = rows as OpenRows | null;
  if (built === null || missesColumn(built.table, wanted, issues)) return null;
  if (built.table.lines.length === 0) {
    issues.say("no_rows", whole(file.name), "rows below the header", "the header alone", "kept");
  }
  return built.table;
}

function whole(file: string, row: number | null = null) {
  return { file, row, column: null };
}

function textOf(file: InputFile, issues: IssueLog): string | null {
  const decoded = decode(file.bytes);
  if (!decoded.ok) {
    issues.say(
      "not_utf8",
      whole(file.name, decoded.line),
      "text in UTF-8",
      decoded.received,
      "row_set_aside",
    );
    return null;
  }
  if (decoded.text.trim() === "") {
    issues.say("empty_file", whole(file.name), "a header and rows", "nothing", "row_set_aside");
    return null;
  }
  if (decoded.byteOrderMark) {
    issues.say("byte_order_mark", whole(file.name), "plain UTF-8", "a byte order mark", "kept");
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

interface Start {
  readonly file: string;
  readonly text: string;
  readonly delimiter: string;
  readonly wanted: Wanted;
}

/** Opens the table with its header. */
function openRows(start: Start, record: CsvRecord, issues: IssueLog): OpenRows {
  const { file, text, delimiter, wanted } = start;
  const names = Array.from({ length: record.cells }, (_, index) => record.cell(index).trim());
  checkHeader(file, record.line, names, issues);
  const asked = new Set([...wanted.required, ...wanted.optional]);
  const taken = names.flatMap((name, index) =>
    asked.has(name) && names.indexOf(name) === index ? [index] : [],
  );
  const store = cellStore(text, taken);
  const columns = new Map<string, Column>();
  taken.forEach((index, slot) => {
    columns.set(names[index] ?? "", (row) => store.cell(row, slot));
  });
  const header = [...new Set(names.filter((name) => name !== ""))];
  const table = { file, delimiter, header, columns, lines: [], fates: [] };
  return { table, store, names, nul: text.includes("\0") };
}

function checkHeader(file: string, row: number, names: readonly string[], issues: IssueLog): void {
  names.forEach((name, index) => {
    const place = { file, row, column: name === "" ? `column ${index + 1}` : name };
    if (name === "")
      issues.say("empty_header", place, "a name for each column", "an empty name", "value_ignored");
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
    issues.say("missing_column", place, `the column ${name}${hint}`, table.header.join(","), "row_set_aside");
  }
  return missing.length > 0;
}
