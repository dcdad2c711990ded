import type { IssueLog, Place } from "./issues.ts";
import type { Consequence } from "./model.ts";
import { suggestion } from "./nearest.ts";
import type { Table } from "./table.ts";

/**
 * Turns the cells of one column into codes, numbers or truth values. Each distinct text is looked up
 * once; a text that cannot be understood becomes an issue at each of its rows.
 */
export interface CellReader<Value> {
  /** The value of a row; `null` where the cell is empty, absent or not understood. */
  (row: number): Value | null;
  /** The cell is not empty, yet was not understood. */
  readonly faulty: (row: number) => boolean;
  readonly present: boolean;
}

type Understood<Value> = { readonly value: Value | null; readonly expected: string | null };

interface Source {
  readonly table: Table;
  readonly name: string;
  readonly issues: IssueLog;
  readonly consequence?: Consequence;
}

export function placeOf(table: Table, row: number, column: string | null): Place {
  return { file: table.file, row: table.lines[row] ?? null, column };
}

/** Text as it stands; empty cells are `null`. */
export function texts(table: Table, name: string): (row: number) => string | null {
  const cells = table.columns.get(name);
  if (cells === undefined) return () => null;
  return (row) => cells(row) || null;
}

/**
 * Codes, upper or lower case alike.
 * @param codes what each code means, keys in lower case
 */
export function codes<Value>(source: Source, meaning: ReadonlyMap<string, Value>): CellReader<Value> {
  const known = [...meaning.keys()];
  return reader(source, "unknown_code", (cell) => {
    const value = meaning.get(cell.toLowerCase());
    if (value !== undefined) return { value, expected: null };
    return { value: null, expected: `one of ${known.join(", ")}${suggestion(cell, known)}` };
  });
}

/** Codes that mean themselves. */
export function words<const Word extends string>(source: Source, allowed: readonly Word[]): CellReader<Word> {
  return codes(source, new Map(allowed.map((word) => [word as string, word])));
}

const TRUTH = new Map([
  ["true", true],
  ["yes", true],
  ["1", true],
  ["false", false],
  ["no", false],
  ["0", false],
]);

export function truths(source: Source): CellReader<boolean> {
  return codes(source, TRUTH);
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/;
const NUMBER_WITH_COMMA = /^[+-]?(\d+,\d+|,\d+)([eE][+-]?\d{1,3})?$/;

/** A number from text with a point, or with a comma where `comma` allows it; `null` otherwise. */
export function numberOf(cell: string, comma = false): number | null {
  if (NUMBER.test(cell)) return finite(Number(cell));
  if (comma && NUMBER_WITH_COMMA.test(cell)) return finite(Number(cell.replace(",", ".")));
  return null;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** Numbers. A decimal comma is understood where the delimiter is not a comma, and noted once per column. */
export function numbers(source: Source): CellReader<number> {
  const comma = source.table.delimiter !== ",";
  let noted = false;
  return reader(source, "not_a_number", (cell, row) => {
    const value = numberOf(cell, comma);
    if (value === null) return { value, expected: "a number" };
    if (!noted && cell.includes(",")) {
      noted = true;
      const place = placeOf(source.table, row, source.name);
      source.issues.add("decimal_comma", place, "a decimal point", cell, "kept");
    }
    return { value, expected: null };
  });
}

/** Whole numbers. */
export function wholeNumbers(source: Source): CellReader<number> {
  return reader(source, "not_a_number", (cell) => {
    const value = numberOf(cell);
    return value !== null && Number.isInteger(value)
      ? { value, expected: null }
      : { value: null, expected: "a whole number" };
  });
}

const REMEMBERED = 5000;

function reader<Value>(
  source: Source,
  rule: "unknown_code" | "not_a_number",
  understand: (cell: string, row: number) => Understood<Value>,
): CellReader<Value> {
  const cells = source.table.columns.get(source.name);
  if (cells === undefined) return Object.assign(() => null, { faulty: () => false, present: false });
  const known = new Map<string, Understood<Value>>();
  const look = (row: number): Understood<Value> | null => {
    const cell = cells(row);
    if (cell === "") return null;
    let understood = known.get(cell);
    if (understood === undefined) {
      understood = understand(cell, row);
      if (known.size < REMEMBERED) known.set(cell, understood);
    }
    return understood;
  };
  const reported = new Set<number>();
  const read = (row: number): Value | null => {
    const understood = look(row);
    if (understood === null) return null;
    if (understood.expected !== null && !reported.has(row)) {
      reported.add(row);
      const place = placeOf(source.table, row, source.name);
      source.issues.add(rule, place, understood.expected, cells(row), source.consequence ?? "value_ignored");
    }
    return understood.value;
  };
  return Object.assign(read, { faulty: (row: number) => look(row)?.expected != null, present: true });
}
