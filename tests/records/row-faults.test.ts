import { describe, expect, it } from "vitest";
import type { Tables } from "./build-study.ts";
import { accounts, changed, places, SOUND_PEOPLE } from "./expect-records.ts";

/** One fault at a time in a study that has none. Rules marked in the study's own data dictionary. */
const FAULTS: readonly [
  name: string,
  edit: (tables: Tables) => void,
  expected: [string, string, number][],
][] = [
  [
    "a participant twice",
    (t) => t.participants.push({ ...row(t.participants, 0) }),
    [["duplicate_participant", "participants", 4]],
  ],
  [
    "a participant without an identifier",
    (t) => t.participants.push({ ...row(t.participants, 0), participant_id: "" }),
    [["blank_identifier", "participants", 4]],
  ],
  [
    "an unknown site, arm and selection",
    (t) => Object.assign(row(t.participants, 1), { site_id: "S9", arm_id: "other", selection: "by hand" }),
    [
      ["unknown_site", "participants", 3],
      ["unknown_arm", "participants", 3],
      ["unknown_code", "participants", 3],
    ],
  ],
  [
    "not eligible without a reason",
    (t) => Object.assign(row(t.participants, 1), { eligible: "no" }),
    [["missing_exclusion_reason", "participants", 3]],
  ],
  [
    "enrolment outside the study, and no date at all",
    (t) => {
      row(t.participants, 0).enrolment_date = "2026-05-01";
      row(t.participants, 1).enrolment_date = "1 April";
    },
    [
      ["date_outside_study", "participants", 2],
      ["not_a_date", "participants", 3],
    ],
  ],
  [
    "a specimen taken before the study",
    (t) => Object.assign(row(t.specimens, 0), { collected_at: "2026-03-01T10:00" }),
    [["date_outside_study", "specimens", 2]],
  ],
  [
    "a specimen of nobody, and what hangs on it",
    (t) => t.specimens.push({ specimen_id: "X", participant_id: "P9", specimen_type: "venous" }),
    [["unknown_participant", "specimens", 6]],
  ],
  [
    "a specimen twice",
    (t) => t.specimens.push({ ...row(t.specimens, 0) }),
    [["duplicate_specimen", "specimens", 6]],
  ],
  [
    "a device of an unknown specimen; its readings are of no known device's fault",
    (t) => Object.assign(row(t.index_tests, 1), { specimen_id: "P2-venus-1" }),
    [["unknown_specimen", "index_tests", 3]],
  ],
  [
    "a device of another kit",
    (t) => Object.assign(row(t.index_tests, 1), { kit_id: "kit-y" }),
    [["unknown_kit", "index_tests", 3]],
  ],
  [
    "unknown lot and operator",
    (t) => Object.assign(row(t.index_tests, 1), { lot_id: "LOT3", operator_id: "OP2" }),
    [
      ["unknown_lot", "index_tests", 3],
      ["unknown_operator", "index_tests", 3],
    ],
  ],
  [
    "a lot past its expiry",
    (t) => Object.assign(row(t.lots, 1), { expiry: "2026-03" }),
    [["expired_lot", "index_tests", 3]],
  ],
  [
    "buffer drops and volume outside the kit file's limits",
    (t) => Object.assign(row(t.index_tests, 1), { buffer_drops: "5", specimen_volume_ul: "30" }),
    [
      ["drops_out_of_range", "index_tests", 3],
      ["volume_out_of_range", "index_tests", 3],
    ],
  ],
  [
    "degrees Fahrenheit, and a room outside the working range",
    (t) => {
      row(t.index_tests, 0).room_temp_c = "75";
      row(t.index_tests, 1).room_temp_c = "33";
    },
    [
      ["fahrenheit", "index_tests", 2],
      ["temperature_out_of_range", "index_tests", 3],
    ],
  ],
  [
    "a room colder than any, and impossible humidity",
    (t) => Object.assign(row(t.index_tests, 1), { room_temp_c: "-40", room_rh_pct: "140" }),
    [
      ["out_of_range", "index_tests", 3],
      ["out_of_range", "index_tests", 3],
    ],
  ],
  [
    "steps out of order",
    (t) => Object.assign(row(t.index_tests, 1), { pouch_opened_at: "2026-04-10T23:00:00+02:00" }),
    [["steps_out_of_order", "index_tests", 3]],
  ],
  [
    "used long after opening",
    (t) => Object.assign(row(t.index_tests, 0), { pouch_opened_at: "2026-04-10T07:30:00+02:00" }),
    [["used_too_late", "index_tests", 2]],
  ],
  [
    "repeat_of names no device",
    (t) => Object.assign(row(t.index_tests, 1), { repeat_of: "P0-d1" }),
    [["unknown_repeat", "index_tests", 3]],
  ],
  [
    "readings of an unknown device, line and reader",
    (t) => {
      const reading = row(t.line_readings, 0);
      t.line_readings.push({ ...reading, cassette_id: "P9-d1" });
      t.line_readings.push({ ...reading, line_id: "T3" });
      t.line_readings.push({ ...reading, reader_id: "" });
    },
    [
      ["unknown_device", "line_readings", 8],
      ["unknown_line", "line_readings", 9],
      ["blank_identifier", "line_readings", 10],
    ],
  ],
  [
    "a line read twice",
    (t) => t.line_readings.push({ ...row(t.line_readings, 1), line_seen: "absent" }),
    [["duplicate_reading", "line_readings", 8]],
  ],
  [
    "a second reading of the same device by the same reader is none; a third is",
    (t) =>
      t.line_readings.push(
        ...["2", "3"].flatMap((reading_no) =>
          t.line_readings.slice(0, 3).map((entry) => ({ ...entry, reading_no })),
        ),
      ),
    [["later_reading", "line_readings", 11]],
  ],
  [
    "an unknown code of a line",
    (t) => Object.assign(row(t.line_readings, 5), { line_seen: "pink" }),
    [["unknown_code", "line_readings", 7]],
  ],
  [
    "nothing written of a line",
    (t) => Object.assign(row(t.line_readings, 5), { line_seen: "" }),
    [["missing_value", "line_readings", 7]],
  ],
  ["a line without a row", (t) => t.line_readings.splice(5, 1), [["missing_line", "line_readings", 5]]],
  [
    "a grade that does not fit",
    (t) => {
      row(t.line_readings, 1).line_grade = "0";
      row(t.line_readings, 2).line_grade = "0";
    },
    [["grade_disagrees", "line_readings", 3]],
  ],
  [
    "read before the specimen was applied",
    (t) => setReadAt(t, "P2-d1", "2026-04-10T09:10:00+02:00"),
    [["result_before_application", "line_readings", 5]],
  ],
  [
    "read a week later",
    (t) => setReadAt(t, "P2-d1", "2026-04-17T09:40:00+02:00"),
    [["absurd_minutes", "line_readings", 5]],
  ],
  [
    "no time of reading, and no time at all",
    (t) => {
      setReadAt(t, "P1-d1", "");
      setReadAt(t, "P2-d1", "noon");
    },
    [
      ["missing_time", "line_readings", 2],
      ["not_a_date", "line_readings", 5],
    ],
  ],
  [
    "bare clock times across midnight",
    (t) => {
      row(t.index_tests, 1).specimen_applied_at = "23:55";
      row(t.index_tests, 1).pouch_opened_at = "23:50";
      row(t.index_tests, 1).buffer_applied_at = "23:56";
      setReadAt(t, "P2-d1", "00:12");
    },
    [["over_midnight", "line_readings", 5]],
  ],
  [
    "entered before the specimen was applied",
    (t) => Object.assign(row(t.line_readings, 3), { entered_at: "2026-04-10T08:00:00+02:00" }),
    [["entered_before_applied", "line_readings", 5]],
  ],
  [
    "a time without its offset",
    (t) => setReadAt(t, "P2-d1", "2026-04-10T09:37:00"),
    [["offset_on_one_side", "line_readings", 5]],
  ],
  ["a device without any reading", (t) => t.line_readings.splice(3, 3), [["no_reading", "index_tests", 3]]],
  [
    "recorded as invalid although the lines are sound",
    (t) => Object.assign(row(t.index_tests, 1), { invalid_reason: "leak" }),
    [["recorded_invalid_but_lines_valid", "index_tests", 3]],
  ],
  [
    "an unknown reason of an invalid result counts as a reason",
    (t) => Object.assign(row(t.index_tests, 1), { invalid_reason: "spilt" }),
    [
      ["unknown_code", "index_tests", 3],
      ["recorded_invalid_but_lines_valid", "index_tests", 3],
    ],
  ],
  [
    "invalid lines without a reason",
    (t) => Object.assign(row(t.line_readings, 3), { line_seen: "absent" }),
    [["missing_invalid_reason", "index_tests", 3]],
  ],
  [
    "a reference result of a specimen that is not there",
    (t) => t.reference_tests.push({ ...row(t.reference_tests, 0), specimen_id: "P7-plasma-1" }),
    [["unknown_reference_id", "reference_tests", 7]],
  ],
  [
    "reference rows: twice the same, unknown analyte, unknown code, no result",
    (t) => {
      const first = row(t.reference_tests, 0);
      t.reference_tests.push({ ...first });
      t.reference_tests.push({ ...first, analyte_id: "A3" });
      t.reference_tests.push({ ...first, run_id: "run-2", ref_result: "maybe" });
      t.reference_tests.push({ ...first, run_id: "run-3", ref_result: "" });
    },
    [
      ["duplicate_reference", "reference_tests", 7],
      ["unknown_analyte", "reference_tests", 8],
      ["unknown_code", "reference_tests", 9],
      ["missing_value", "reference_tests", 10],
    ],
  ],
  [
    "no reference result for a person with a rapid result",
    (t) => t.reference_tests.splice(3, 1),
    [["missing_reference", "participants", 3]],
  ],
  [
    "the confirming assay not done",
    (t) => t.reference_tests.splice(1, 1),
    [["reference_incomplete", "participants", 2]],
  ],
  [
    "a result of which the algorithm knows no way on",
    (t) => Object.assign(row(t.reference_tests, 0), { ref_result: "greyzone" }),
    [["reference_dead_end", "participants", 2]],
  ],
  [
    "typed reactive without a control line",
    (t) => {
      row(t.line_readings, 0).line_seen = "absent";
      row(t.index_tests, 0).invalid_reason = "no_control";
      t.interpretations.push(typed("P1-d1", "A1", "reactive"));
    },
    [["typed_reactive_without_control", "interpretations", 2]],
  ],
  [
    "typed results: not what the lines give, twice, without lines, of unknown things",
    (t) => {
      t.interpretations.push(typed("P1-d1", "A1", "nonreactive"));
      t.interpretations.push(typed("P1-d1", "A1", "reactive"));
      t.interpretations.push({ ...typed("P1-d1", "A1", "reactive"), reader_id: "R2" });
      t.interpretations.push(typed("P1-d1", "A3", "reactive"));
      t.interpretations.push(typed("P9-d1", "A1", "reactive"));
      t.interpretations.push(typed("P2-d1", "A1", "perhaps"));
    },
    [
      ["typed_result_differs", "interpretations", 2],
      ["duplicate_interpretation", "interpretations", 3],
      ["typed_without_lines", "interpretations", 4],
      ["unknown_analyte", "interpretations", 5],
      ["unknown_device", "interpretations", 6],
      ["unknown_code", "interpretations", 7],
    ],
  ],
  [
    "lots and operators: twice, of another kit, of an unknown site",
    (t) => {
      t.lots.push({ ...row(t.lots, 0) }, { lot_id: "LOT9", kit_id: "kit-y", expiry: "" });
      t.lots.push({ lot_id: "LOT8", kit_id: "kit-x", expiry: "soon" });
      t.operators.push({ ...row(t.operators, 0) }, { operator_id: "OP7", site_id: "S7", cadre: "lay" });
    },
    [
      ["duplicate_lot", "lots", 4],
      ["unknown_kit", "lots", 5],
      ["not_a_date", "lots", 6],
      ["duplicate_operator", "operators", 3],
      ["unknown_site", "operators", 4],
    ],
  ],
  [
    "an operator not trained yet, and a panel score above its items",
    (t) =>
      Object.assign(row(t.operators, 0), {
        trained_on: "2026-05-02",
        panel_items: "10",
        panel_correct: "11",
      }),
    [
      ["untrained_operator", "index_tests", 2],
      ["untrained_operator", "index_tests", 3],
      ["out_of_range", "operators", 2],
    ],
  ],
  [
    "a pregnant man, and a grade above the card",
    (t) => {
      Object.assign(row(t.participants, 1), { sex: "male", pregnant: "Yes" });
      row(t.line_readings, 1).line_grade = "5";
    },
    [
      ["pregnant_man", "participants", 3],
      ["out_of_range", "line_readings", 3],
    ],
  ],
  [
    "numbers that are none",
    (t) => Object.assign(row(t.index_tests, 1), { buffer_drops: "three", attempt_no: "1.5" }),
    [
      ["not_a_number", "index_tests", 3],
      ["not_a_number", "index_tests", 3],
    ],
  ],
];

function row(rows: Record<string, string>[], index: number): Record<string, string> {
  const found = rows[index];
  if (found === undefined) throw new Error(`no row ${index}`);
  return found;
}

function typed(device: string, analyte: string, result: string) {
  return { cassette_id: device, reader_id: "R1", analyte_id: analyte, result_typed: result };
}

function setReadAt(tables: Tables, device: string, time: string): void {
  for (const reading of tables.line_readings) if (reading.cassette_id === device) reading.read_at = time;
}

describe("faults of rows", () => {
  it("finds none where there is none", () => {
    const records = changed({});
    expect(places(records.issues)).toEqual([["no_rows", "interpretations", null]]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it.each(FAULTS)("%s", (_, edit, expected) => {
    const records = changed({ edit });
    const found = places(records.issues).filter(([rule]) => rule !== "no_rows");
    const sorted = (list: readonly unknown[]) => [...list].map((entry) => JSON.stringify(entry)).sort();
    expect(sorted(found)).toEqual(sorted(expected));
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("knows the people of the plan", () => {
    expect(SOUND_PEOPLE.map((person) => person.id)).toEqual(["P1", "P2"]);
  });
});
