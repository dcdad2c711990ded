import { ANALYTES, LINE_OF } from "./scenario.ts";
import type {
  AnalyteId,
  Device,
  Reading,
  Result,
  SiteId,
  Status,
  TestedType,
  Visit,
  World,
} from "./world.ts";

export interface Fourfold {
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  readonly trueNegatives: number;
}

export type Window = "early" | "in" | "late" | "unknown";

/** One person as the study's plan counts them: first visit, first reader, the repeat after an invalid. */
export interface Case {
  readonly site: SiteId;
  readonly has: boolean;
  readonly reference: Status;
  readonly result: Result | "not_done";
  readonly firstInvalid: boolean;
  /** By the recorded time of the counted reading. */
  readonly window: Window;
  readonly device: Device | null;
}

export interface Cell {
  readonly analyte: AnalyteId;
  readonly specimen: TestedType;
  readonly cases: readonly Case[];
}

/**
 * Every person once for each analyte and specimen type, known from the world itself.
 *
 * @param timeUnknown readings whose recorded time is impossible
 */
export function cellsOf(world: World, timeUnknown: ReadonlySet<Reading> = new Set()): Cell[] {
  const byFirst = new Map(
    world.readings.filter(({ reader }) => reader === "R1").map((one) => [one.device, one]),
  );
  const visits = world.visits.filter(
    ({ number, person }) => number === 1 && person.alreadyEnrolledAs === null,
  );
  return (["venous_whole_blood", "fingerstick"] as const).flatMap((specimen) => {
    const counted = countedDevices(world, specimen);
    return ANALYTES.map((analyte) => ({
      analyte,
      specimen,
      cases: visits.map((visit) => {
        const devices = counted.get(visit) ?? null;
        const reading = devices === null ? null : (byFirst.get(devices.last) ?? null);
        return caseOf(world, analyte, visit, { devices, reading, timeUnknown });
      }),
    }));
  });
}

interface Devices {
  readonly first: Device;
  readonly last: Device;
}

/** The first device of each visit, and the one that counts: the repeat only where the first was invalid. */
function countedDevices(world: World, type: TestedType): Map<Visit, Devices> {
  const counted = new Map<Visit, Devices>();
  for (const device of world.devices.filter(({ specimen }) => specimen.type === type)) {
    const known = counted.get(device.visit);
    if (known === undefined) counted.set(device.visit, { first: device, last: device });
    else if (known.first.cause !== null) counted.set(device.visit, { first: known.first, last: device });
  }
  return counted;
}

function caseOf(
  world: World,
  analyte: AnalyteId,
  visit: Visit,
  tested: {
    readonly devices: Devices | null;
    readonly reading: Reading | null;
    readonly timeUnknown: ReadonlySet<Reading>;
  },
): Case {
  const { devices, reading, timeUnknown } = tested;
  return {
    site: visit.person.site,
    has: visit.person.has[analyte],
    reference: world.reference.get(visit)?.[analyte] ?? "not_done",
    result: reading?.result[LINE_OF[analyte]] ?? "not_done",
    firstInvalid: devices !== null && devices.first.cause !== null,
    window: reading === null || timeUnknown.has(reading) ? "unknown" : windowOf(reading),
    device: devices?.last ?? null,
  };
}

/** By the recorded second: 15 to 20 minutes after the buffer, both included. */
function windowOf({ readAt, device }: Reading): Window {
  if (readAt === null) return "unknown";
  const seconds = readAt - device.bufferAt;
  if (seconds < 15 * 60) return "early";
  return seconds > 20 * 60 ? "late" : "in";
}

/** Valid results against a status; people of any other status, and invalid results, are left out. */
export function fourfold(cases: readonly Case[], status: (one: Case) => Status): Fourfold {
  const count = (result: Result, wanted: Status) =>
    cases.filter((one) => one.result === result && status(one) === wanted).length;
  return {
    truePositives: count("reactive", "positive"),
    falsePositives: count("reactive", "negative"),
    falseNegatives: count("nonreactive", "positive"),
    trueNegatives: count("nonreactive", "negative"),
  };
}

export const byReference = (one: Case): Status => one.reference;
export const byCondition = (one: Case): Status => (one.has ? "positive" : "negative");
