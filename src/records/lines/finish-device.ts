import { placeOf } from "../cells.ts";
import { hasLineFor } from "../kit-cells.ts";
import type { DeviceResult } from "../model.ts";
import { setAside } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device, Reading } from "./device.ts";
import type { Devices } from "./devices.ts";

/** Sets a device aside that nobody read and that is not recorded as invalid; checks what was recorded. */
export function finishDevice(device: Device, devices: Devices, context: Context): void {
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
    device.recorded = study.analytes.map(({ id }) =>
      hasLineFor(device.kit, id) ? recordedInvalid(device, id, context) : null,
    );
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
    kit: device.kit.id,
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
