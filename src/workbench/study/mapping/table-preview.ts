import { delimiterOf } from "../../../records/csv.ts";
import { csvRecords } from "../../../records/csv-records.ts";
import { decode } from "../../../records/decode.ts";

/** What a table holds, as far as it must be seen to say what its columns are. */
export interface TablePreview {
  readonly columns: readonly PreviewColumn[];
  /** The first rows. */
  readonly rows: readonly (readonly string[])[];
  readonly count: number;
}

export interface PreviewColumn {
  readonly name: string;
  /** What stands in its cells and how often, the most frequent first; empty cells not counted. */
  readonly values: readonly { readonly text: string; readonly count: number }[];
  /** Whether it holds more different texts than are listed. */
  readonly more: boolean;
  readonly empty: number;
  /** Whether every cell that is not empty holds a whole number, 0 or more. */
  readonly whole: boolean;
}

const ROWS_SHOWN = 6;
const MOST_VALUES = 40;

interface Counted {
  readonly values: Map<string, number>;
  more: boolean;
  empty: number;
  whole: boolean;
}

/** Looks at every row of a table; `null` where it is no text in UTF-8 or has no column names. */
export function previewOf(bytes: Uint8Array): TablePreview | null {
  const decoded = decode(bytes);
  if (!decoded.ok || decoded.text.trim() === "") return null;
  const { text } = decoded;
  const names: string[] = [];
  const counted: Counted[] = [];
  const rows: string[][] = [];
  let count = 0;
  let begun = false;
  csvRecords(text, delimiterOf(text), (record) => {
    const cells = Array.from({ length: record.cells }, (_, index) => record.cell(index).trim());
    if (!begun) {
      begun = true;
      names.push(...cells);
      counted.push(...cells.map(() => ({ values: new Map(), more: false, empty: 0, whole: true })));
      return;
    }
    count += 1;
    if (rows.length < ROWS_SHOWN) rows.push(cells);
    if (cells.length !== names.length) return;
    cells.forEach((cell, place) => {
      add(counted[place] as Counted, cell);
    });
  });
  if (names.length === 0) return null;
  const columns = names.map((name, place) => ({ name, ...columnOf(counted[place] as Counted) }));
  return { columns, rows, count };
}

function add(column: Counted, cell: string): void {
  if (cell === "") {
    column.empty += 1;
    return;
  }
  if (column.whole && !/^\d+$/.test(cell)) column.whole = false;
  const seen = column.values.get(cell);
  if (seen === undefined && column.values.size >= MOST_VALUES) column.more = true;
  else column.values.set(cell, (seen ?? 0) + 1);
}

function columnOf({ values, more, empty, whole }: Counted): Omit<PreviewColumn, "name"> {
  const listed = [...values].map(([text, count]) => ({ text, count }));
  listed.sort((one, other) => other.count - one.count || (one.text < other.text ? -1 : 1));
  return { values: listed, more, empty, whole: whole && listed.length > 0 };
}
