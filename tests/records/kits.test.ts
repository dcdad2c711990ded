import { describe, expect, it } from "vitest";
import type { PairedSet, StudyRecords } from "../../src/records/model.ts";
import { buildStudy, type DevicePlan, type PersonPlan, type StudyPlan } from "./build-study.ts";
import { accounts, places, recordsOf } from "./expect-records.ts";

const NEGATIVE = { A1: "negative", A2: "negative" } as const;

/** The main kit is kit-x (lines C, T1, T2); the other is kit-y (lines K, L; A1 in venous blood only). */
function read(people: readonly PersonPlan[], plan: Partial<StudyPlan> = {}): StudyRecords {
  const records = recordsOf(buildStudy({ people, other: true, ...plan }));
  expect(accounts(records)).toEqual({ rows: true, people: true });
  return records;
}

const main = (lines: readonly string[], plan: Partial<DevicePlan> = {}): DevicePlan => ({
  readings: [{ lines }],
  ...plan,
});
const other = (lines: readonly string[], plan: Partial<DevicePlan> = {}): DevicePlan => ({
  readings: [{ lines, minutes: 8 }],
  ...plan,
  row: { kit_id: "kit-y", lot_id: "LOT9", ...plan.row },
});
const LOT9: Partial<StudyPlan> = {
  edit: (tables) => tables.lots.push({ lot_id: "LOT9", kit_id: "kit-y", expiry: "2027-01-31" }),
};

function setOf(records: StudyRecords, kit: string, analyte = "A1"): PairedSet {
  const found = records.sets.find((set) => set.kit === kit && set.analyte === analyte);
  if (found === undefined) throw new Error(`no set ${kit} ${analyte}`);
  return found;
}
/** Issues, but for those of references and tables that these studies do without. */
const faults = ({ issues }: StudyRecords) =>
  places(issues).filter(([rule]) => rule !== "no_rows" && rule !== "missing_reference");
const rapid = (set: PairedSet) => set.pairs.map((pair) => pair.rapid);

describe("several kits", () => {
  it("make sets in the order analyte, kit, specimen, only where the kit shows and accepts them", () => {
    const { sets, kits } = read([{ id: "P1", reference: NEGATIVE }]);
    expect(kits.map((kit) => kit.id)).toEqual(["kit-x", "kit-y"]);
    expect(sets.map((set) => `${set.analyte} ${set.kit} ${set.specimen} ${set.reader}`)).toEqual([
      "A1 kit-x venous R1",
      "A1 kit-x fingerstick R1",
      "A1 kit-y venous R1",
      "A2 kit-x venous R1",
      "A2 kit-x fingerstick R1",
    ]);
  });

  it("are each read by their own rules: lines, faint lines, window, timed step, cut-offs", () => {
    const faint = ["clear", "faint"];
    const optical = { readings: [{ lines: [55, 49.9], reader: "OPT", minutes: 20 }] };
    const records = read(
      [
        { id: "P1", devices: [main([...faint, "absent"]), other(faint)] },
        { id: "P2", devices: [main(["clear", "clear", "clear"]), other(["clear", "clear"])] },
        { id: "P3", devices: [other([], optical)] },
      ],
      LOT9,
    );
    expect(rapid(setOf(records, "kit-x"))).toEqual(["reactive", "reactive", "not_done"]);
    expect(rapid(setOf(records, "kit-y"))).toEqual(["nonreactive", "reactive", "not_done"]);
    // kit-y counts from the buffer, one minute later: 7 minutes, within 5 to 10.
    expect(setOf(records, "kit-y").pairs[1]).toMatchObject({ minutes: 7, window: "in" });
    expect(setOf(records, "kit-x").pairs[1]).toMatchObject({ minutes: 17, window: "in" });
    const byInstrument = records.results.filter((result) => result.reader === "OPT");
    expect(byInstrument).toMatchObject([{ kit: "kit-y", result: "nonreactive", window: "late" }]);
    expect(records.results.filter((result) => result.kit === "kit-y").map(({ analyte }) => analyte)).toEqual([
      "A1",
      "A1",
      "A1",
    ]);
    expect(faults(records)).toEqual([]);
  });

  it("do not count as repeats of one another; repeats are judged kit by kit", () => {
    const records = read([
      {
        id: "P1",
        devices: [
          main(["clear", "absent", "absent"]),
          other(["absent", "absent"], { lot: "LOT1" }),
          other(["clear", "clear"], { attempt: 2 }),
        ],
      },
      {
        id: "P2",
        devices: [main(["absent", "absent", "absent"]), main(["clear", "clear", "absent"], { attempt: 2 })],
      },
    ]);
    // kit-y allows no repeat, kit-x one.
    expect(rapid(setOf(records, "kit-x"))).toEqual(["nonreactive", "reactive"]);
    expect(rapid(setOf(records, "kit-y"))).toEqual(["invalid", "not_done"]);
    expect(places(records.issues).filter(([rule]) => /attempt|repeat/.test(rule))).toEqual([
      ["too_many_attempts", "index_tests", 4],
    ]);
  });

  it("take a device without a kit for one of the main kit, and say so", () => {
    const people: PersonPlan[] = [
      { id: "P1", devices: [main(["clear", "clear", "absent"], { row: { kit_id: "" } })] },
    ];
    const records = read(people);
    expect(rapid(setOf(records, "kit-x"))).toEqual(["reactive"]);
    expect(places(records.issues)).toContainEqual(["missing_value", "index_tests", 2]);
    const without = read(people, {
      edit: (tables) => {
        for (const row of tables.index_tests) delete row.kit_id;
      },
    });
    expect(places(without.issues)).toContainEqual(["missing_value", "index_tests", null]);
    const single = recordsOf(buildStudy({ people }));
    expect(faults(single)).toEqual([]);
  });

  it("point out a lot of the other kit, an unknown kit, a specimen that the kit does not accept, a line of the other kit", () => {
    const records = read([
      { id: "P1", devices: [other(["clear", "clear"], { row: { lot_id: "LOT1" } })] },
      { id: "P2", devices: [main(["clear", "clear", "clear"], { row: { kit_id: "kit-z" } })] },
      { id: "P3", devices: [other(["clear", "clear"], { specimen: "fingerstick", row: { lot_id: "" } })] },
      { id: "P4", devices: [main(["clear", "clear"])] },
    ]);
    expect(faults(records)).toEqual([
      ["lot_of_other_kit", "index_tests", 2],
      ["unknown_kit", "index_tests", 3],
      ["specimen_not_of_kit", "index_tests", 4],
      ["no_reading", "index_tests", 5],
      ["unknown_line", "line_readings", 9],
      ["unknown_line", "line_readings", 10],
    ]);
    const [issue] = records.issues.filter(({ rule }) => rule === "unknown_kit");
    expect(issue).toMatchObject({ expected: "one of kit-x, kit-y", received: '"kit-z"' });
  });

  it("raise their alarms kit by kit", () => {
    const late = { readings: [{ lines: ["clear", "absent"], minutes: 30 }] };
    const records = read(
      Array.from({ length: 4 }, (_, index) => ({
        id: `P${index}`,
        devices: [main(["clear", "absent", "absent"]), other([], late)],
      })),
      LOT9,
    );
    const found = records.alarms.map(({ code, count, subjects }) => [code, count, subjects]);
    expect(found).toContainEqual(["outside_window", 4, ["kit-y", "venous"]]);
    expect(found).toContainEqual(["single_lot", 4, ["LOT1", "kit-x"]]);
    expect(found).toContainEqual(["single_lot", 4, ["LOT9", "kit-y"]]);
    expect(found.filter(([code]) => code === "outside_window")).toHaveLength(1);
  });

  it("have their own readers, where every reader is analysed", () => {
    const by = (reader: string, lines: readonly string[]) => ({ readings: [{ lines, reader }] });
    const records = read(
      [
        {
          id: "P1",
          devices: [
            main([], by("R1", ["clear", "absent", "absent"])),
            other([], by("R2", ["clear", "clear"])),
          ],
        },
      ],
      { study: { readers: { use: "each", primary: "R1" } } },
    );
    const venous = records.sets.filter((set) => set.analyte === "A1" && set.specimen === "venous");
    expect(venous.map((set) => [set.kit, set.reader])).toEqual([
      ["kit-x", "R1"],
      ["kit-y", "R2"],
    ]);
  });
});

describe("readers whom comparisons name", () => {
  const comparison = (first: object, second: object) => ({
    comparisons: [{ id: "c", title: "C", analyte: "A1", first, second }],
  });
  const people: PersonPlan[] = [
    {
      id: "P1",
      reference: NEGATIVE,
      devices: [
        {
          readings: [
            { lines: ["clear", "absent", "absent"] },
            { lines: ["clear", "clear", "absent"], reader: "R2" },
          ],
        },
      ],
    },
  ];
  const readersIn = (study: object) => {
    const records = recordsOf(buildStudy({ people, study: { ...study } }));
    const sets = records.sets.filter((set) => set.analyte === "A1" && set.specimen === "venous");
    return { sets: sets.map((set) => [set.reader, set.pairs[0]?.rapid]), issues: places(records.issues) };
  };

  it("have sets too, after those that the study asks for", () => {
    expect(readersIn({}).sets).toEqual([["R1", "nonreactive"]]);
    expect(readersIn(comparison({ reader: "R2" }, { reader: "R1" })).sets).toEqual([
      ["R1", "nonreactive"],
      ["R2", "reactive"],
    ]);
    const readers = { use: "consensus", disagreement: "reactive" };
    expect(readersIn({ ...comparison({ reader: "R2" }, {}), readers }).sets).toEqual([
      ["consensus", "reactive"],
      ["R2", "reactive"],
    ]);
  });

  it("are pointed out where they read nothing", () => {
    const { issues, sets } = readersIn(comparison({ reader: "R9" }, {}));
    expect(issues.map(([rule]) => rule)).toEqual(["reader_without_readings", "no_rows"]);
    expect(sets).toHaveLength(1);
  });
});
