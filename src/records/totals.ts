import type { Gathered } from "./gathered.ts";
import type { RecordTotals } from "./model.ts";

/** The numbers of a study at a glance. */
export function totalsOf(gathered: Gathered): RecordTotals {
  const { devices, results, days } = gathered;
  const withoutControl = new Set<string>();
  for (const { device, lineWithoutControl } of results) {
    if (lineWithoutControl) withoutControl.add(device);
  }
  const named = (values: readonly (string | null)[]) =>
    [...new Set(values.filter((value) => value !== null))].sort();
  return {
    enrolled: gathered.people.enrolled,
    devices: devices.length,
    readings: gathered.readings.total,
    lots: named(devices.map((device) => device.lot)),
    sites: gathered.people.sites,
    operators: named(devices.map((device) => device.operator)).length,
    firstResultOn: days?.[0] ?? null,
    lastResultOn: days?.[1] ?? null,
    lineWithoutControl: withoutControl.size,
    repeats: devices.filter((device) => device.attempt > 1).length,
  };
}
