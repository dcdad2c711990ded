import { placeOf } from "../cells.ts";
import { consensus } from "../consensus.ts";
import type { Context } from "../context.ts";
import { countedAttempt } from "../counted-attempt.ts";
import type { Pair, PairedSet, RapidResult, ReferenceStatus, SetAside } from "../model.ts";
import { setAside, type Table } from "../table.ts";
import type { ResultRecords, ResultRow } from "./result-row.ts";

export interface PairedResults {
  /** Rows that count. */
  readonly rows: readonly ResultRow[];
  readonly sets: readonly PairedSet[];
  readonly enrolled: number;
}

interface Someone {
  readonly id: string;
  readonly first: ResultRow;
  /** By analyte: the first reference result that was done. */
  readonly reference: ReferenceStatus[];
  /** Attempts by specimen type and reader. */
  readonly attempts: Map<string, ResultRow[]>;
}

/** Puts the rows of each person together and makes one paired set per analyte, specimen type and reader. */
export function pairResults(
  table: Table,
  rows: readonly ResultRow[],
  records: ResultRecords,
  context: Context,
): PairedResults {
  const kept = rows.filter((row) => row.reason === null);
  const people = gather(table, kept, records, context);
  const before = lostPeople(table, people, records);
  const readers = readersOf(kept, records, context);
  const sets = context.study.analytes.flatMap((analyte, index) =>
    context.study.specimens.flatMap(({ type }) =>
      readers.map((reader): PairedSet => {
        const cell = {
          analyte: analyte.id,
          specimen: type,
          reader: reader.name,
          method: "recorded" as const,
        };
        const pairs: Pair[] = [];
        let disagreeing = 0;
        for (const person of people.values()) {
          const pair = pairOf(person, index, type, reader.of, context);
          if (pair === null) disagreeing += 1;
          else pairs.push(pair);
        }
        const disagreed = disagreeing === 0 ? [] : [{ reason: "readers_disagree", people: disagreeing }];
        return { ...cell, pairs, before: [...before, ...disagreed] };
      }),
    ),
  );
  const lost = before.reduce((sum, entry) => sum + entry.people, 0);
  return { rows: kept.filter((row) => table.fates[row.row] === null), sets, enrolled: people.size + lost };
}

function gather(
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
      attempts: new Map<string, ResultRow[]>(),
    };
    const rule = repeatedUse(row, person, devices);
    if (rule !== null) {
      const [name, column] =
        rule === "second_result"
          ? [row.person, records.columns.person]
          : [row.device, records.columns.device];
      const stays = rule === "device_for_two_people";
      const consequence = stays ? "kept" : "row_set_aside";
      const expected =
        rule === "second_result" ? "a repeat only after an invalid result" : "a device used once";
      context.issues.add(rule, placeOf(table, row.row, column ?? null), expected, name, consequence);
      if (!stays) {
        setAside(table, row.row, rule);
        continue;
      }
    }
    if (known === undefined) people.set(row.person, person);
    else mergeReference(table, row, person, records, context);
    addAttempt(person, row);
  }
  return people;
}

function keyOf(row: Pick<ResultRow, "specimen" | "reader">): string {
  return `${row.specimen}\u0001${row.reader}`;
}

function addAttempt(person: Someone, row: ResultRow): void {
  const list = person.attempts.get(keyOf(row));
  if (list === undefined) person.attempts.set(keyOf(row), [row]);
  else {
    list.push(row);
    row.attempt = list.length;
  }
}

/** Whether the row repeats what is there already, and how. */
function repeatedUse(row: ResultRow, person: Someone, devices: Map<string, ResultRow>) {
  if (row.device !== null) {
    const key = `${row.device}\u0001${row.reader}`;
    const other = devices.get(key);
    if (other !== undefined)
      return other.person === row.person ? "duplicate_device" : "device_for_two_people";
    devices.set(key, row);
  }
  const earlier = person.attempts.get(keyOf(row)) ?? [];
  if (earlier.length === 0) return null;
  return earlier.some((attempt) => attempt.rapid.includes("invalid")) ? null : "second_result";
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

/**
 * People of whom no row counts. A row whose person cannot be known (ragged, blank identifier) stands
 * for one person.
 */
function lostPeople(table: Table, people: ReadonlyMap<string, Someone>, records: ResultRecords): SetAside[] {
  const cells = records.columns.person === undefined ? undefined : table.columns.get(records.columns.person);
  const reasons = new Map<string, number>();
  const seen = new Set<string>();
  table.fates.forEach((reason, row) => {
    if (reason === null || reason === "blank_row") return;
    const name = cells?.(row) ?? "";
    if (name !== "" && (people.has(name) || seen.has(name))) return;
    if (name !== "") seen.add(name);
    reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
  });
  const list = [...reasons].map(([reason, number]) => ({ reason, people: number }));
  return list.sort((one, other) => (one.reason < other.reason ? -1 : 1));
}

interface Reader {
  readonly name: string;
  readonly of: readonly string[];
}

/** The readers whose sets are made; a consensus has several, without a reader column there is just one. */
function readersOf(rows: readonly ResultRow[], records: ResultRecords, { study }: Context): Reader[] {
  if (records.columns.reader === undefined) return [{ name: "recorded", of: ["recorded"] }];
  const names = [...new Set(rows.map((row) => row.reader))].sort();
  const { use, primary } = study.readers;
  if (use === "consensus") return [{ name: "consensus", of: names }];
  if (use === "primary") return [{ name: primary ?? "", of: [primary ?? ""] }];
  if (names.length === 0) return [{ name: primary ?? "recorded", of: [] }];
  const first = names.filter((name) => name === primary);
  return [...first, ...names.filter((name) => name !== primary)].map((name) => ({ name, of: [name] }));
}

interface Counted {
  readonly result: RapidResult;
  readonly row: ResultRow;
}

function pairOf(
  person: Someone,
  analyte: number,
  specimen: string,
  readers: readonly string[],
  { study }: Context,
): Pair | null {
  const perReader = readers.map((reader) => attemptsOf(person, analyte, specimen, reader));
  const counted = perReader
    .map((attempts) => countedAttempt(attempts, study.treatment.repeat))
    .filter((attempt) => attempt !== null);
  const firsts = perReader.flatMap((attempts) => attempts.slice(0, 1));
  const { disagreement } = study.readers;
  const together = consensus(
    counted.map((attempt) => attempt.result),
    disagreement,
  );
  if (together === "disagree") return null;
  const first = consensus(
    firsts.map((attempt) => attempt.result),
    disagreement,
  );
  const shown = counted.find((attempt) => attempt.result === together) ?? counted[0];
  const facts = shown?.row ?? person.first;
  return {
    person: person.id,
    weight: 1,
    rapid: together ?? "not_done",
    firstRapid: first === "disagree" ? (together ?? "not_done") : (first ?? "not_done"),
    invalidReason: together === "invalid" ? "recorded_invalid" : null,
    faint: false,
    window: shown?.row.window ?? "unknown",
    minutes: shown?.row.minutes ?? null,
    reference: person.reference[analyte] ?? "not_done",
    site: facts.site,
    selection: facts.selection,
    strata: facts.strata,
  };
}

function attemptsOf(person: Someone, analyte: number, specimen: string, reader: string): Counted[] {
  const rows = person.attempts.get(keyOf({ specimen, reader })) ?? [];
  return rows.flatMap((row) => {
    const result = row.rapid[analyte] ?? "not_done";
    return result === "not_done" ? [] : [{ result, row }];
  });
}
