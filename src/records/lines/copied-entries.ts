import { placeOf } from "../cells.ts";
import { elapsed, type Moment, moment } from "../moments.ts";
import type { Column, Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
import type { Devices } from "./devices.ts";
import type { Readings } from "./readings.ts";

/** Entries that look copied: how many second readings were compared, and how many are suspect. */
export interface CopiedEntries {
  readonly compared: number;
  readonly suspect: number;
}

/**
 * Second readers whose entry bears the very time of the first reader's, or is earlier by whole
 * minutes (equal seconds): signs of an entry made from the first one's form. Looked for only where
 * entry times have seconds that vary; times to the minute coincide by themselves. Rule of our own
 * (common practice, no source).
 */
export function copiedEntries(devices: Devices, readings: Readings, context: Context): CopiedEntries {
  const entered = readings.table.columns.get("entered_at");
  if (entered === undefined || !secondsVary(readings.table, entered)) return { compared: 0, suspect: 0 };
  let compared = 0;
  let suspect = 0;
  for (const device of devices.byId.values()) {
    if (device.reason !== null) continue;
    const [first, ...others] = byEye(device, context.study.readers.primary);
    if (first === undefined) continue;
    for (const second of others) {
      compared += 1;
      const row = suspectRow(first, second, entered);
      if (row === null) continue;
      suspect += 1;
      const place = placeOf(readings.table, row, "entered_at");
      const expected = `an entry of its own, after that of ${first.reader}`;
      context.issues.add("second_reader_copied", place, expected, entered(row), "kept");
    }
  }
  return { compared, suspect };
}

/** Eye readings of a device, the primary reader's first. */
function byEye(device: Device, primary: string | undefined): Reading[] {
  const eyes = device.readings.filter((reading) => reading.method !== "optical");
  const first = eyes.findIndex((reading) => reading.reader === primary);
  return first > 0 ? [eyes[first] as Reading, ...eyes.filter((_, index) => index !== first)] : eyes;
}

const LOOKED_AT = 500;

function secondsVary(table: Table, entered: Column): boolean {
  let read = 0;
  let withSeconds = 0;
  for (let row = 0; row < table.lines.length && read < LOOKED_AT; row++) {
    const at = moment(entered(row));
    if (at === null) continue;
    read += 1;
    if (at.seconds && secondsOf(at) !== 0) withSeconds += 1;
  }
  return withSeconds * 2 > read;
}

function secondsOf(at: Moment): number {
  return Math.round((at.minutes - Math.floor(at.minutes)) * 60) % 60;
}

function suspectRow(first: Reading, second: Reading, entered: Column): number | null {
  for (const [line, row] of second.rows.entries()) {
    const other = first.rows[line] ?? -1;
    if (row < 0 || other < 0) continue;
    const mine = moment(entered(row));
    const theirs = moment(entered(other));
    if (mine === null || theirs === null) continue;
    const passed = elapsed(theirs, mine);
    if (passed === null || passed.minutes > 0 || !mine.seconds || !theirs.seconds) continue;
    if (secondsOf(mine) === secondsOf(theirs)) return row;
  }
  return null;
}
