import { stringify } from "yaml";
import type { InputFile } from "../../src/records/model.ts";

/**
 * Small line-level studies in memory, for tests. A study has two analytes, A1 on line T1 and A2 on
 * line T2, control line C, a window of 15 to 20 minutes from the specimen. Everything is invented.
 */
export type Row = Record<string, string>;

export interface Tables {
  participants: Row[];
  specimens: Row[];
  index_tests: Row[];
  line_readings: Row[];
  interpretations: Row[];
  reference_tests: Row[];
  lots: Row[];
  operators: Row[];
}

export interface PersonPlan {
  readonly id: string;
  readonly site?: string;
  readonly arm?: string;
  /** Status of each analyte that the reference shall give; absent: no reference test. */
  readonly reference?: Readonly<Record<string, "positive" | "negative" | "indeterminate">>;
  readonly devices?: readonly DevicePlan[];
  readonly participant?: Row;
}

export interface DevicePlan {
  readonly id?: string;
  readonly specimen?: string;
  readonly visit?: number;
  readonly attempt?: number;
  readonly lot?: string;
  readonly row?: Row;
  readonly readings?: readonly ReadingPlan[];
}

interface ReadingPlan {
  readonly reader?: string;
  /** What is seen of C, T1 and T2, or of K and L of the other kit: `clear`, `absent` …; a number is an intensity. */
  readonly lines: readonly (string | number)[];
  /** Minutes from the specimen; `null` leaves `read_at` empty. */
  readonly minutes?: number | null;
  readonly row?: Row;
}

export interface StudyPlan {
  readonly people: readonly PersonPlan[];
  readonly study?: Record<string, unknown>;
  readonly kit?: Record<string, unknown>;
  /** Whether the study has the other kit, kit-y, besides; or how that one differs. */
  readonly other?: boolean | Record<string, unknown>;
  /** Changes the tables before they are written. */
  readonly edit?: (tables: Tables) => void;
}

/** Columns that stand in every table, also in one without rows. */
const HEADERS: Readonly<Record<keyof Tables, readonly string[]>> = {
  participants: ["participant_id"],
  specimens: ["specimen_id", "participant_id", "specimen_type"],
  index_tests: ["cassette_id", "specimen_id"],
  line_readings: ["cassette_id", "line_id", "reader_id"],
  interpretations: ["cassette_id", "reader_id", "analyte_id", "result_typed"],
  reference_tests: ["specimen_id", "analyte_id", "assay_id", "ref_result"],
  lots: ["lot_id"],
  operators: ["operator_id"],
};

const LINES = ["C", "T1", "T2"] as const;
const OTHER_LINES = ["K", "L"] as const;
const START = Date.UTC(2026, 3, 10, 9, 0);

/** The files of a line-level study: study.yaml, kit.yaml and the tables. */
export function buildStudy(plan: StudyPlan): InputFile[] {
  const tables = buildTables(plan.people);
  plan.edit?.(tables);
  const files = Object.entries(tables).map(([name, rows]) => {
    return textFile(`${name}.csv`, csvOf(rows as Row[], ",", HEADERS[name as keyof Tables]));
  });
  const { other = false } = plan;
  const kits = other === false ? {} : { kit: undefined, kits: ["kit.yaml", "kit-y.yaml"] };
  const changed = typeof other === "boolean" ? {} : other;
  return [
    textFile("study.yaml", stringify({ ...studyPlan(), ...kits, ...plan.study })),
    textFile("kit.yaml", stringify({ ...kitPlan(), ...plan.kit })),
    ...(other === false ? [] : [textFile("kit-y.yaml", stringify({ ...otherKitPlan(), ...changed }))]),
    ...files,
  ];
}

export function textFile(name: string, text: string): InputFile {
  return { name, bytes: new TextEncoder().encode(text) };
}

export function kitPlan(): Record<string, unknown> {
  return {
    format: "fourfold-kit/1",
    id: "kit-x",
    title: "Kit X",
    lines: [
      { id: "C", role: "control" },
      { id: "T1", role: "test", analyte: "A1" },
      { id: "T2", role: "test", analyte: "A2" },
    ],
    specimens: [{ type: "venous", volume_ul: { from: 18, to: 22 } }, { type: "fingerstick" }],
    timed_from: "specimen_applied",
    reading_window: { from_minutes: 15, to_minutes: 20 },
    faint_line: "reactive",
    repeat: { max_attempts: 2 },
    buffer_drops: { from: 2, to: 4 },
    temperature_c: { from: 15, to: 30 },
    use_within_minutes: 60,
    instrument: { title: "Reader", unit: "units", cutoffs: { C: 10, T1: 10, T2: 12 } },
    source: { title: "Instructions of Kit X" },
  };
}

/** Another kit: A1 only, lines K and L, venous blood, no repeats, an earlier window, faint lines don't count. */
export function otherKitPlan(): Record<string, unknown> {
  return {
    format: "fourfold-kit/1",
    id: "kit-y",
    title: "Kit Y",
    lines: [
      { id: "L", role: "test", analyte: "A1" },
      { id: "K", role: "control" },
    ],
    specimens: [{ type: "venous" }],
    timed_from: "buffer_applied",
    reading_window: { from_minutes: 5, to_minutes: 10 },
    faint_line: "nonreactive",
    repeat: { max_attempts: 1 },
    instrument: { title: "Reader", unit: "units", cutoffs: { K: 50, L: 50 } },
    source: { title: "Instructions of Kit Y" },
  };
}

export function studyPlan(): Record<string, unknown> {
  const reference = {
    title: "EIA, then a confirming assay",
    role: "reference_standard",
    discrepancies: "none settled outside the algorithm",
    algorithm: [
      { assay: "EIA", leads_to: { reactive: "CONF", nonreactive: "negative" } },
      {
        assay: "CONF",
        leads_to: { reactive: "positive", nonreactive: "negative", indeterminate: "indeterminate" },
      },
    ],
  };
  return {
    format: "fourfold-study/1",
    id: "study-x",
    title: "Study X",
    status: "draft",
    dates: { first: "2026-04-01", last: "2026-04-30" },
    kit: "kit.yaml",
    sites: [
      { id: "S1", title: "Site one" },
      { id: "S2", title: "Site two" },
    ],
    arms: [{ id: "main", title: "All comers", selection: "consecutive" }],
    analytes: [
      { id: "A1", title: "Analyte one", reference },
      { id: "A2", title: "Analyte two", reference },
    ],
    specimens: [
      { type: "venous", title: "Venous blood" },
      { type: "fingerstick", title: "Fingerstick blood" },
    ],
    readers: { use: "primary", primary: "R1" },
    treatment: { invalid: "set_aside", outside_window: "keep", repeat: "any" },
    interval: { method: "clopper_pearson", level: 0.95 },
    seed: 1,
    records: {
      shape: "lines",
      participants: "participants.csv",
      specimens: "specimens.csv",
      index_tests: "index_tests.csv",
      line_readings: "line_readings.csv",
      interpretations: "interpretations.csv",
      reference_tests: "reference_tests.csv",
      lots: "lots.csv",
      operators: "operators.csv",
    },
  };
}

function buildTables(people: readonly PersonPlan[]): Tables {
  const tables: Tables = {
    participants: [],
    specimens: [],
    index_tests: [],
    line_readings: [],
    interpretations: [],
    reference_tests: [],
    lots: ["LOT1", "LOT2"].map((lot_id) => ({ lot_id, kit_id: "kit-x", expiry: "2027-01-31" })),
    operators: [{ operator_id: "OP1", site_id: "S1", cadre: "nurse" }],
  };
  people.forEach((person, index) => {
    addPerson(tables, person, START + index * 20 * 60_000);
  });
  return tables;
}

function addPerson(tables: Tables, person: PersonPlan, start: number): void {
  tables.participants.push({
    participant_id: person.id,
    site_id: person.site ?? "S1",
    arm_id: person.arm ?? "main",
    enrolment_date: "2026-04-10",
    consent: "true",
    eligible: "true",
    exclusion_reason: "",
    person_key: "",
    sex: "unknown",
    ...person.participant,
  });
  const specimens = new Set<string>();
  const specimen = (type: string, visit: number): string => {
    const id = `${person.id}-${type}-${visit}`;
    if (!specimens.has(id)) {
      specimens.add(id);
      tables.specimens.push({
        specimen_id: id,
        participant_id: person.id,
        visit_no: String(visit),
        specimen_type: type,
        collected_at: clock(start),
      });
    }
    return id;
  };
  (person.devices ?? []).forEach((device, index) => {
    const id = specimen(device.specimen ?? "venous", device.visit ?? 1);
    addDevice(tables, device, device.id ?? `${person.id}-d${index + 1}`, id, start);
  });
  for (const [analyte, status] of Object.entries(person.reference ?? {})) {
    const plasma = specimen("plasma", 1);
    for (const [assay, result] of componentResults(status)) {
      tables.reference_tests.push({
        specimen_id: plasma,
        analyte_id: analyte,
        assay_id: assay,
        step_no: assay === "EIA" ? "1" : "2",
        run_at: clock(start),
        run_id: "run-1",
        ref_result: result,
        lab_id: "LAB",
        blinded_to_index: "true",
        triggered_by_index: "false",
      });
    }
  }
}

function componentResults(status: "positive" | "negative" | "indeterminate"): [string, string][] {
  if (status === "negative") return [["EIA", "nonreactive"]];
  return [
    ["EIA", "reactive"],
    ["CONF", status === "positive" ? "reactive" : "indeterminate"],
  ];
}

function addDevice(tables: Tables, device: DevicePlan, id: string, specimen: string, start: number): void {
  tables.index_tests.push({
    cassette_id: id,
    specimen_id: specimen,
    kit_id: "kit-x",
    lot_id: device.lot ?? "LOT1",
    operator_id: "OP1",
    attempt_no: String(device.attempt ?? 1),
    repeat_of: "",
    pouch_opened_at: clock(start - 5 * 60_000),
    specimen_applied_at: clock(start),
    buffer_applied_at: clock(start + 60_000),
    specimen_volume_ul: "20",
    buffer_drops: "3",
    room_temp_c: "22",
    room_rh_pct: "50",
    invalid_reason: "",
    deviation: "",
    ...device.row,
  });
  for (const reading of device.readings ?? []) addReading(tables, reading, id, start);
}

function addReading(tables: Tables, reading: ReadingPlan, device: string, start: number): void {
  const minutes = reading.minutes === undefined ? 17 : reading.minutes;
  const readAt = minutes === null ? "" : clock(start + minutes * 60_000);
  const names = reading.lines.length === LINES.length ? LINES : OTHER_LINES;
  reading.lines.forEach((seen, index) => {
    const optical = typeof seen === "number";
    tables.line_readings.push({
      cassette_id: device,
      line_id: names[index] as string,
      reader_id: reading.reader ?? "R1",
      method: optical ? "optical" : "eye",
      reading_no: "1",
      read_at: readAt,
      line_seen: optical ? "" : seen,
      intensity: optical ? String(seen) : "",
      blinded: "true",
      entered_at: clock(start + 30 * 60_000 + 17_000 + (reading.reader === "R2" ? 95_000 : 0)),
      ...reading.row,
    });
  });
}

/** Local time of the study, two hours east of UTC. */
function clock(time: number): string {
  return `${new Date(time).toISOString().slice(0, 19)}+02:00`;
}

/** Writes rows as CSV; columns in order of first appearance; cells in quotes where they need them. */
export function csvOf(rows: readonly Row[], delimiter = ",", first: readonly string[] = []): string {
  const header = [...new Set([...first, ...rows.flatMap((row) => Object.keys(row))])];
  const cell = (text: string) => (/["\r\n,;\t]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  const lines = [header, ...rows.map((row) => header.map((name) => row[name] ?? ""))];
  return `${lines.map((line) => line.map(cell).join(delimiter)).join("\n")}\n`;
}
