/** A table of the evaluation, ready to be written: tidy, one observation a row. */
export interface Table {
  /** File name without its ending. */
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

export type Cell = string | number | boolean | null;

/** What a spreadsheet may take for the beginning of a formula, the full-width forms included. */
const FORMULA_START = /^[=+\-@\t\r\n＝＋－＠]/;
const PLAIN_NUMBER = /^-?\d+(\.\d+)?([eE][+-]?\d+)?$/;
/** Quoted also for `;` and tab, so that a spreadsheet of another locale does not split the cell. */
const NEEDS_QUOTES = /[",;\t\r\n]|^\s|\s$/;

/**
 * A table as CSV text (RFC 4180, UTF-8, `\n`). Text that a spreadsheet would run as a formula gets an
 * apostrophe in front; numbers stay numbers. `null` is an empty cell.
 */
export function writeCsv(table: Table): string {
  const lines = [table.columns, ...table.rows].map((row) => row.map(cellText).join(","));
  return `${lines.join("\n")}\n`;
}

function cellText(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell !== "string") return String(cell);
  const harmless = FORMULA_START.test(cell) && !PLAIN_NUMBER.test(cell) ? `'${cell}` : cell;
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
