import { delimiterOf } from "../../records/csv.ts";
import { type CsvRecord, csvRecords } from "../../records/csv-records.ts";

/** One row of a table as it stands in the text. */
export interface CsvRow {
  /** Line on which it begins, the first line being 1. */
  readonly line: number;
  /** `null` where the row can't be taken apart, or has not as many cells as the table has columns. */
  readonly cells: readonly string[] | null;
  /** The row's own text. */
  readonly text: string;
}

/** A row with its neighbours and the names of its columns. */
export interface RowsAround {
  readonly header: readonly string[];
  readonly rows: readonly CsvRow[];
}

/** A text after a change, and the name of the column changed. */
export interface Changed {
  readonly text: string;
  readonly column: string | null;
}

/** The row on a line, with a few before and after it; `null` where no row begins there. */
export function rowsAround(text: string, line: number, around: number): RowsAround | null {
  const delimiter = delimiterOf(text);
  const starts = lineStarts(text);
  let header: readonly string[] | null = null;
  const before: CsvRow[] = [];
  let after = -1;
  csvRecords(text, delimiter, (record) => {
    if (header === null) {
      header = cellsOf(record).map((cell) => cell.trim());
      return;
    }
    if (after >= around) return;
    if (after === -1 && record.line > line) return;
    before.push(rowOf(text, starts, record, header.length));
    if (after >= 0) after += 1;
    else if (record.line === line) after = 0;
    else if (before.length > around) before.shift();
  });
  return header === null || after === -1 ? null : { header, rows: before };
}

/** The text with one cell written anew, quoted where it must be; `null` where there is no such cell. */
export function withCell(text: string, line: number, column: number, cell: string): Changed | null {
  const delimiter = delimiterOf(text);
  let changed: Changed | null = null;
  let header: readonly string[] | null = null;
  csvRecords(text, delimiter, (record) => {
    if (header === null) header = cellsOf(record);
    if (record.line !== line || changed !== null || column >= record.cells) return;
    const quoted = text[record.start(column) - 1] === '"' && text[record.end(column)] === '"';
    const from = record.start(column) - (quoted ? 1 : 0);
    const to = record.end(column) + (quoted ? 1 : 0);
    const written = quoted || needsQuotes(cell, delimiter) ? `"${cell.replaceAll('"', '""')}"` : cell;
    changed = {
      text: text.slice(0, from) + written + text.slice(to),
      column: header[column]?.trim() ?? null,
    };
  });
  return changed;
}

/** The text with one line written anew; `null` where there is no such line. */
export function withLine(text: string, line: number, written: string): Changed | null {
  const starts = lineStarts(text);
  const from = starts[line - 1];
  if (from === undefined) return null;
  return { text: text.slice(0, from) + written + text.slice(endOfLine(text, from)), column: null };
}

function rowOf(text: string, starts: readonly number[], record: CsvRecord, columns: number): CsvRow {
  const from = starts[record.line - 1] ?? 0;
  const whole = !record.malformed && record.cells === columns;
  return {
    line: record.line,
    cells: whole ? cellsOf(record) : null,
    text: text.slice(from, endOfLine(text, from)),
  };
}

function cellsOf(record: CsvRecord): string[] {
  return Array.from({ length: record.cells }, (_, index) => record.cell(index));
}

function needsQuotes(cell: string, delimiter: string): boolean {
  return cell.includes(delimiter) || /["\r\n]/.test(cell);
}

/** Where each line begins. LF, CRLF and CR end a line. */
function lineStarts(text: string): number[] {
  const starts = [0];
  for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/g)) starts.push(index + end.length);
  return starts;
}

function endOfLine(text: string, from: number): number {
  const length = text.slice(from).search(/[\r\n]/);
  return length === -1 ? text.length : from + length;
}
