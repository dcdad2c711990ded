import { dateOf, STUDY_DAYS, secondsOf, timestamp } from "./calendar.ts";
import { plantDeviceFaults } from "./device-faults.ts";
import { drawsOf } from "./draws.ts";
import { type Fault, PLANTED } from "./fault.ts";
import type { Row, Written } from "./tables.ts";
import type { World } from "./world.ts";

/** Writes the faults of record keeping into the tables, and says where all of them are. */
export function plantFaults(seed: number, world: World, written: Written): Fault[] {
  return [
    ...plantDeviceFaults(seed, world, written),
    ...plantStrayReference(written),
    ...plantWrongYears(seed, written, world),
    ...alreadyInTheWorld(written, world),
  ];
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
function plantWrongYears(seed: number, written: Written, world: World): Fault[] {
  const draws = drawsOf(seed, "wrong years");
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
