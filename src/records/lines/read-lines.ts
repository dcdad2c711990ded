import { type Gathered, noGathered } from "../gathered.ts";
import type { DeviceResult } from "../model.ts";
import type { Study } from "../study.ts";
import type { Table } from "../table.ts";
import type { OpenTable } from "../tables.ts";
import { attemptsInOrder, type DevicesOf } from "./attempts.ts";
import { type Context, strataColumns } from "./context.ts";
import { copiedEntries } from "./copied-entries.ts";
import type { Device } from "./device.ts";
import { deriveResults } from "./device-results.ts";
import { DEVICE_COLUMNS, readDevices } from "./devices.ts";
import { INTERPRETATION_COLUMNS, readInterpretations } from "./interpretations.ts";
import { LINE_READING_COLUMNS, readLineReadings } from "./line-readings.ts";
import { LOT_COLUMNS, OPERATOR_COLUMNS, readLots, readOperators } from "./lots-operators.ts";
import { pairUp } from "./pairing.ts";
import { PEOPLE_COLUMNS, type People, type Person, readPeople } from "./people.ts";
import { completeReadings, type Readings } from "./readings.ts";
import { REFERENCE_COLUMNS, readReferenceTests } from "./reference-tests.ts";
import { retested } from "./retested.ts";
import { readSpecimens, SPECIMEN_COLUMNS } from "./specimens.ts";
import { runAlgorithm } from "./statuses.ts";
import { strataReader } from "./strata.ts";
import { readWideReadings, WIDE_COLUMNS } from "./wide-readings.ts";

type LineRecords = Extract<Study["records"], { shape: "lines" }>;

/**
 * Reads line-level records: eight tables that hang together by identifiers. Results are derived from
 * the lines by the kit file.
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
    results: counted.flatMap(resultsOf),
    interpretations,
    sets,
    readings: readingFacts(readings),
    days: daysOf(readings, counted),
    reference: reference.facts,
    copied: copiedEntries(devices, readings, context),
    retested: retested({ people, tests: reference, statusOf }, sets, context),
    devices: counted.map(({ lot, operator, attempt, specimen }) => ({
      lot,
      operator,
      attempt,
      site: specimen.person.site,
    })),
  };
}

interface LineTables {
  readonly participants: Table;
  readonly specimens: Table;
  readonly index_tests: Table;
  readonly readings: Table;
  readonly interpretations: Table | null;
  readonly reference_tests: Table;
  readonly lots: Table | null;
  readonly operators: Table | null;
  readonly inOrder: readonly Table[];
}

/** Opens every table, so that all faults of files are seen at once. */
function openTables(records: LineRecords, open: OpenTable, study: Study): LineTables | null {
  const wanted = (columns: { required: string[]; optional: string[] }, table: string) => ({
    required: columns.required,
    optional: [...columns.optional, ...strataColumns(study, table)],
  });
  const wide = records.wide_readings;
  const wideColumns = {
    ...WIDE_COLUMNS,
    required: [...WIDE_COLUMNS.required, ...Object.values(wide?.lines ?? {})],
  };
  const participants = open(records.participants, wanted(PEOPLE_COLUMNS, "participants"));
  const specimens = open(records.specimens, wanted(SPECIMEN_COLUMNS, "specimens"));
  const index_tests = open(records.index_tests, wanted(DEVICE_COLUMNS, "index_tests"));
  const readings =
    wide === undefined
      ? open(records.line_readings ?? "", LINE_READING_COLUMNS)
      : open(wide.table, wideColumns);
  const reference_tests = open(records.reference_tests, REFERENCE_COLUMNS);
  const further = (file: string | undefined, columns: { required: string[]; optional: string[] }) =>
    file === undefined ? null : open(file, columns);
  const interpretations = further(records.interpretations, INTERPRETATION_COLUMNS);
  const lots = further(records.lots, wanted(LOT_COLUMNS, "lots"));
  const operators = further(records.operators, wanted(OPERATOR_COLUMNS, "operators"));
  if (participants === null || specimens === null || index_tests === null) return null;
  if (readings === null || reference_tests === null) return null;
  const all = [
    participants,
    specimens,
    index_tests,
    readings,
    interpretations,
    reference_tests,
    lots,
    operators,
  ];
  const inOrder = all.filter((table) => table !== null);
  return {
    participants,
    specimens,
    index_tests,
    readings,
    interpretations,
    reference_tests,
    lots,
    operators,
    inOrder,
  };
}

function resultsOf(device: Device): DeviceResult[] {
  const read = device.readings.flatMap((reading) => reading.results.filter((result) => result !== null));
  return read.length === 0 ? [...(device.recorded ?? [])] : read;
}

function testedBy(devicesOf: DevicesOf, { study }: Context) {
  return (person: Person, analyte: number): boolean =>
    study.specimens.some((specimen) =>
      devicesOf(person, specimen.type).some((device) =>
        device.readings.some((reading) => (reading.results[analyte] ?? null) !== null),
      ),
    );
}

function sitesOf(people: People): string[] {
  return [...new Set(people.counted.map((person) => person.site).filter((site) => site !== null))].sort();
}

function readingFacts(readings: Readings) {
  let total = 0;
  let notBlinded = 0;
  let blindingStated = 0;
  for (const reading of readings.list) {
    if (reading.device.reason !== null) continue;
    total += 1;
    if (reading.blinded !== null) blindingStated += 1;
    if (reading.blinded === false) notBlinded += 1;
  }
  return { total, notBlinded, blindingStated };
}

/** First and last day of a result: of the reading where it is dated, else of the device. */
function daysOf(readings: Readings, devices: readonly Device[]): readonly [string, string] | null {
  const readAt = readings.table.columns.get("read_at");
  let first: string | null = null;
  let last: string | null = null;
  const see = (day: string | null) => {
    if (day === null) return;
    if (first === null || day < first) first = day;
    if (last === null || day > last) last = day;
  };
  for (const device of devices) {
    let dated = false;
    for (const { row } of device.readings) {
      const day = /^\d{4}-\d{2}-\d{2}/.exec(readAt?.(row) ?? "")?.[0] ?? null;
      if (day !== null) dated = true;
      see(day);
    }
    if (!dated) see(device.appliedAt?.day ?? null);
  }
  return first === null || last === null ? null : [first, last];
}
