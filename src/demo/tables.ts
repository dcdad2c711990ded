import { dateOf, timestamp } from "./calendar.ts";
import { OPERATORS } from "./operators.ts";
import { ANALYTE_OF, LINES, LOTS } from "./scenario.ts";
import type { Device, Person, Reading, ReferenceRun, Visit, World } from "./world.ts";

/** One row on its way to a CSV file: column to text. An empty text is a missing value. */
export type Row = Record<string, string>;

export interface Table {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: Row[];
}

export type TableName =
  | "participants"
  | "specimens"
  | "index_tests"
  | "line_readings"
  | "interpretations"
  | "reference_tests"
  | "lots"
  | "operators";

/** Which row a thing became: faults are planted, and lines counted, by these. */
export interface RowsOf {
  readonly person: ReadonlyMap<Person, Row>;
  readonly device: ReadonlyMap<Device, Row>;
  readonly reading: ReadonlyMap<Reading, readonly Row[]>;
}

export interface Written {
  readonly tables: Readonly<Record<TableName, Table>>;
  readonly rowsOf: RowsOf;
}

/** The records of a world, still without any planted fault of writing. */
export function writeTables(world: World): Written {
  const person = new Map(world.people.map((one) => [one, participantRow(one)]));
  const device = new Map(world.devices.map((one) => [one, deviceRow(one)]));
  const reading = new Map(world.readings.map((one) => [one, readingRows(one)]));
  const rowsOf = { person, device, reading };
  const tables = {
    participants: table("participants", [...person.values()]),
    specimens: table("specimens", world.visits.flatMap(specimenRows)),
    index_tests: table("index_tests", [...device.values()]),
    line_readings: table("line_readings", [...reading.values()].flat()),
    interpretations: table("interpretations", world.typed.flatMap(typedRows)),
    reference_tests: table("reference_tests", world.runs.map(referenceRow)),
    lots: table("lots", LOTS.map(lotRow)),
    operators: table("operators", OPERATORS.map(operatorRow)),
  };
  return { tables, rowsOf };
}

function table(name: TableName, rows: Row[]): Table {
  return { name, columns: Object.keys(rows[0] ?? {}), rows };
}

/** CSV after RFC 4180 with `\n`; no cell of the invented world needs quotes. */
export function csvText({ columns, rows }: Table): string {
  const lines = rows.map((row) => columns.map((column) => row[column] ?? "").join(","));
  return `${[columns.join(","), ...lines].join("\n")}\n`;
}

function participantRow(person: Person): Row {
  return {
    participant_id: person.id,
    site_id: person.site,
    arm_id: person.arm,
    enrolment_date: dateOf(person.day),
    selection: person.arm === "A" ? "consecutive" : "enriched",
    age_band: person.ageBand,
    sex: person.sex,
    pregnant: person.pregnant,
    reason_for_testing: person.reason,
    consent: "true",
    eligible: "true",
    exclusion_reason: "",
    person_key: person.key,
  };
}

function specimenRows(visit: Visit): Row[] {
  const row = (specimen_id: string, specimen_type: string, at: number, quality: string): Row => ({
    specimen_id,
    participant_id: visit.person.id,
    visit_no: String(visit.number),
    specimen_type,
    collected_at: timestamp(at),
    quality,
  });
  return [
    row(visit.plasma.id, "plasma", visit.plasma.collectedAt, "ok"),
    ...visit.tested.map(({ id, type, collectedAt, quality }) => row(id, type, collectedAt, quality)),
  ];
}

function deviceRow(device: Device): Row {
  const unspoken = device.lineWithoutControl || device.typedNonreactive;
  return {
    cassette_id: device.id,
    specimen_id: device.specimen.id,
    kit_id: "KIT-Q",
    lot_id: device.lot,
    operator_id: device.visit.operator,
    attempt_no: String(device.attempt),
    repeat_of: device.repeatOf?.id ?? "",
    pouch_opened_at: timestamp(device.openedAt),
    specimen_applied_at: timestamp(device.appliedAt),
    buffer_applied_at: timestamp(device.bufferAt),
    buffer_drops: String(device.drops),
    room_temp_c: device.temperature.toFixed(1),
    room_rh_pct: String(device.humidity),
    invalid_reason: unspoken ? "" : (device.cause ?? ""),
  };
}

/** One row for each line of a reading. */
export function readingRows(reading: Reading): Row[] {
  const { device, reader, intensity } = reading;
  const row = (line: "C" | "T1" | "T2", seen: string): Row => ({
    cassette_id: device.id,
    line_id: line,
    reader_id: reader,
    method: reader === "OR" ? "optical" : "eye",
    read_at: reading.readAt === null ? "" : timestamp(reading.readAt),
    line_seen: intensity === null ? seen : "",
    intensity: intensity === null ? "" : String(intensity[line]),
    blinded: "true",
    entered_at: reading.enteredAt === null ? "" : timestamp(reading.enteredAt),
  });
  return [row("C", reading.control), row("T1", reading.seen.T1), row("T2", reading.seen.T2)];
}

function typedRows({ device, result }: World["typed"][number]): Row[] {
  return LINES.map((line) => ({
    cassette_id: device.id,
    reader_id: "R1",
    analyte_id: ANALYTE_OF[line],
    result_typed: result[line],
  }));
}

function referenceRow(run: ReferenceRun): Row {
  return {
    specimen_id: run.specimen,
    analyte_id: run.analyte,
    assay_id: run.assay,
    step_no: String(run.step),
    run_at: timestamp(run.runAt),
    run_id: run.run,
    ref_result: run.result,
    ref_value: run.value === null ? "" : String(run.value),
    ref_unit: run.unit ?? "",
    lab_id: run.lab,
    blinded_to_index: String(!run.triggeredByIndex),
    triggered_by_index: String(run.triggeredByIndex),
  };
}

function lotRow({ lot, expiry, received, quantity }: (typeof LOTS)[number]): Row {
  return { lot_id: lot, kit_id: "KIT-Q", expiry, received_on: received, qty: String(quantity) };
}

function operatorRow(operator: (typeof OPERATORS)[number]): Row {
  return {
    operator_id: operator.id,
    site_id: operator.site,
    cadre: operator.cadre,
    trained_on: operator.trainedOn,
    panel_items: String(operator.panelItems),
    panel_correct: String(operator.panelCorrect),
  };
}
