import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { randomStream } from "../../src/core/random.ts";

/**
 * A made-up line-level study of any size, for measuring speed: one analyte, one device a person, two
 * readers, two lines, so that every person gives four rows of line readings. Five sites, four lots,
 * twenty operators; a tenth of the people are positive, a few results wrong, late or invalid.
 */
const KIT = `format: fourfold-kit/1
id: BIG-KIT
title: A made-up kit
lines:
  - { id: C, role: control }
  - { id: T1, role: test, analyte: one }
specimens:
  - { type: serum }
timed_from: buffer_applied
reading_window: { from_minutes: 15, to_minutes: 20 }
faint_line: reactive
repeat: { max_attempts: 1 }
source: { title: made up }
`;

const STUDY = `format: fourfold-study/1
id: BIG
title: A made-up study to measure speed
status: locked
dates: { first: 2026-01-01, last: 2026-12-31 }
kit: kit.yaml
sites: [${[1, 2, 3, 4, 5].map((site) => `{ id: S${site}, title: Site ${site} }`).join(", ")}]
arms:
  - { id: A, title: All comers, selection: consecutive }
analytes:
  - id: one
    title: Analyte one
    reference:
      title: A made-up assay
      role: reference_standard
      discrepancies: none settled
      algorithm:
        - assay: E1
          leads_to: { reactive: positive, nonreactive: negative }
specimens:
  - { type: serum, title: Serum }
readers: { use: each, primary: R1 }
criteria:
  - { id: se, analyte: one, measure: sensitivity, at_least: 0.95, source: made up, entered_on: 2025-12-01 }
  - { id: sp, analyte: one, measure: specificity, at_least: 0.98, source: made up, entered_on: 2025-12-01 }
prevalences:
  - { id: clinic, title: Clinic, values: { one: 0.05 } }
strata:
  - { id: site, title: Site, table: participants, column: site_id, planned: true }
  - { id: lot, title: Lot, table: index_tests, column: lot_id, planned: true }
  - { id: operator, title: Operator, table: index_tests, column: operator_id, planned: true }
treatment: { invalid: set_aside, outside_window: keep, repeat: first }
interval: { method: clopper_pearson, level: 0.95 }
seed: 1
records:
  shape: lines
  participants: participants.csv
  specimens: specimens.csv
  index_tests: index_tests.csv
  line_readings: line_readings.csv
  reference_tests: reference_tests.csv
`;

const HEADERS = {
  "participants.csv": "participant_id,site_id,arm_id,enrolment_date,selection,consent,eligible,person_key",
  "specimens.csv": "specimen_id,participant_id,visit_no,specimen_type,collected_at",
  "index_tests.csv": "cassette_id,specimen_id,kit_id,lot_id,operator_id,attempt_no,buffer_applied_at",
  "line_readings.csv": "cassette_id,line_id,reader_id,method,read_at,line_seen,blinded,entered_at",
  "reference_tests.csv":
    "specimen_id,analyte_id,assay_id,step_no,run_at,ref_result,blinded_to_index,triggered_by_index",
} as const;

/** Writes the study into a folder. Same number of people, same bytes. */
export async function writeBigStudy(folder: string, people: number): Promise<void> {
  const tables = new Map(
    Object.entries(HEADERS).map(([name, header]): [string, string[]] => [name, [header]]),
  );
  const add = (name: keyof typeof HEADERS, ...cells: string[]) => tables.get(name)?.push(cells.join(","));
  const random = randomStream(20260501);
  for (let index = 0; index < people; index += 1) addPerson(index, random, add);
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, "study.yaml"), STUDY);
  await writeFile(join(folder, "kit.yaml"), KIT);
  for (const [name, lines] of tables) await writeFile(join(folder, name), `${lines.join("\n")}\n`);
}

function addPerson(
  index: number,
  random: () => number,
  add: (name: keyof typeof HEADERS, ...cells: string[]) => void,
): void {
  const code = String(index).padStart(7, "0");
  const site = `S${1 + (index % 5)}`;
  const day = new Date(Date.UTC(2026, 0, 1 + (index % 365))).toISOString().slice(0, 10);
  const positive = random() < 0.1;
  add("participants.csv", `P${code}`, site, "A", day, "consecutive", "true", "true", `k${code}`);
  add("specimens.csv", `X${code}`, `P${code}`, "1", "serum", `${day}T09:00:00+00:00`);
  const [lot, operator] = [`L${1 + (index % 4)}`, `O${1 + (index % 20)}`];
  add("index_tests.csv", `D${code}`, `X${code}`, "BIG-KIT", lot, operator, "1", `${day}T09:10:00+00:00`);
  const minutes = random() < 0.9 ? 15 + Math.floor(5 * random()) : 21 + Math.floor(20 * random());
  const control = random() < 0.99 ? "clear" : "absent";
  for (const [place, reader] of ["R1", "R2"].entries()) {
    const seen = random() < (positive ? 0.97 : 0.01) ? (random() < 0.2 ? "faint" : "clear") : "absent";
    const at = (minute: number) => `${day}T09:${String(10 + minute).padStart(2, "0")}:0${place}+00:00`;
    for (const [line, what] of [
      ["C", control],
      ["T1", seen],
    ] as const) {
      add(
        "line_readings.csv",
        `D${code}`,
        line,
        reader,
        "eye",
        at(minutes),
        what,
        "true",
        at(minutes + 1 + place),
      );
    }
  }
  const result = positive ? "reactive" : "nonreactive";
  add("reference_tests.csv", `X${code}`, "one", "E1", "1", `${day}T15:00:00+00:00`, result, "true", "false");
}
