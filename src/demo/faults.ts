import { dateOf, STUDY_DAYS, secondsOf, timestamp } from "./calendar.ts";
import { type Draws, drawsOf } from "./draws.ts";
import { LOTS } from "./scenario.ts";
import type { Row, TableName, Written } from "./tables.ts";
import type { Device, Reading, World } from "./world.ts";

export type FaultKind =
  | "duplicate_cassette"
  | "read_before_applied"
  | "fahrenheit"
  | "expired_lot"
  | "person_enrolled_twice"
  | "second_reader_copied"
  | "drops_out_of_range"
  | "repeat_without_invalid"
  | "line_without_control"
  | "reference_without_specimen"
  | "date_outside_study"
  | "triggered_by_index";

/** How many of each are planted. The lot used at one site only is planted by the sites' lots. */
export const PLANTED: Readonly<Record<FaultKind, number>> = {
  duplicate_cassette: 4,
  read_before_applied: 6,
  fahrenheit: 5,
  expired_lot: 3,
  person_enrolled_twice: 2,
  second_reader_copied: 7,
  drops_out_of_range: 8,
  repeat_without_invalid: 3,
  line_without_control: 5,
  reference_without_specimen: 2,
  date_outside_study: 4,
  triggered_by_index: 9,
};

/** One planted fault: the rows that show it, and the column to look at. */
export interface Fault {
  readonly kind: FaultKind;
  readonly table: TableName;
  readonly column: string;
  readonly rows: readonly Row[];
  /** Study code of what it concerns. */
  readonly id: string;
  /** Set where the fault makes the minutes to a reading unknown. */
  readonly reading?: Reading;
}

const MINUTE = 60;

/** Writes the faults of record keeping into the tables, and says where all of them are. */
export function plantFaults(seed: number, world: World, written: Written): Fault[] {
  const draws = drawsOf(seed, "faults");
  const ground = new Ground(draws, world);
  return [
    ...plantDuplicates(ground, written),
    ...plantEarlyClock(ground, written),
    ...plantFahrenheit(ground, written),
    ...plantExpired(ground, written),
    ...plantCopies(ground, written, world),
    ...plantDrops(ground, written),
    ...plantStrayReference(written),
    ...plantWrongYears(draws, written, world),
    ...alreadyInTheWorld(written, world),
  ];
}

/** First devices of first visits, valid, each for one fault at most. */
class Ground {
  private readonly free: Set<Device>;
  constructor(
    readonly draws: Draws,
    world: World,
  ) {
    const repeated = new Set(world.devices.map((device) => device.repeatOf));
    this.free = new Set(
      world.devices.filter(
        (device) =>
          device.attempt === 1 &&
          device.cause === null &&
          device.visit.number === 1 &&
          device.visit.person.alreadyEnrolledAs === null &&
          !repeated.has(device),
      ),
    );
  }

  take(kind: FaultKind, fits: (device: Device) => boolean = () => true): Device[] {
    const taken = this.draws.sample([...this.free].filter(fits), PLANTED[kind]);
    for (const device of taken) this.free.delete(device);
    return taken;
  }
}

function deviceRowOf({ rowsOf }: Written, device: Device): Row {
  return rowsOf.device.get(device) as Row;
}

/** The same device entered twice: the second row stands at the end of the table. */
function plantDuplicates(ground: Ground, written: Written): Fault[] {
  return ground.take("duplicate_cassette").map((device) => {
    const again = { ...deviceRowOf(written, device) };
    written.tables.index_tests.rows.push(again);
    return {
      kind: "duplicate_cassette",
      table: "index_tests",
      column: "cassette_id",
      rows: [again],
      id: device.id,
    };
  });
}

/** The first reader's hour is one too early, so that the result was read before the specimen was applied. */
function plantEarlyClock(ground: Ground, written: Written): Fault[] {
  const firstReadings = new Map(
    [...written.rowsOf.reading.keys()].filter(isFirst).map((one) => [one.device, one]),
  );
  const fits = (device: Device) => {
    const readAt = firstReadings.get(device)?.readAt ?? null;
    return readAt !== null && readAt - 60 * MINUTE < device.appliedAt;
  };
  return ground.take("read_before_applied", fits).map((device) => {
    const reading = firstReadings.get(device) as Reading;
    const rows = written.rowsOf.reading.get(reading) as readonly Row[];
    for (const row of rows) row.read_at = timestamp((reading.readAt as number) - 60 * MINUTE);
    return {
      kind: "read_before_applied",
      table: "line_readings",
      column: "read_at",
      rows,
      id: device.id,
      reading,
    };
  });
}

function isFirst(reading: Reading): boolean {
  return reading.reader === "R1";
}

function plantFahrenheit(ground: Ground, written: Written): Fault[] {
  return ground
    .take("fahrenheit", (device) => device.temperature >= 18)
    .map((device) => {
      const row = deviceRowOf(written, device);
      row.room_temp_c = ((device.temperature * 9) / 5 + 32).toFixed(1);
      return { kind: "fahrenheit", table: "index_tests", column: "room_temp_c", rows: [row], id: device.id };
    });
}

/** Old devices of the first lot, used up after its expiry; on people whose lines do not depend on the lot. */
function plantExpired(ground: Ground, written: Written): Fault[] {
  const [old] = LOTS;
  const fits = ({ lot, visit, specimen }: Device) =>
    lot === "Q-102" &&
    dateOf(visit.day) > old.expiry &&
    specimen.strength.T1 === null &&
    specimen.strength.T2 === null;
  return ground.take("expired_lot", fits).map((device) => {
    const row = deviceRowOf(written, device);
    row.lot_id = old.lot;
    return { kind: "expired_lot", table: "index_tests", column: "lot_id", rows: [row], id: device.id };
  });
}

/** The second reader's entry is a minute earlier than the first reader's, to the second. */
function plantCopies(ground: Ground, written: Written, world: World): Fault[] {
  const bySecond = new Map(
    world.readings.filter(({ reader }) => reader === "R2").map((one) => [one.device, one]),
  );
  const byFirst = new Map(world.readings.filter(isFirst).map((one) => [one.device, one]));
  const copiedAt = (device: Device) => (byFirst.get(device)?.enteredAt ?? 0) - MINUTE;
  const fits = (device: Device) =>
    bySecond.has(device) && copiedAt(device) > (bySecond.get(device)?.readAt ?? 0);
  return ground.take("second_reader_copied", fits).map((device) => {
    const rows = written.rowsOf.reading.get(bySecond.get(device) as Reading) as readonly Row[];
    for (const row of rows) row.entered_at = timestamp(copiedAt(device));
    return {
      kind: "second_reader_copied",
      table: "line_readings",
      column: "entered_at",
      rows,
      id: device.id,
    };
  });
}

function plantDrops(ground: Ground, written: Written): Fault[] {
  return ground.take("drops_out_of_range").map((device) => {
    const row = deviceRowOf(written, device);
    row.buffer_drops = ground.draws.pick(["1", "5", "6"]);
    return {
      kind: "drops_out_of_range",
      table: "index_tests",
      column: "buffer_drops",
      rows: [row],
      id: device.id,
    };
  });
}

/** Results of two specimens that nobody has registered. */
function plantStrayReference({ tables }: Written): Fault[] {
  return ["B-0987-1P", "K-0412-1P"].map((id, index) => {
    const analyte = index === 0 ? "hbsag" : "anti_hcv";
    const assay = index === 0 ? "H-EIA" : "C-EIA";
    const row: Row = {
      specimen_id: id,
      analyte_id: analyte,
      assay_id: assay,
      step_no: "1",
      run_at: timestamp(secondsOf(60 + index, 11)),
      run_id: `${assay}-06${index}`,
      ref_result: "nonreactive",
      ref_value: "0.14",
      ref_unit: "S/CO",
      lab_id: index === 0 ? "REF-1" : "REF-2",
      blinded_to_index: "true",
      triggered_by_index: "false",
    };
    tables.reference_tests.rows.push(row);
    return {
      kind: "reference_without_specimen",
      table: "reference_tests",
      column: "specimen_id",
      rows: [row],
      id,
    };
  });
}

/** The year is mistyped: enrolled a year before, or a year after. */
function plantWrongYears(draws: Draws, written: Written, world: World): Fault[] {
  const again = new Set(world.people.map((person) => person.alreadyEnrolledAs));
  const candidates = world.people.filter(
    (person) => person.alreadyEnrolledAs === null && !again.has(person) && person.day < STUDY_DAYS,
  );
  return draws.sample(candidates, PLANTED.date_outside_study).map((person) => {
    const row = written.rowsOf.person.get(person) as Row;
    row.enrolment_date = dateOf(person.day).replace("2026", draws.pick(["2025", "2027"]));
    return {
      kind: "date_outside_study",
      table: "participants",
      column: "enrolment_date",
      rows: [row],
      id: person.id,
    };
  });
}

/** Faults that happened in the world itself, and are only pointed out here. */
function alreadyInTheWorld({ rowsOf, tables }: Written, world: World): Fault[] {
  const found: Fault[] = [];
  for (const [person, row] of rowsOf.person) {
    if (person.alreadyEnrolledAs === null) continue;
    const where = { table: "participants", column: "person_key" } as const;
    found.push({ kind: "person_enrolled_twice", ...where, rows: [row], id: person.id });
  }
  for (const [device, row] of rowsOf.device) {
    const needless = device.repeatOf !== null && device.repeatOf.cause === null;
    const where = { table: "index_tests", column: "attempt_no" } as const;
    if (needless) found.push({ kind: "repeat_without_invalid", ...where, rows: [row], id: device.id });
  }
  for (const { device } of world.typed.filter((one) => one.device.lineWithoutControl)) {
    const where = { table: "interpretations", column: "result_typed" } as const;
    const rows = tables.interpretations.rows.filter(
      (row) => row.cassette_id === device.id && row.analyte_id === "hbsag",
    );
    found.push({ kind: "line_without_control", ...where, rows, id: device.id });
  }
  for (const row of tables.reference_tests.rows.filter((one) => one.triggered_by_index === "true")) {
    const where = { table: "reference_tests", column: "triggered_by_index" } as const;
    found.push({ kind: "triggered_by_index", ...where, rows: [row], id: row.specimen_id as string });
  }
  return found;
}
