import type { TableLedger } from "./model.ts";

/** One column: the cell of a row, trimmed; empty text where the cell is. */
export type Column = (row: number) => string;

/** A table as columns of text. Cells are trimmed; identifiers stay text. */
export interface Table {
  readonly file: string;
  readonly delimiter: string;
  /** Column names in file order, trimmed; unnamed columns are left out. */
  readonly header: readonly string[];
  /** The columns asked for that are there. */
  readonly columns: ReadonlyMap<string, Column>;
  /** Line in the file at which each row starts. */
  readonly lines: readonly number[];
  /** Why each row was set aside; `null` while it counts. Each row meets exactly one fate. */
  readonly fates: (string | null)[];
}

/** A row keeps the first reason for which it was set aside. */
export function setAside(table: Table, row: number, reason: string): void {
  if (table.fates[row] === null) table.fates[row] = reason;
}

export function isCounted(table: Table, row: number): boolean {
  return table.fates[row] === null;
}

/** Rows = analysed + set aside, each reason with the lines of its rows; reasons in alphabetical order. */
export function ledgerOf(table: Table): TableLedger {
  const byReason = new Map<string, number[]>();
  let analysed = 0;
  table.fates.forEach((reason, row) => {
    if (reason === null) {
      analysed += 1;
      return;
    }
    const rows = byReason.get(reason);
    const line = table.lines[row] ?? 0;
    if (rows === undefined) byReason.set(reason, [line]);
    else rows.push(line);
  });
  const setAsideRows = [...byReason].map(([reason, rows]) => ({ reason, rows }));
  setAsideRows.sort((one, other) => (one.reason < other.reason ? -1 : 1));
  return { file: table.file, rows: table.fates.length, analysed, setAside: setAsideRows };
}
