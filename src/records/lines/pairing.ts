import { countedAttempt } from "../counted-attempt.ts";
import type { LineKit } from "../kit.ts";
import { hasLineFor, type KitCell, kitCells } from "../kit-cells.ts";
import type { Pair, PairedSet } from "../model.ts";
import type { DevicesOf } from "./attempts.ts";
import type { Context } from "./context.ts";
import type { People, Person } from "./people.ts";
import { type Attempt, type Reader, readersInUse } from "./readers.ts";
import type { Readings } from "./readings.ts";
import type { StatusOf } from "./statuses.ts";
import type { StrataOf } from "./strata.ts";

export interface PairingSources {
  readonly people: People;
  readonly devicesOf: DevicesOf;
  readonly readings: Readings;
  readonly statusOf: StatusOf;
  readonly strataOf: StrataOf;
}

/**
 * One paired set for each analyte, kit, specimen type and reader: those in use, and after them those
 * whom comparisons name. Every person enrolled is in each.
 */
export function pairUp(sources: PairingSources, context: Context): PairedSet[] {
  const { study, kits } = context;
  const readersOf = new Map(kits.map((kit) => [kit, readersInUse(kit, sources.readings, context)]));
  return kitCells(study, kits, hasLineFor).flatMap((cell) =>
    (readersOf.get(cell.kit) ?? []).map((reader) => pairedSet({ ...cell, reader }, sources, context)),
  );
}

interface Cell extends KitCell<LineKit> {
  readonly reader: Reader;
}

function pairedSet(cell: Cell, sources: PairingSources, context: Context): PairedSet {
  const { reader } = cell;
  const pairs: Pair[] = [];
  let disagreeing = 0;
  for (const person of sources.people.counted) {
    const pair = pairOf(person, cell, sources, context);
    if (pair === null) disagreeing += 1;
    else pairs.push(pair);
  }
  const before = [...sources.people.before];
  if (disagreeing > 0) before.push({ reason: "readers_disagree", people: disagreeing });
  return {
    analyte: cell.analyte,
    kit: cell.kit.id,
    specimen: cell.specimen,
    reader: reader.name,
    method: reader.method,
    pairs,
    before,
  };
}

const NOTHING_MEASURED = {};

/** `null` where the readers disagree and such people are set aside. */
function pairOf(person: Person, cell: Cell, sources: PairingSources, { study }: Context): Pair | null {
  const attempts: Attempt[] = [];
  for (const device of sources.devicesOf(person, cell.kit, cell.specimen)) {
    const attempt = cell.reader.resultOn(device, cell.index);
    if (attempt !== null) attempts.push(attempt);
  }
  const counted = countedAttempt(attempts, study.treatment.repeat);
  if (counted?.disagree) return null;
  const detail = counted?.detail ?? null;
  return {
    person: person.id,
    weight: 1,
    rapid: counted?.result ?? "not_done",
    firstRapid: attempts[0]?.result ?? "not_done",
    invalidReason: counted?.result === "invalid" ? (detail?.reason ?? null) : null,
    faint: detail?.faint ?? false,
    window: detail?.window ?? "unknown",
    minutes: detail?.minutes ?? null,
    reference: sources.statusOf(person, cell.index).status,
    site: person.site,
    selection: person.selection,
    strata: sources.strataOf(person, counted?.device ?? null),
    ...(study.instruments.length === 0
      ? NOTHING_MEASURED
      : { measured: { device: counted?.device.id ?? null, intensity: detail?.intensity ?? null } }),
  };
}
