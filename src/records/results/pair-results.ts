import { consensus } from "../consensus.ts";
import type { Context } from "../context.ts";
import { countedAttempt } from "../counted-attempt.ts";
import type { Kit } from "../kit.ts";
import { type KitCell, kitCells, showsAnalyte } from "../kit-cells.ts";
import type { Measured, Pair, PairedSet, RapidResult, SetAside, WindowStatus } from "../model.ts";
import type { Table } from "../table.ts";
import { attemptKey, gatherPeople, type Someone } from "./gather-people.ts";
import { type ResultReader, resultReaders } from "./result-readers.ts";
import type { ResultRecords, ResultRow } from "./result-row.ts";

export interface PairedResults {
  /** Rows that count. */
  readonly rows: readonly ResultRow[];
  readonly sets: readonly PairedSet[];
  readonly enrolled: number;
}

/** Puts the rows of each person together and makes one paired set per analyte, kit, specimen type and reader. */
export function pairResults(
  table: Table,
  rows: readonly ResultRow[],
  records: ResultRecords,
  context: Context,
): PairedResults {
  const { study, kits } = context;
  const kept = rows.filter((row) => row.reason === null);
  const people = gatherPeople(table, kept, records, context);
  const before = lostPeople(table, people, records);
  const readersOf = new Map(kits.map((kit) => [kit, resultReaders(kept, kit.id, records, study)]));
  const shows = (kit: Kit, analyte: string) => showsAnalyte(study, kits, kit, analyte);
  const sets = kitCells(study, kits, shows).flatMap((cell) =>
    (readersOf.get(cell.kit) ?? []).map((reader) => pairedSet({ ...cell, reader }, people, before, context)),
  );
  const lost = before.reduce((sum, entry) => sum + entry.people, 0);
  return { rows: kept.filter((row) => table.fates[row.row] === null), sets, enrolled: people.size + lost };
}

interface Cell extends KitCell<Kit> {
  readonly reader: ResultReader;
}

function pairedSet(
  cell: Cell,
  people: ReadonlyMap<string, Someone>,
  before: readonly SetAside[],
  context: Context,
): PairedSet {
  const pairs: Pair[] = [];
  let disagreeing = 0;
  for (const person of people.values()) {
    const pair = pairOf(person, cell, context);
    if (pair === null) disagreeing += 1;
    else pairs.push(pair);
  }
  const disagreed = disagreeing === 0 ? [] : [{ reason: "readers_disagree", people: disagreeing }];
  return {
    analyte: cell.analyte,
    kit: cell.kit.id,
    specimen: cell.specimen,
    reader: cell.reader.name,
    method: "recorded",
    pairs,
    before: [...before, ...disagreed],
  };
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

interface Counted {
  readonly result: RapidResult;
  readonly row: ResultRow;
  readonly window: WindowStatus;
  readonly measured: Measured;
}

const NOTHING_MEASURED = {};
const NOWHERE: Measured = { device: null, intensity: null };

/** `null` where the readers disagree and such people are set aside. */
function pairOf(person: Someone, cell: Cell, { study }: Context): Pair | null {
  const perReader = cell.reader.of.map((reader) => attemptsOf(person, cell, reader));
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
    window: shown?.window ?? "unknown",
    minutes: shown?.row.minutes ?? null,
    reference: person.reference[cell.index] ?? "not_done",
    site: facts.site,
    selection: facts.selection,
    strata: facts.strata,
    ...(study.instruments.length === 0 ? NOTHING_MEASURED : { measured: shown?.measured ?? NOWHERE }),
  };
}

function attemptsOf(person: Someone, { kit, specimen, index }: Cell, reader: string): Counted[] {
  const attempts = person.attempts.get(attemptKey(kit.id, { specimen, reader })) ?? [];
  return attempts.flatMap(({ row, results }) => {
    const result = results.rapid[index] ?? "not_done";
    if (result === "not_done") return [];
    // Without a device column all readers' rows of one attempt speak of one device.
    const device = row.device ?? `attempt ${results.attempt}`;
    const measured = { device, intensity: results.values[index] ?? null };
    return [{ result, row, window: results.window, measured }];
  });
}
