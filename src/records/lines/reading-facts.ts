import type { Gathered, UsedDevice } from "../gathered.ts";
import type { Device } from "./device.ts";
import type { People } from "./people.ts";
import type { Readings } from "./readings.ts";

/** Sites of the people who count, in alphabetical order. */
export function sitesOf(people: People): string[] {
  return [...new Set(people.counted.map((person) => person.site).filter((site) => site !== null))].sort();
}

/** How many readings there are, second ones too, and how many first ones were not blinded. */
export function readingFacts(readings: Readings): Gathered["readings"] {
  let total = 0;
  let notBlinded = 0;
  let blindingStated = 0;
  for (const reading of readings.list) {
    if (reading.device.reason !== null) continue;
    total += 1;
    if (reading.blinded !== null) blindingStated += 1;
    if (reading.blinded === false) notBlinded += 1;
  }
  for (const { second } of readings.again) if (second.device.reason === null) total += 1;
  return { total, notBlinded, blindingStated };
}

/** First and last day of a result: of the reading where it is dated, else of the device. */
export function daysOf(readings: Readings, devices: readonly Device[]): readonly [string, string] | null {
  const readAt = readings.table.columns.get("read_at");
  let first: string | null = null;
  let last: string | null = null;
  const see = (day: string | null) => {
    if (day === null) return;
    if (first === null || day < first) first = day;
    if (last === null || day > last) last = day;
  };
  for (const device of devices) {
    let dated = false;
    for (const { row } of device.readings) {
      const day = /^\d{4}-\d{2}-\d{2}/.exec(readAt?.(row) ?? "")?.[0] ?? null;
      if (day !== null) dated = true;
      see(day);
    }
    if (!dated) see(device.appliedAt?.day ?? null);
  }
  return first === null || last === null ? null : [first, last];
}

/** What lots, operators and repeats are counted from. */
export function usedDevices(devices: readonly Device[]): UsedDevice[] {
  return devices.map(({ kit, lot, operator, attempt, specimen }) => ({
    kit: kit.id,
    lot,
    operator,
    attempt,
    site: specimen.person.site,
  }));
}
