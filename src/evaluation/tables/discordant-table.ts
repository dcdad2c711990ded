import type { DeviceResult, Pair, PairedSet, StudyRecords } from "../../records/model.ts";
import { cellOf, evaluatedSets } from "../cells.ts";
import type { Cell, Table } from "../csv.ts";
import { CELL_COLUMNS, cellColumns } from "./columns.ts";

const COLUMNS = [
  ...CELL_COLUMNS,
  "person",
  "people",
  "rapid",
  "reference",
  "faint",
  "window",
  "minutes",
  "intensity",
  "device",
  "attempt",
  "site",
  "lot",
  "operator",
];

/**
 * Every person whose valid rapid result disagrees with the reference, by study code: what a monitor
 * looks up first. Nothing here changes a result: discordant results are listed, never resolved.
 */
export function discordantTable(records: StudyRecords): Table {
  const rows = evaluatedSets(records).flatMap((set) => {
    const devices = devicesOf(records, set);
    return set.pairs
      .filter(isDiscordant)
      .map((pair) => [...cellColumns(cellOf(set)), ...rowOf(pair, countedDevice(devices, pair))]);
  });
  return { name: "discordant", columns: COLUMNS, rows };
}

function isDiscordant({ rapid, reference }: Pair): boolean {
  return (
    (rapid === "reactive" && reference === "negative") ||
    (rapid === "nonreactive" && reference === "positive")
  );
}

function devicesOf(records: StudyRecords, set: PairedSet): ReadonlyMap<string, readonly DeviceResult[]> {
  const byPerson = new Map<string, DeviceResult[]>();
  for (const result of records.results) {
    if (result.analyte !== set.analyte || result.specimen !== set.specimen) continue;
    if (result.reader !== set.reader) continue;
    const devices = byPerson.get(result.person);
    if (devices === undefined) byPerson.set(result.person, [result]);
    else devices.push(result);
  }
  return byPerson;
}

/** The device that the pair was made of: the one with the pair's result and minutes. */
function countedDevice(
  devices: ReadonlyMap<string, readonly DeviceResult[]>,
  pair: Pair,
): DeviceResult | undefined {
  return devices
    .get(pair.person)
    ?.find((device) => device.result === pair.rapid && device.minutes === pair.minutes);
}

function rowOf(pair: Pair, device: DeviceResult | undefined): Cell[] {
  return [
    pair.person,
    pair.weight,
    pair.rapid,
    pair.reference,
    pair.faint,
    pair.window,
    pair.minutes,
    device?.intensity ?? null,
    device?.device ?? null,
    device?.attempt ?? null,
    pair.site,
    device?.lot ?? null,
    device?.operator ?? null,
  ];
}
