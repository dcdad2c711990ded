import { readFileSync } from "node:fs";
import { expect } from "vitest";
import { relativeError } from "../tolerance.ts";

/** One row of a table of `tests/reference/oracles/`: its text, and its cells by column name. */
export interface OracleRow {
  readonly text: string;
  number(column: string): number;
  word(column: string): string;
}

/** One number to be held against a table. */
export interface Check {
  readonly row: string;
  readonly actual: number;
  readonly expected: number;
}

/** The rows of a table; `#` lines are comments, the first other line names the columns unless `columns` does. */
export function readOracle(table: string, columns?: readonly string[]): OracleRow[] {
  const text = readFileSync(new URL(`../reference/oracles/${table}`, import.meta.url), "utf8");
  const lines = text.split("\n").filter((line) => line !== "" && !line.startsWith("#"));
  const names = columns ?? (lines.shift() as string).split(",");
  return lines.map((line) => rowOf(line, names));
}

function rowOf(text: string, names: readonly string[]): OracleRow {
  const cells = new Map(text.split(",").map((cell, index) => [names[index], cell]));
  const word = (column: string) => {
    const cell = cells.get(column);
    if (cell === undefined) throw new Error(`no column ${column} in ${text}`);
    return cell;
  };
  return { text, word, number: (column) => numberOf(word(column)) };
}

function numberOf(cell: string): number {
  if (cell === "Inf") return Number.POSITIVE_INFINITY;
  return cell === "-Inf" ? Number.NEGATIVE_INFINITY : Number(cell);
}

export function tailOf(row: OracleRow): "lower" | "upper" {
  return row.word("lower_tail") === "TRUE" ? "lower" : "upper";
}

/** Numbers nearer to 0 than this are held by absolute distance: doubles have fewer digits there, or none. */
const NOTHING = 1e-300;

/**
 * How far a number is from a table's. Where the table gives less than 1e-300 (or 0, which for R may mean
 * "below the smallest double") the other must be below that too; infinite stands for more than 1e300.
 */
function errorOf({ actual, expected }: Check): number {
  if (Math.abs(expected) < NOTHING) return Math.abs(actual) < NOTHING ? 0 : Number.POSITIVE_INFINITY;
  if (!Number.isFinite(expected) && Math.sign(actual) === Math.sign(expected)) {
    return Math.abs(actual) > 1 / NOTHING ? 0 : Number.POSITIVE_INFINITY;
  }
  return relativeError(actual, expected);
}

/** Fails with the worst row, unless every row is as close as asked. At least `rows` of them are needed. */
export function expectAll(what: string, checks: readonly Check[], relative: number, rows: number): void {
  expect(checks.length, `${what}: number of rows`).toBeGreaterThanOrEqual(rows);
  const ranked = checks.map((check) => ({ ...check, error: errorOf(check) }));
  const outside = ranked.filter(({ error }) => !(error <= relative));
  if (outside.length === 0) return;
  const worst = outside.reduce((one, other) => (other.error > one.error ? other : one));
  expect.fail(
    `${what}: ${outside.length} of ${checks.length} rows are off by more than ${relative}; worst ` +
      `${worst.error.toExponential(2)} in "${worst.row}": expected ${worst.expected}, received ${worst.actual}`,
  );
}
