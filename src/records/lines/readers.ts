import { comparedReaders } from "../comparison-sides.ts";
import { consensus } from "../consensus.ts";
import type { LineKit } from "../kit.ts";
import type { DeviceResult, ReadingMethod } from "../model.ts";
import type { Context } from "./context.ts";
import type { Device } from "./device.ts";
import type { Readings } from "./readings.ts";

/** Whose results a paired set holds. */
export interface Reader {
  readonly name: string;
  readonly method: ReadingMethod;
  /** The reader's result of one analyte (by its place in the study file) on a device. */
  readonly resultOn: (device: Device, analyte: number) => Attempt | null;
}

/** One device's result for pairing. */
export interface Attempt {
  readonly device: Device;
  readonly result: DeviceResult["result"];
  readonly detail: DeviceResult;
  readonly disagree: boolean;
}

/**
 * The readers of a kit whose results are analysed, as the study file says; then those whom only its
 * comparisons, latent class models or instruments name, where they read.
 */
export function readersInUse(kit: LineKit, readings: Readings, { study }: Context): Reader[] {
  const all = readersSeen(kit, readings);
  const asked = readersAsked(all, study);
  const { disagreement } = study.readers;
  const further = comparedReaders(study)
    .filter((name) => !asked.some((reader) => reader.name === name))
    .flatMap((name) => {
      if (name === "consensus") return [consensusReader(disagreement)];
      return named(all, study.readers.primary).filter((reader) => reader.name === name);
    });
  return [...asked, ...further];
}

interface Seen {
  readonly name: string;
  readonly method: ReadingMethod;
}

/** Who read the kit's devices, and how. */
function readersSeen(kit: LineKit, readings: Readings): Seen[] {
  const seen = new Map<string, Seen>();
  for (const { device, reader, method } of readings.list) {
    if (device.kit === kit) seen.set(`${reader}\u0001${method}`, { name: reader, method });
  }
  return [...seen.values()];
}

function readersAsked(all: readonly Seen[], { readers }: Context["study"]): Reader[] {
  const { use, primary, disagreement } = readers;
  if (use === "consensus") return [consensusReader(disagreement)];
  if (use === "primary") {
    const ofPrimary = all.filter((entry) => entry.name === primary);
    const method =
      METHODS.find((candidate) => ofPrimary.some((entry) => entry.method === candidate)) ?? "eye";
    return [singleReader(primary ?? "", method, primary ?? "")];
  }
  const nobody = primary ?? "recorded";
  return all.length === 0 ? [singleReader(nobody, "eye", nobody)] : named(all, primary);
}

/** Readers by name; one who read by eye and by instrument is two, the instrument in brackets. */
function named(all: readonly Seen[], primary: string | undefined): Reader[] {
  const ordered = [...all].sort(
    (one, other) => rank(one, primary) - rank(other, primary) || byName(one, other),
  );
  const repeated = (name: string) => all.filter((entry) => entry.name === name).length > 1;
  return ordered.map(({ name, method }) => {
    const label = repeated(name) && method !== "eye" ? `${name} (${method})` : name;
    return singleReader(name, method, label);
  });
}

const METHODS = ["eye", "eye_photo", "optical"] as const;

/** The primary reader first, then eyes before instruments. */
function rank(entry: Seen, primary: string | undefined): number {
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
