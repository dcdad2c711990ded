import { type Gathered, noGathered } from "../gathered.ts";
import type { DeviceResult } from "../model.ts";
import type { OpenTable } from "../tables.ts";
import { attemptsInOrder, type DevicesOf } from "./attempts.ts";
import type { Context } from "./context.ts";
import { copiedEntries } from "./copied-entries.ts";
import type { Device } from "./device.ts";
import { deriveResults } from "./device-results.ts";
import { readDevices } from "./devices.ts";
import { readInterpretations } from "./interpretations.ts";
import { readLineReadings } from "./line-readings.ts";
import { type LineRecords, openTables } from "./line-tables.ts";
import { readLots, readOperators } from "./lots-operators.ts";
import { pairUp } from "./pairing.ts";
import { type Person, readPeople } from "./people.ts";
import { daysOf, readingFacts, sitesOf, usedDevices } from "./reading-facts.ts";
import { completeReadings } from "./readings.ts";
import { readReferenceTests } from "./reference-tests.ts";
import { rereadings } from "./rereadings.ts";
import { retested } from "./retested.ts";
import { readSpecimens } from "./specimens.ts";
import { runAlgorithm } from "./statuses.ts";
import { strataReader } from "./strata.ts";
import { readWideReadings } from "./wide-readings.ts";

/**
 * Reads line-level records: eight tables that hang together by identifiers. Results are derived from
 * the lines by the kit files.
 * @returns `null` where a table that is needed cannot be used; the issues say why
 */
export function readLines(records: LineRecords, open: OpenTable, context: Context): Gathered | null {
  const tables = openTables(records, open, context.study);
  if (tables === null) return null;
  const people = readPeople(tables.participants, context);
  const specimens = readSpecimens(tables.specimens, people, context);
  const lots = tables.lots === null ? null : readLots(tables.lots, context);
  const operators = tables.operators === null ? null : readOperators(tables.operators, context);
  const devices = readDevices(tables.index_tests, { specimens, lots, operators }, context);
  const readings =
    records.wide_readings === undefined
      ? readLineReadings(tables.readings, devices, context)
      : readWideReadings(tables.readings, records.wide_readings.lines, devices, context);
  completeReadings(readings, context);
  deriveResults(devices, readings, context);
  const devicesOf = attemptsInOrder(devices, readings, context);
  const interpretations =
    tables.interpretations === null ? [] : readInterpretations(tables.interpretations, devices, context);
  const reference = readReferenceTests(tables.reference_tests, specimens, context);
  const statusOf = runAlgorithm(people, reference, testedBy(devicesOf, context), context);
  const strataOf = strataReader({ ...tables, lots, operators }, context);
  const sets = pairUp({ people, devicesOf, readings, statusOf, strataOf }, context);
  const counted = [...devices.byId.values()].filter((device) => device.reason === null);
  return {
    ...noGathered(),
    tables: tables.inOrder,
    people: { enrolled: people.enrolled, sites: sitesOf(people) },
    results: resultsOf(counted),
    interpretations,
    rereadings: rereadings(readings),
    sets,
    readings: readingFacts(readings),
    days: daysOf(readings, counted),
    reference: reference.facts,
    copied: copiedEntries(devices, readings, context),
    retested: retested({ people, tests: reference, statusOf }, sets, context),
    devices: usedDevices(counted),
  };
}

/** Every result of every reading, and those of devices that nobody could read. */
function resultsOf(devices: readonly Device[]): DeviceResult[] {
  const results: DeviceResult[] = [];
  for (const device of devices) {
    for (const result of device.recorded ?? []) if (result !== null) results.push(result);
    for (const reading of device.readings) {
      for (const result of reading.results) if (result !== null) results.push(result);
    }
  }
  return results;
}

function testedBy(devicesOf: DevicesOf, { study, kits }: Context) {
  const gave = (device: Device, analyte: number) =>
    device.readings.some((reading) => (reading.results[analyte] ?? null) !== null);
  return (person: Person, analyte: number): boolean =>
    kits.some((kit) =>
      study.specimens.some(({ type }) =>
        devicesOf(person, kit, type).some((device) => gave(device, analyte)),
      ),
    );
}
