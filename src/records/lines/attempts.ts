import { placeOf } from "../cells.ts";
import type { LineKit } from "../kit.ts";
import { setAside } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device } from "./device.ts";
import type { Devices } from "./devices.ts";
import type { Person } from "./people.ts";
import type { Readings } from "./readings.ts";

/** Each person's devices of one kit and specimen type, first attempt first. */
export type DevicesOf = (person: Person, kit: LineKit, specimen: string) => readonly Device[];

/**
 * Groups devices by person, kit and specimen type in the order of attempts. A further device although
 * none before it gave an invalid result is set aside, with its readings: repeats are for invalids.
 */
export function attemptsInOrder(devices: Devices, readings: Readings, context: Context): DevicesOf {
  const byCell = new Map<LineKit, Map<string, Device[][]>>(context.kits.map((kit) => [kit, new Map()]));
  for (const device of devices.byId.values()) {
    if (device.reason !== null) continue;
    const { person, type } = device.specimen;
    const byType = byCell.get(device.kit);
    const byPerson = byType?.get(type) ?? [];
    if (byPerson.length === 0) byType?.set(type, byPerson);
    const list = byPerson[person.index];
    if (list === undefined) byPerson[person.index] = [device];
    else list.push(device);
  }
  for (const byType of byCell.values()) {
    for (const byPerson of byType.values()) {
      byPerson.forEach((list, index) => {
        if (list.length > 1) byPerson[index] = justified(list, devices, readings, context);
      });
    }
  }
  return (person, kit, specimen) => byCell.get(kit)?.get(specimen)?.[person.index] ?? NONE;
}

const NONE: readonly Device[] = [];

function justified(list: Device[], devices: Devices, readings: Readings, context: Context): Device[] {
  list.sort((one, other) => one.attempt - other.attempt || one.row - other.row);
  const kept: Device[] = [];
  for (const device of list) {
    if (kept.length === 0 || kept.some(gaveInvalid)) {
      kept.push(device);
      continue;
    }
    const place = placeOf(devices.table, device.row, "attempt_no");
    const expected = "a repeat only after an invalid result";
    context.issues.add("repeat_without_invalid", place, expected, device.attempt, "row_set_aside");
    device.reason = "repeat_without_invalid";
    setAside(devices.table, device.row, device.reason);
    for (const reading of [...device.readings, ...device.again]) {
      for (const row of reading.rows) if (row >= 0) setAside(readings.table, row, device.reason);
    }
  }
  return kept;
}

function gaveInvalid(device: Device): boolean {
  if (device.recordedInvalid !== null) return true;
  return device.readings.some((reading) => reading.results.some((result) => result?.result === "invalid"));
}
