import { placeOf } from "../cells.ts";
import type { LineKit } from "../kit.ts";
import type { DeviceResult } from "../model.ts";
import { type LineResult, type LineSeen, lineResult } from "../reading-rules.ts";
import { isCounted, setAside } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
import type { Devices } from "./devices.ts";
import { finishDevice } from "./finish-device.ts";
import type { Again, Readings } from "./readings.ts";

/**
 * Derives every reading's result for every analyte that the device's kit shows, by the rules of its
 * kit file. Devices with neither a usable reading nor a recorded reason are set aside.
 */
export function deriveResults(devices: Devices, readings: Readings, context: Context): void {
  const lines = new Map(context.kits.map((kit) => [kit, linesOf(kit, context)]));
  const linesFor = ({ kit }: Device) => lines.get(kit) ?? linesOf(kit, context);
  for (const reading of readings.list) deriveReading(reading, linesFor(reading.device), readings, context);
  for (const pair of readings.again) {
    const ofKit = linesFor(pair.second.device);
    deriveReading(pair.second, ofKit, readings, context);
    setIncomparableAside(pair, ofKit, readings, context);
  }
  for (const device of devices.byId.values()) {
    if (device.reason === null) finishDevice(device, devices, context);
  }
}

interface KitLines {
  readonly control: number;
  /** Lines of each analyte of the study; none where the kit does not show it. */
  readonly ofAnalyte: readonly (readonly number[])[];
  /** One bit for each line of the kit. */
  readonly all: number;
}

function linesOf(kit: LineKit, { study }: Context): KitLines {
  return {
    control: kit.lines.findIndex((line) => line.role === "control"),
    all: Math.pow(2, kit.lines.length) - 1,
    ofAnalyte: study.analytes.map((analyte) =>
      kit.lines.flatMap((line, index) =>
        line.role === "test" && line.analyte === analyte.id ? [index] : [],
      ),
    ),
  };
}

function deriveReading(reading: Reading, lines: KitLines, readings: Readings, context: Context): void {
  const control = reading.seen[lines.control] ?? null;
  let used = 0;
  reading.results = lines.ofAnalyte.map((indices, at) => {
    const test = strongest(reading, indices);
    if (control === null || test === null) return null;
    used |= 1 << lines.control;
    for (const index of indices) used |= 1 << index;
    const derived = lineResult({ control, test }, { faintLine: reading.device.kit.faint_line });
    return deviceResult(reading, derived, at, indices, context);
  });
  if (reading.results.includes(null) && !reading.broken && lacksLine(reading, lines)) {
    const ofKit = reading.device.kit.lines;
    const missing = ofKit.filter((_, index) => reading.seen[index] === null).map((line) => line.id);
    const place = placeOf(readings.table, reading.row, "line_id");
    const expected = `the lines ${ofKit.map((line) => line.id).join(", ")}`;
    context.issues.say("missing_line", place, expected, `no ${missing.join(", no ")}`, "row_set_aside");
  }
  if (used !== lines.all) setUnusedAside(reading, used, lines, readings);
}

/** Whether a line is missing; an analyte that the kit does not show has none to miss. */
function lacksLine(reading: Reading, lines: KitLines): boolean {
  return reading.results.some((result, at) => result === null && lines.ofAnalyte[at]?.length !== 0);
}

/** Rows of a second reading that can't be held against the first, which gave no result of their analyte. */
function setIncomparableAside(
  { first, second }: Again,
  lines: KitLines,
  { table }: Readings,
  { issues }: Context,
): void {
  const compared = new Set<number>();
  second.results.forEach((result, at) => {
    if (result === null || (first.results[at] ?? null) === null) return;
    for (const index of [lines.control, ...(lines.ofAnalyte[at] ?? [])]) {
      compared.add(second.rows[index] ?? -1);
    }
  });
  const lost = second.rows.filter((row) => row >= 0 && !compared.has(row) && isCounted(table, row));
  if (lost.length === 0) return;
  const place = placeOf(table, lost[0] ?? second.row, "reading_no");
  const expected = "a first reading that gives a result";
  issues.add("later_reading", place, expected, second.number, "row_set_aside");
  for (const row of lost) setAside(table, row, "later_reading");
}

/** Rows none of whose lines gave a result. */
function setUnusedAside(reading: Reading, used: number, lines: KitLines, readings: Readings): void {
  const rowsUsed = new Set(reading.rows.filter((_, index) => (used & (1 << index)) !== 0));
  const studied = new Set([lines.control, ...lines.ofAnalyte.flat()]);
  reading.rows.forEach((row, index) => {
    if (row < 0 || rowsUsed.has(row)) return;
    setAside(readings.table, row, studied.has(index) ? "missing_line" : "analyte_not_studied");
  });
}

/** Several lines of one analyte: the most visible one; unreadable where none is seen and one unreadable. */
function strongest(reading: Reading, indices: readonly number[]): LineSeen | null {
  const order: readonly LineSeen[] = ["absent", "unreadable", "faint", "clear"];
  let best: LineSeen | null = null;
  for (const index of indices) {
    const seen = reading.seen[index] ?? null;
    if (seen === null) return null;
    if (best === null || order.indexOf(seen) > order.indexOf(best)) best = seen;
  }
  return best;
}

function deviceResult(
  reading: Reading,
  derived: LineResult,
  analyte: number,
  indices: readonly number[],
  context: Context,
): DeviceResult {
  const { device } = reading;
  const recorded = derived.result !== "invalid" && device.recordedInvalid !== null;
  const { specimen } = device;
  return {
    device: device.id,
    person: specimen.person.id,
    visit: specimen.visit,
    specimen: specimen.type,
    analyte: context.study.analytes[analyte]?.id ?? "",
    kit: device.kit.id,
    reader: reading.reader,
    method: reading.method,
    attempt: device.attempt,
    result: recorded ? "invalid" : derived.result,
    reason: recorded ? "recorded_invalid" : derived.reason,
    lineWithoutControl: derived.lineWithoutControl,
    faint: derived.faint,
    window: reading.window,
    minutes: reading.minutes,
    intensity: strongestIntensity(reading, indices),
    site: specimen.person.site,
    lot: device.lot,
    operator: device.operator,
  };
}

function strongestIntensity(reading: Reading, indices: readonly number[]): number | null {
  if (reading.intensity === null) return null;
  let most: number | null = null;
  for (const index of indices) {
    const intensity = reading.intensity[index] ?? null;
    if (intensity !== null && (most === null || intensity > most)) most = intensity;
  }
  return most;
}
