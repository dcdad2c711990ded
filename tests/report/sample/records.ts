import type { Evaluation, Interpretation } from "../../../src/evaluation/document.ts";
import { exact } from "./intervals.ts";

type Queries = Evaluation["queries"];
type Group = Queries["groups"][number];

function group(
  rule: string,
  severity: Group["severity"],
  file: string,
  consequence: Group["consequence"],
  count: number,
  example: { row: number; column: string; expected: string; received: string },
): Group {
  return {
    rule,
    severity,
    file,
    consequence,
    count,
    examples: [{ rule, severity, file, consequence, ...example }],
  };
}

/** Faults of the kinds that the invented study has planted. */
export const sampleQueries: Queries = {
  total: 38,
  groups: [
    group("duplicate_device", "error", "index_tests.csv", "row_set_aside", 4, {
      row: 412,
      column: "cassette_id",
      expected: "a device used once",
      received: '"C-00410"',
    }),
    group("result_before_application", "error", "line_readings.csv", "value_ignored", 6, {
      row: 1290,
      column: "read_at",
      expected: "a time after 2025-10-02T10:15",
      received: '"2025-10-02T10:04"',
    }),
    group("unknown_reference_id", "error", "reference_tests.csv", "row_set_aside", 2, {
      row: 77,
      column: "specimen_id",
      expected: "a specimen of the specimens table",
      received: '"S-9999"',
    }),
    group("fahrenheit", "warning", "index_tests.csv", "value_ignored", 5, {
      row: 903,
      column: "room_temp_c",
      expected: "at most 60",
      received: '"77"',
    }),
    group("drops_out_of_range", "warning", "index_tests.csv", "kept", 8, {
      row: 55,
      column: "buffer_drops",
      expected: "2 to 4",
      received: '"7"',
    }),
    group("typed_reactive_without_control", "warning", "interpretations.csv", "kept", 5, {
      row: 3012,
      column: "result_typed",
      expected: "invalid",
      received: '"reactive"',
    }),
    group("date_outside_study", "warning", "participants.csv", "kept", 4, {
      row: 801,
      column: "enrolment_date",
      expected: "2025-09-01 to 2026-01-30",
      received: '"2015-09-11"',
    }),
    group("unknown_specimen_type", "note", "specimens.csv", "kept", 4, {
      row: 9,
      column: "specimen_type",
      expected: "a specimen type of the study file",
      received: '"plasma"',
    }),
  ],
  ledger: [
    {
      file: "participants.csv",
      rows: 1787,
      analysed: 1720,
      setAside: [
        { reason: "not_eligible", rows: 9 },
        { reason: "not_consented", rows: 6 },
        { reason: "enrolled_twice", rows: 52 },
      ],
    },
    {
      file: "index_tests.csv",
      rows: 3502,
      analysed: 3498,
      setAside: [{ reason: "duplicate_device", rows: 4 }],
    },
    {
      file: "reference_tests.csv",
      rows: 3894,
      analysed: 3892,
      setAside: [{ reason: "unknown_reference_id", rows: 2 }],
    },
  ],
};

export const sampleAlarms: Evaluation["alarms"] = [
  { code: "reference_triggered_by_index", count: 9, total: 1720, subjects: ["hbsag", "hcv"] },
  { code: "lot_confounded_with_site", count: 1, total: 3, subjects: ["Q-103", "T"] },
  { code: "enriched_sample", count: 320, total: 1720, subjects: ["E"] },
  { code: "second_reader_copied", count: 7, total: 1655, subjects: ["R2"] },
  { code: "outside_window", count: 233, total: 1692, subjects: ["venous"] },
  { code: "wrong_typed_results", count: 21, total: 6754, subjects: [] },
  { code: "rows_set_aside", count: 73, total: 9183, subjects: [] },
];

export const sampleInterpretations: Interpretation[] = ["hbsag", "hcv"].map((analyte, place) => ({
  analyte,
  reader: "R1",
  typed: 3377,
  agree: 3367 - place,
  misreadRule: [
    { derived: "invalid", typed: "reactive", count: 3 },
    { derived: "reactive", typed: "nonreactive", count: 4 + place },
    { derived: "nonreactive", typed: "reactive", count: 3 },
  ],
  comparedLines: 3301,
  sawDifferently: 38 + 9 * place,
}));

const positive = (analyte: string, count: number, total: number) => ({
  analyte,
  proportion: exact(count, total),
});

/** People sought for their status: the share is the study's own making and is not given. */
const countedOnly = (analyte: string, count: number, total: number) => ({
  analyte,
  proportion: { count, total, value: null, lower: null, upper: null },
});

export const sampleParticipants: Evaluation["participants"] = {
  enrolled: 1787,
  devices: 3498,
  readings: 6888,
  operators: 14,
  repeats: 58,
  lineWithoutControl: 5,
  lots: ["Q-101", "Q-102", "Q-103"],
  firstResultOn: "2025-09-02",
  lastResultOn: "2026-01-30",
  bySite: [
    { site: "B", people: 560, referencePositive: [positive("hbsag", 34, 553), positive("hcv", 11, 550)] },
    { site: "O", people: 430, referencePositive: [positive("hbsag", 26, 424), positive("hcv", 8, 426)] },
    { site: "T", people: 410, referencePositive: [positive("hbsag", 25, 404), positive("hcv", 9, 403)] },
    {
      site: "K",
      people: 190,
      referencePositive: [countedOnly("hbsag", 17, 188), countedOnly("hcv", 71, 187)],
    },
    {
      site: "L",
      people: 130,
      referencePositive: [countedOnly("hbsag", 13, 129), countedOnly("hcv", 44, 129)],
    },
  ],
  bySelection: [
    {
      selection: "consecutive",
      people: 1400,
      referencePositive: [positive("hbsag", 85, 1381), positive("hcv", 28, 1379)],
    },
    {
      selection: "enriched",
      people: 320,
      referencePositive: [countedOnly("hbsag", 30, 317), countedOnly("hcv", 115, 316)],
    },
  ],
};
