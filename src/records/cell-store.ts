import type { CsvRecord } from "./csv-records.ts";

/**
 * The wanted cells of a table, as places in its text: a cell becomes a string only when it is asked
 * for. Most columns are looked at once, so that a large table costs eight bytes a cell.
 */
export interface CellStore {
  /** Adds a row; `null` adds one of empty cells. */
  add(record: CsvRecord | null): void;
  /** One cell, trimmed. */
  cell(row: number, slot: number): string;
}

const FIRST_ROWS = 256;

/**
 * @param text the text that the records are places in
 * @param taken which cells of a record are kept, slot by slot
 */
export function cellStore(text: string, taken: readonly number[]): CellStore {
  const slots = taken.length;
  let starts = new Int32Array(FIRST_ROWS * slots);
  let ends = new Int32Array(FIRST_ROWS * slots);
  /** Cells with doubled quotes, which are no plain piece of the text. */
  const replaced = new Map<number, string>();
  let at = 0;
  return {
    add(record) {
      if (at + slots > starts.length) {
        starts = doubled(starts);
        ends = doubled(ends);
      }
      if (record !== null) {
        for (let slot = 0; slot < slots; slot++) {
          const index = taken[slot] ?? 0;
          let start = record.start(index);
          let end = record.end(index);
          while (start < end && isSpace(text.charCodeAt(start))) start += 1;
          while (end > start && isSpace(text.charCodeAt(end - 1))) end -= 1;
          starts[at + slot] = start;
          ends[at + slot] = end;
          const other = record.replaced(index);
          if (other !== undefined) replaced.set(at + slot, other.trim());
        }
      }
      at += slots;
    },
    cell(row, slot) {
      const index = row * slots + slot;
      const other = replaced.size > 0 ? replaced.get(index) : undefined;
      return other ?? text.slice(starts[index], ends[index]);
    },
  };
}

function doubled(numbers: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(numbers.length * 2);
  larger.set(numbers);
  return larger;
}

const NO_BREAK_SPACE = 0xa0;

function isSpace(code: number): boolean {
  return code <= 32 || code === NO_BREAK_SPACE;
}
