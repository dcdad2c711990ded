import { consensus } from "../consensus.ts";
import { countedAttempt } from "../counted-attempt.ts";
import type { DeviceResult, Pair, PairedSet, ReadingMethod } from "../model.ts";
import type { DevicesOf } from "./attempts.ts";
import type { Context } from "./context.ts";
import type { Device } from "./device.ts";
import type { People, Person } from "./people.ts";
import type { Readings } from "./readings.ts";
import type { StatusOf } from "./statuses.ts";
import type { StrataOf } from "./strata.ts";

/** Whose results a paired set holds. */
interface Reader {
  readonly name: string;
  readonly method: ReadingMethod;
  /** The reader's result of one analyte (by its place in the study file) on a device. */
  readonly resultOn: (device: Device, analyte: number) => Attempt | null;
}

/** One device's result for pairing. */
interface Attempt {
  readonly device: Device;
  readonly result: DeviceResult["result"];
  readonly detail: DeviceResult;
  readonly disagree: boolean;
}

export interface PairingSources {
  readonly people: People;
  readonly devicesOf: DevicesOf;
  readonly readings: Readings;
  readonly statusOf: StatusOf;
  readonly strataOf: StrataOf;
}

/** One paired set for each analyte, specimen type and reader in use. Every person enrolled is in each. */
export function pairUp(sources: PairingSources, context: Context): PairedSet[] {
  const readers = readersInUse(sources.readings, context);
  const sets: PairedSet[] = [];
  context.study.analytes.forEach((analyte, index) => {
    for (const specimen of context.study.specimens) {
      for (const reader of readers) {
        sets.push(
          pairedSet({ analyte: analyte.id, index, specimen: specimen.type, reader }, sources, context),
        );
      }
    }
  });
  return sets;
}

interface Cell {
  readonly analyte: string;
  readonly index: number;
  readonly specimen: string;
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
    specimen: cell.specimen,
    reader: reader.name,
    method: reader.method,
    pairs,
    before,
  };
}

/** `null` where the readers disagree and such people are set aside. */
function pairOf(person: Person, cell: Cell, sources: PairingSources, { study }: Context): Pair | null {
  const attempts: Attempt[] = [];
  for (const device of sources.devicesOf(person, cell.specimen)) {
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
  };
}

/** The readers whose results are analysed, as the study file says. */
function readersInUse(readings: Readings, { study }: Context): Reader[] {
  const seen = new Map<string, { name: string; method: ReadingMethod }>();
  for (const { reader, method } of readings.list)
    seen.set(`${reader}\u0001${method}`, { name: reader, method });
  const all = [...seen.values()];
  const { use, primary, disagreement } = study.readers;
  if (use === "consensus") return [consensusReader(disagreement)];
  const ofPrimary = all.filter((entry) => entry.name === primary);
  if (use === "primary") {
    const method =
      METHODS.find((candidate) => ofPrimary.some((entry) => entry.method === candidate)) ?? "eye";
    return [singleReader(primary ?? "", method, primary ?? "")];
  }
  const nobody = primary ?? "recorded";
  if (all.length === 0) return [singleReader(nobody, "eye", nobody)];
  const ordered = all.sort((one, other) => rank(one, primary) - rank(other, primary) || byName(one, other));
  const repeated = (name: string) => all.filter((entry) => entry.name === name).length > 1;
  return ordered.map(({ name, method }) => {
    const label = repeated(name) && method !== "eye" ? `${name} (${method})` : name;
    return singleReader(name, method, label);
  });
}

const METHODS = ["eye", "eye_photo", "optical"] as const;

/** The primary reader first, then eyes before instruments. */
function rank(entry: { name: string; method: ReadingMethod }, primary: string | undefined): number {
  return METHODS.indexOf(entry.method) + (entry.name === primary ? 0 : METHODS.length);
}

function byName(one: { name: string }, other: { name: string }): number {
  return one.name === other.name ? 0 : one.name < other.name ? -1 : 1;
}

function singleReader(reader: string, method: ReadingMethod, label: string): Reader {
  return {
    name: label,
    method,
    resultOn: (device, analyte) => {
      const reading = device.readings.find((entry) => entry.reader === reader && entry.method === method);
      const detail = reading?.results[analyte] ?? device.recorded?.[analyte] ?? null;
      return detail === null ? null : { device, result: detail.result, detail, disagree: false };
    },
  };
}

/** All eye readers together; the details are those of the first of them. */
function consensusReader(disagreement: Context["study"]["readers"]["disagreement"]): Reader {
  return {
    name: "consensus",
    method: "eye",
    resultOn: (device, analyte) => {
      const details = device.readings
        .filter((reading) => reading.method !== "optical")
        .map((reading) => reading.results[analyte] ?? null)
        .filter((detail) => detail !== null);
      const first = details[0] ?? device.recorded?.[analyte] ?? null;
      if (first === null) return null;
      const results = details.length === 0 ? [first.result] : details.map((entry) => entry.result);
      const together = consensus(results, disagreement);
      if (together === null) return null;
      if (together === "disagree") return { device, result: first.result, detail: first, disagree: true };
      const detail = details.find((entry) => entry.result === together) ?? first;
      return { device, result: together, detail, disagree: false };
    },
  };
}
