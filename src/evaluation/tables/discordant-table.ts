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
  "device",
  "attempt",
  "other_readers",
  "intensity",
  "site",
  "lot",
  "operator",
];

/**
 * Every person whose valid rapid result disagrees with the reference, by study code: what a monitor
 * looks up first, with what the other readers of the same device gave. Nothing here changes a result:
 * discordant results are listed, never resolved.
 */
export function discordantTable(records: StudyRecords): Table {
  const byPerson = indexed(records.results, (result) => placeOf(result.analyte, result.person));
  const rows = evaluatedSets(records).flatMap((set) =>
    set.pairs.filter(isDiscordant).map((pair) => {
      const results = byPerson.get(placeOf(set.analyte, pair.person)) ?? [];
      return [...cellColumns(cellOf(set)), ...rowOf(pair, set, results)];
    }),
  );
  return { name: "discordant", columns: COLUMNS, rows };
}

const placeOf = (analyte: string, person: string) => `${analyte}\u0000${person}`;

function isDiscordant({ rapid, reference }: Pair): boolean {
  return (
    (rapid === "reactive" && reference === "negative") ||
    (rapid === "nonreactive" && reference === "positive")
  );
}

function indexed<Item>(items: readonly Item[], keyOf: (item: Item) => string): ReadonlyMap<string, Item[]> {
  const index = new Map<string, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const found = index.get(key);
    if (found === undefined) index.set(key, [item]);
    else found.push(item);
  }
  return index;
}

function rowOf(pair: Pair, set: PairedSet, results: readonly DeviceResult[]): Cell[] {
  const counted = results.find(
    (result) =>
      result.kit === set.kit &&
      result.specimen === set.specimen &&
      (result.reader === set.reader || set.reader === "consensus") &&
      result.result === pair.rapid &&
      result.minutes === pair.minutes,
  );
  const beside = results.filter(
    (result) => result.device === counted?.device && result.reader !== set.reader,
  );
  return [
    pair.person,
    pair.weight,
    pair.rapid,
    pair.reference,
    pair.faint,
    pair.window,
    pair.minutes,
    counted?.device ?? null,
    counted?.attempt ?? null,
    beside.map(({ reader, result, faint }) => `${reader} ${result}${faint ? " (faint)" : ""}`).join("; "),
    [counted, ...beside].find((result) => typeof result?.intensity === "number")?.intensity ?? null,
    pair.site,
    counted?.lot ?? null,
    counted?.operator ?? null,
  ];
}
