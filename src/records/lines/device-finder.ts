import { placeOf, texts } from "../cells.ts";
import { patientSuggestion } from "../nearest.ts";
import { setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device } from "./device.ts";
import type { Devices } from "./devices.ts";

/**
 * Finds the device that a row's `cassette_id` names. Rows without a device, or of one that was set
 * aside, are set aside too: with an issue of their own only where the device's row has none.
 */
export function deviceFinder(table: Table, devices: Devices, { issues }: Context) {
  const id = texts(table, "cassette_id");
  const hint = patientSuggestion(devices.byId);
  let lastName: string | null = null;
  let last: Device | undefined;
  return (row: number): Device | null => {
    const name = id(row);
    if (name === null) {
      issues.add("blank_identifier", placeOf(table, row, "cassette_id"), "a device", "", "row_set_aside");
      setAside(table, row, "blank_identifier");
      return null;
    }
    if (name !== lastName) {
      lastName = name;
      last = devices.byId.get(name);
    }
    if (last !== undefined && last.reason === null) return last;
    const known = last?.reason ?? devices.faulty.get(name);
    if (known === undefined) {
      const expected = `a device of the index tests table${hint(name)}`;
      issues.add("unknown_device", placeOf(table, row, "cassette_id"), expected, name, "row_set_aside");
    }
    setAside(table, row, known ?? "unknown_device");
    return null;
  };
}
