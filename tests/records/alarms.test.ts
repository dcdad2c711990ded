import { describe, expect, it } from "vitest";
import type { Alarm } from "../../src/records/model.ts";
import { buildStudy, type DevicePlan, type PersonPlan, type StudyPlan, studyPlan } from "./build-study.ts";
import { recordsOf } from "./expect-records.ts";

const NEGATIVE = { A1: "negative", A2: "negative" } as const;
const POSITIVE = { A1: "positive", A2: "negative" } as const;
const device = (first: string, change: Partial<DevicePlan> = {}): DevicePlan => ({
  readings: [{ lines: ["clear", first, "absent"] }],
  ...change,
});

/** Twenty people, two sites, two lots at both sites, all verified. */
function twenty(change: (index: number) => Partial<PersonPlan> = () => ({})): PersonPlan[] {
  return Array.from({ length: 20 }, (_, index) => ({
    id: `P${index}`,
    site: index % 2 === 0 ? "S1" : "S2",
    reference: index < 8 ? POSITIVE : NEGATIVE,
    devices: [device(index < 8 ? "clear" : "absent", { lot: index % 4 < 2 ? "LOT1" : "LOT2" })],
    ...change(index),
  }));
}

function alarms(plan: StudyPlan): readonly Alarm[] {
  return recordsOf(buildStudy(plan)).alarms;
}

const codes = (found: readonly Alarm[]) => found.map((alarm) => alarm.code);

describe("alarms", () => {
  it("are silent for a study without threats", () => {
    expect(alarms({ people: twenty() })).toEqual([]);
  });

  it("speak of one lot only", () => {
    const people = twenty((index) => ({ devices: [device(index < 8 ? "clear" : "absent")] }));
    expect(alarms({ people })).toEqual([{ code: "single_lot", count: 20, total: 20, subjects: ["LOT1"] }]);
  });

  it("speak of a lot that cannot be told from its site", () => {
    const lots = (index: number) => (index % 2 === 0 ? "LOT1" : "LOT2");
    const people = twenty((index) => ({
      devices: [device(index < 8 ? "clear" : "absent", { lot: lots(index) })],
    }));
    expect(alarms({ people })).toEqual([
      { code: "lot_confounded_with_site", count: 10, total: 10, subjects: ["LOT1", "S1"] },
      { code: "lot_confounded_with_site", count: 10, total: 10, subjects: ["LOT2", "S2"] },
    ]);
  });

  it("speak of criteria that were fixed on the day of the first result or later, or at no known time", () => {
    const criterion = (id: string, entered_on?: string) => ({
      id,
      analyte: "A1",
      measure: "sensitivity",
      at_least: 0.9,
      source: "protocol",
      ...(entered_on === undefined ? {} : { entered_on }),
    });
    const criteria = [
      criterion("before", "2026-04-09"),
      criterion("same-day", "2026-04-10"),
      criterion("after", "2026-05-01"),
      criterion("undated"),
    ];
    expect(alarms({ people: twenty(), study: { criteria } })).toEqual([
      { code: "criterion_after_first_result", count: 2, total: 4, subjects: ["same-day", "after"] },
      { code: "criterion_undated", count: 1, total: 4, subjects: ["undated"] },
    ]);
  });

  it("speak of readings and references that were not blinded, and of references asked for by the result", () => {
    const found = alarms({
      people: twenty(),
      edit: (tables) => {
        for (const reading of tables.line_readings.slice(0, 3)) reading.blinded = "false";
        Object.assign(tables.reference_tests[0] ?? {}, { blinded_to_index: "no" });
        Object.assign(tables.reference_tests[1] ?? {}, { triggered_by_index: "yes", lab_id: "LAB 2" });
      },
    });
    expect(found).toEqual([
      { code: "reference_triggered_by_index", count: 1, total: 48, subjects: ["LAB 2"] },
      { code: "reading_not_blinded", count: 1, total: 20, subjects: [] },
      { code: "reference_not_blinded", count: 1, total: 48, subjects: [] },
    ]);
  });

  it("speak of second readings entered with the first one's time", () => {
    const people = twenty((index) => ({
      devices: [
        {
          lot: index % 4 < 2 ? "LOT1" : "LOT2",
          readings: [
            { lines: ["clear", index < 8 ? "clear" : "absent", "absent"] },
            { reader: "R2", lines: ["clear", index < 8 ? "clear" : "absent", "absent"] },
          ],
        },
      ],
    }));
    const shift = (time: string, minutes: number) => {
      const moved = new Date(Date.parse(`${time.slice(0, 19)}Z`) + minutes * 60_000);
      return `${moved.toISOString().slice(0, 19)}+02:00`;
    };
    const records = recordsOf(
      buildStudy({
        people,
        edit: (tables) => {
          const entered = (device: string, reader: string) =>
            tables.line_readings.filter((row) => row.cassette_id === device && row.reader_id === reader);
          for (const [device, minutes] of [
            ["P3-d1", 0],
            ["P4-d1", -2],
            ["P5-d1", 2],
          ] as const) {
            const time = entered(device, "R1")[0]?.entered_at ?? "";
            for (const row of entered(device, "R2")) row.entered_at = shift(time, minutes);
          }
        },
      }),
    );
    expect(records.alarms).toEqual([{ code: "second_reader_copied", count: 2, total: 20, subjects: [] }]);
    const rows = records.issues
      .filter((issue) => issue.rule === "second_reader_copied")
      .map((issue) => issue.row);
    expect(rows).toEqual([23, 29]);
  });

  it("do not suspect times that are written to the minute", () => {
    const people = twenty((index) => ({
      devices: [
        {
          lot: index % 4 < 2 ? "LOT1" : "LOT2",
          readings: ["R1", "R2"].map((reader) => ({
            reader,
            lines: ["clear", index < 8 ? "clear" : "absent", "absent"] as const,
            row: { entered_at: "2026-04-10T20:00:00+02:00" },
          })),
        },
      ],
    }));
    expect(alarms({ people })).toEqual([]);
  });

  it("speak of a reference that depends on the rapid result", () => {
    const people = twenty((index) => (index >= 8 && index < 15 ? { reference: { A2: "negative" } } : {}));
    const found = alarms({ people });
    expect(found).toEqual([{ code: "partial_verification", count: 7, total: 20, subjects: ["A1"] }]);
  });

  it("speak of further tests on just those who disagree", () => {
    const people = twenty((index) =>
      index >= 8 && index < 14
        ? { devices: [device("clear", { lot: index % 4 < 2 ? "LOT1" : "LOT2" })] }
        : {},
    );
    const again = (person: number) => ({
      specimen_id: `P${person}-plasma-1`,
      analyte_id: "A1",
      assay_id: "NAT",
      ref_result: "reactive",
    });
    const discordants = [8, 9, 10, 11, 12, 13].map(again);
    const everyTenth = [0, 5, 8, 9, 10, 15, 19].map(again);
    const retest = (rows: Record<string, string>[]) =>
      alarms({ people, edit: (tables) => tables.reference_tests.push(...rows) });
    expect(retest(discordants)).toEqual([
      { code: "discrepant_only_retested", count: 6, total: 6, subjects: ["A1"] },
    ]);
    expect(codes(retest(everyTenth))).toEqual([]);
  });

  it("speak of enriched samples and of comparators that are no reference", () => {
    const arms = [
      { id: "main", title: "Main", selection: "consecutive" },
      { id: "known", title: "Known", selection: "known_positive" },
    ];
    const analytes = (studyPlan().analytes as { reference: object }[]).map((entry, index) =>
      index === 0 ? { ...entry, reference: { ...entry.reference, role: "comparator" } } : entry,
    );
    const found = alarms({
      people: twenty((index) => (index < 3 ? { arm: "known" } : {})),
      study: { arms, analytes },
    });
    expect(found).toEqual([
      { code: "enriched_sample", count: 3, total: 20, subjects: ["known_positive"] },
      { code: "comparator_not_reference", count: 1, total: 2, subjects: ["A1"] },
    ]);
  });

  it("speak of readings outside the window, wrong typed results and rows lost to faults", () => {
    const late = { readings: [{ lines: ["clear", "clear", "absent"] as const, minutes: 40 }] };
    const found = alarms({
      people: twenty((index) => (index === 0 ? { devices: [late] } : {})),
      edit: (tables) => {
        tables.interpretations.push(
          { cassette_id: "P0-d1", reader_id: "R1", analyte_id: "A1", result_typed: "nonreactive" },
          { cassette_id: "P1-d1", reader_id: "R1", analyte_id: "A1", result_typed: "reactive" },
          { cassette_id: "P77-d1", reader_id: "R1", analyte_id: "A1", result_typed: "reactive" },
        );
      },
    });
    expect(found).toMatchObject([
      { code: "outside_window", count: 1, total: 20, subjects: ["venous"] },
      { code: "wrong_typed_results", count: 1, total: 2, subjects: ["R1"] },
      { code: "rows_set_aside", count: 1, subjects: ["interpretations.csv"] },
    ]);
  });
});
