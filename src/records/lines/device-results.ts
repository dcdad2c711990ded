import { placeOf } from "../cells.ts";
import type { DeviceResult } from "../model.ts";
import { type LineResult, type LineSeen, lineResult } from "../reading-rules.ts";
import { setAside } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
import type { Devices } from "./devices.ts";
import type { Readings } from "./readings.ts";

/**
 * Derives every reading's result for every analyte of the study by the kit file's rules. Devices
 * with neither a usable reading nor a recorded reason are set aside.
 */
export function deriveResults(devices: Devices, readings: Readings, context: Context): void {
  const lines = linesOf(context);
  for (const reading of readings.list) deriveReading(reading, lines, readings, context);
  for (const device of devices.byId.values()) {
    if (device.reason === null) finishDevice(device, devices, context);
  }
}

interface KitLines {
  readonly control: number;
  /** Lines of each analyte of the study. */
  readonly ofAnalyte: readonly (readonly number[])[];
  /** One bit for each line of the kit. */
  readonly all: number;
}

function linesOf({ kit, study }: Context): KitLines {
  return {
    control: kit.lines.findIndex((line) => line.role === "control"),
    all: 2 ** kit.lines.length - 1,
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
    const derived = lineResult({ control, test }, { faintLine: context.kit.faint_line });
    return deviceResult(reading, derived, at, indices, context);
  });
  if (reading.results.includes(null) && !reading.broken) {
    const missing = context.kit.lines
      .filter((_, index) => reading.seen[index] === null)
      .map((line) => line.id);
    const place = placeOf(readings.table, reading.row, "line_id");
    const expected = `the lines ${context.kit.lines.map((line) => line.id).join(", ")}`;
    context.issues.say("missing_line", place, expected, `no ${missing.join(", no ")}`, "row_set_aside");
  }
  if (used !== lines.all) setUnusedAside(reading, used, lines, readings);
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

function finishDevice(device: Device, devices: Devices, context: Context): void {
  const { issues, study } = context;
  const usable = device.readings.filter((reading) => reading.results.some((result) => result !== null));
  if (usable.length > 0) {
    checkRecorded(device, usable, devices, context);
  } else if (device.recordedInvalid === null) {
    const place = placeOf(devices.table, device.row, "cassette_id");
    issues.add("no_reading", place, "a reading, or an invalid reason", device.id, "row_set_aside");
    device.reason = "no_reading";
    setAside(devices.table, device.row, "no_reading");
  } else {
    device.recorded = study.analytes.map((analyte) => recordedInvalid(device, analyte.id, context));
  }
}

/** A device recorded as invalid that nobody read stands for every reader. */
function recordedInvalid(device: Device, analyte: string, { study }: Context): DeviceResult {
  const { specimen } = device;
  return {
    device: device.id,
    person: specimen.person.id,
    visit: specimen.visit,
    specimen: specimen.type,
    analyte,
    reader: study.readers.primary ?? "recorded",
    method: "eye",
    attempt: device.attempt,
    result: "invalid",
    reason: "recorded_invalid",
    lineWithoutControl: false,
    faint: false,
    window: "unknown",
    minutes: null,
    intensity: null,
    site: specimen.person.site,
    lot: device.lot,
    operator: device.operator,
  };
}

function checkRecorded(
  device: Device,
  usable: readonly Reading[],
  devices: Devices,
  { issues }: Context,
): void {
  const results = usable
    .filter((reading) => reading.method !== "optical")
    .flatMap((reading) => reading.results);
  const place = placeOf(devices.table, device.row, "invalid_reason");
  if (device.recordedInvalid !== null && results.some((result) => result?.reason === "recorded_invalid")) {
    const expected = "no reason where the lines give a valid result";
    issues.add("recorded_invalid_but_lines_valid", place, expected, device.recordedInvalid, "kept");
  }
  const unexplained = device.recordedInvalid === null && devices.table.columns.has("invalid_reason");
  if (unexplained && results.some((result) => result?.result === "invalid")) {
    issues.add(
      "missing_invalid_reason",
      place,
      "a reason where the lines give an invalid result",
      "",
      "kept",
    );
  }
}
