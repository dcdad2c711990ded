import { placeOf } from "../cells.ts";
import type { Context } from "../context.ts";
import { accepts } from "../kit-cells.ts";
import type { Consequence, ReferenceStatus } from "../model.ts";
import { setAside, type Table } from "../table.ts";
import type { KitResults, ResultRecords, ResultRow } from "./result-row.ts";

/** One person of a results table. */
export interface Someone {
  readonly id: string;
  readonly first: ResultRow;
  /** By analyte: the first reference result that was done. */
  readonly reference: ReferenceStatus[];
  /** Attempts by kit, specimen type and reader. */
  readonly attempts: Map<string, Attempt[]>;
}

interface Attempt {
  readonly row: ResultRow;
  readonly results: KitResults;
}

/** The people of the rows, each with the attempts that count; rows that don't are set aside. */
export function gatherPeople(
  table: Table,
  rows: readonly ResultRow[],
  records: ResultRecords,
  context: Context,
): Map<string, Someone> {
  const people = new Map<string, Someone>();
  const devices = new Map<string, ResultRow>();
  for (const row of rows) {
    const known = people.get(row.person);
    const person = known ?? {
      id: row.person,
      first: row,
      reference: [...row.reference],
      attempts: new Map<string, Attempt[]>(),
    };
    const counted = countedKits(table, row, { person, devices, records, context });
    if (counted === null) continue;
    if (known === undefined) people.set(row.person, person);
    else mergeReference(table, row, person, records, context);
    for (const results of counted) addAttempt(person, row, results);
  }
  return people;
}

interface Known {
  readonly person: Someone;
  readonly devices: Map<string, ResultRow>;
  readonly records: ResultRecords;
  readonly context: Context;
}

/**
 * The kits of a row whose results count. Repeats are judged kit by kit; the row is set aside (`null`)
 * where nothing of it counts.
 */
function countedKits(table: Table, row: ResultRow, known: Known): KitResults[] | null {
  const done = row.kits.filter((results) => results.done);
  const looked = done.length > 0 ? done : row.kits.slice(0, 1);
  const repeated = looked.map(
    (results) =>
      refusedSpecimen(row, results, known.context) ?? repeatedUse(row, results, known.person, known.devices),
  );
  const stays = repeated.map((rule) => rule === null || rule === "device_for_two_people");
  const lost = !stays.includes(true);
  repeated.forEach((rule, at) => {
    if (rule === null) return;
    const consequence = stays[at] ? "kept" : lost ? "row_set_aside" : "value_ignored";
    speakOf(rule, table, row, known, consequence);
    if (lost) setAside(table, row.row, rule);
  });
  return lost ? null : looked.filter((results, at) => stays[at] && results.done);
}

type Rejection = "specimen_not_of_kit" | "duplicate_device" | "device_for_two_people" | "second_result";

function speakOf(
  rule: Rejection,
  table: Table,
  row: ResultRow,
  { records, context }: Known,
  consequence: Consequence,
): void {
  const { columns } = records;
  const at = {
    specimen_not_of_kit: [columns.specimen, "a specimen type of the kit file", row.specimen],
    duplicate_device: [columns.device, "a device used once", row.device],
    device_for_two_people: [columns.device, "a device used once", row.device],
    second_result: [columns.person, "a repeat only after an invalid result", row.person],
  } as const;
  const [column, expected, received] = at[rule];
  context.issues.add(rule, placeOf(table, row.row, column ?? null), expected, received, consequence);
}

/** Results of a kit on a specimen type that its file does not name. */
function refusedSpecimen(row: ResultRow, results: KitResults, { kits }: Context): Rejection | null {
  const kit = kits.find(({ id }) => id === results.kit);
  const refused = results.done && kit !== undefined && !accepts(kit, row.specimen);
  return refused ? "specimen_not_of_kit" : null;
}

/** Attempts of one person belong together by this key. */
export function attemptKey(
  kit: string,
  { specimen, reader }: Pick<ResultRow, "specimen" | "reader">,
): string {
  return `${kit}\u0001${specimen}\u0001${reader}`;
}

function addAttempt(person: Someone, row: ResultRow, results: KitResults): void {
  const key = attemptKey(results.kit, row);
  const list = person.attempts.get(key) ?? [];
  if (list.length === 0) person.attempts.set(key, list);
  list.push({ row, results });
  results.attempt = list.length;
}

/** Whether a kit's results of the row repeat what is there already, and how. */
function repeatedUse(
  row: ResultRow,
  { kit }: KitResults,
  person: Someone,
  devices: Map<string, ResultRow>,
): Rejection | null {
  if (row.device !== null) {
    const key = `${row.device}\u0001${row.reader}\u0001${kit}`;
    const other = devices.get(key);
    if (other !== undefined)
      return other.person === row.person ? "duplicate_device" : "device_for_two_people";
    devices.set(key, row);
  }
  const earlier = person.attempts.get(attemptKey(kit, row)) ?? [];
  if (earlier.length === 0) return null;
  return earlier.some(({ results }) => results.rapid.includes("invalid")) ? null : "second_result";
}

function mergeReference(
  table: Table,
  row: ResultRow,
  person: Someone,
  records: ResultRecords,
  { study, issues }: Context,
): void {
  row.reference.forEach((status, index) => {
    const had = person.reference[index];
    if (status === "not_done" || status === had) return;
    if (had === "not_done") person.reference[index] = status;
    else {
      const id = study.analytes[index]?.id;
      const column = records.analytes.find((entry) => entry.analyte === id)?.reference ?? null;
      const place = placeOf(table, row.row, column);
      issues.add("reference_differs", place, `${had}, as in the person's first row`, status, "value_ignored");
    }
  });
}
