import { describe, expect, it } from "vitest";
import type { PairedSet, StudyRecords } from "../../src/records/model.ts";
import { buildStudy, type DevicePlan, type PersonPlan, studyPlan } from "./build-study.ts";
import { accounts, places, recordsOf } from "./expect-records.ts";

const NEGATIVE = { A1: "negative", A2: "negative" } as const;
const POSITIVE = { A1: "positive", A2: "negative" } as const;
const sound = (plan: Partial<DevicePlan> = {}): DevicePlan => ({
  readings: [{ lines: ["clear", "absent", "absent"] }],
  ...plan,
});

function setOf(records: StudyRecords, analyte = "A1", specimen = "venous", reader?: string): PairedSet {
  const found = records.sets.find(
    (set) =>
      set.analyte === analyte && set.specimen === specimen && (reader === undefined || set.reader === reader),
  );
  if (found === undefined) throw new Error(`no set ${analyte} ${specimen}`);
  return found;
}

function study(people: readonly PersonPlan[], plan: Record<string, unknown> = {}): StudyRecords {
  const records = recordsOf(buildStudy({ people, study: plan }));
  expect(accounts(records)).toEqual({ rows: true, people: true });
  return records;
}

const treatment = (repeat: string) => ({
  treatment: { invalid: "set_aside", outside_window: "keep", repeat },
});

describe("people", () => {
  it("counts everyone enrolled in every set, also those without a device", () => {
    const records = study([
      { id: "P1", reference: NEGATIVE, devices: [sound()] },
      { id: "P2", reference: POSITIVE },
      { id: "P3", participant: { consent: "no" } },
      { id: "P4", participant: { eligible: "false", exclusion_reason: "age" }, devices: [sound()] },
    ]);
    expect(records.totals.enrolled).toBe(4);
    expect(records.sets).toHaveLength(4);
    for (const set of records.sets) {
      expect(set.before).toEqual([
        { reason: "not_consented", people: 1 },
        { reason: "not_eligible", people: 1 },
      ]);
      expect(set.pairs.map((pair) => pair.person)).toEqual(["P1", "P2"]);
    }
    expect(setOf(records).pairs[1]).toMatchObject({ rapid: "not_done", reference: "positive" });
    expect(setOf(records, "A1", "fingerstick").pairs[0]).toMatchObject({ rapid: "not_done" });
    const devices = records.ledger.find((entry) => entry.file === "index_tests.csv");
    expect(devices?.setAside).toEqual([{ reason: "not_eligible", rows: [3] }]);
  });

  it("counts a person enrolled under two identifiers once, at the first enrolment", () => {
    const key = { person_key: "same" };
    const records = study([
      { id: "LATE", participant: { ...key, enrolment_date: "2026-04-20" }, devices: [sound()] },
      { id: "EARLY", participant: { ...key, enrolment_date: "2026-04-05" }, devices: [sound()] },
      { id: "OTHER", participant: { person_key: "another" }, devices: [sound()] },
    ]);
    expect(setOf(records).pairs.map((pair) => pair.person)).toEqual(["EARLY", "OTHER"]);
    expect(setOf(records).before).toEqual([{ reason: "enrolled_twice", people: 1 }]);
    expect(places(records.issues)).toContainEqual(["enrolled_twice", "participants", 2]);
    expect(records.totals.devices).toBe(2);
  });

  it("counts the first visit and sets later ones aside, with all that hangs on them", () => {
    const records = study([
      {
        id: "P1",
        reference: NEGATIVE,
        devices: [
          sound({ id: "second", visit: 2, readings: [{ lines: ["clear", "clear", "clear"] }] }),
          sound({ id: "first", visit: 1 }),
        ],
      },
    ]);
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "nonreactive" });
    expect(records.results.map((result) => result.device)).toEqual(["first", "first"]);
    const aside = records.ledger.map(({ file, setAside }) => [file, setAside.map((entry) => entry.reason)]);
    expect(aside.filter(([, reasons]) => reasons?.length)).toEqual([
      ["specimens.csv", ["later_visit"]],
      ["index_tests.csv", ["later_visit"]],
      ["line_readings.csv", ["later_visit"]],
    ]);
  });

  it("takes the selection from the person, else from the arm", () => {
    const records = study(
      [
        { id: "P1", arm: "b" },
        { id: "P2", arm: "b", participant: { selection: "Random" } },
        { id: "P3", arm: "" },
      ],
      {
        arms: [
          { id: "a", title: "A", selection: "consecutive" },
          { id: "b", title: "B", selection: "known_positive" },
        ],
      },
    );
    const selections = setOf(records).pairs.map((pair) => pair.selection);
    expect(selections).toEqual(["known_positive", "random", "convenience"]);
    expect(places(records.issues)).toContainEqual(["missing_value", "participants", 4]);
  });

  it("lets the reference hang on another specimen of the same person and visit", () => {
    const records = study([{ id: "P1", reference: POSITIVE, devices: [sound({ specimen: "fingerstick" })] }]);
    expect(setOf(records, "A1", "fingerstick").pairs[0]).toMatchObject({
      rapid: "nonreactive",
      reference: "positive",
    });
  });
});

describe("devices", () => {
  const invalid = { readings: [{ lines: ["absent", "clear", "absent"] as const }] };
  const reactive = { readings: [{ lines: ["clear", "clear", "absent"] as const }] };

  it.each([
    ["first", "invalid", "nonreactive"],
    ["last", "reactive", "invalid"],
    ["any", "reactive", "nonreactive"],
  ])("repeat: %s", (rule, afterRepeat, otherAnalyte) => {
    const half = { readings: [{ lines: ["clear", "unreadable", "absent"] as const }] };
    const halfAgain = { readings: [{ lines: ["clear", "clear", "unreadable"] as const }] };
    const records = study(
      [
        { id: "P1", reference: POSITIVE, devices: [invalid, { ...reactive, attempt: 2 }] },
        { id: "P2", reference: POSITIVE, devices: [half, { ...halfAgain, attempt: 2 }] },
      ],
      treatment(rule),
    );
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: afterRepeat, firstRapid: "invalid" });
    expect(setOf(records, "A2").pairs[1]).toMatchObject({ rapid: otherAnalyte, firstRapid: "nonreactive" });
    expect(records.totals.repeats).toBe(2);
    expect(records.totals.lineWithoutControl).toBe(1);
  });

  it("orders attempts by number, not by row", () => {
    const records = study(
      [
        {
          id: "P1",
          devices: [
            { ...reactive, attempt: 2 },
            { ...invalid, attempt: 1 },
          ],
        },
      ],
      treatment("first"),
    );
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "invalid", invalidReason: "control_absent" });
  });

  it("does not count a repeat of a valid result", () => {
    const records = study([{ id: "P1", devices: [sound(), { ...reactive, attempt: 2 }] }], treatment("last"));
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "nonreactive" });
    expect(places(records.issues)).toContainEqual(["repeat_without_invalid", "index_tests", 3]);
    expect(records.results.every((result) => result.attempt === 1)).toBe(true);
  });

  it("does not count more attempts than the kit file allows", () => {
    const records = study([
      { id: "P1", devices: [invalid, { ...invalid, attempt: 2 }, { ...reactive, attempt: 3 }] },
    ]);
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "invalid" });
    expect(places(records.issues)).toContainEqual(["too_many_attempts", "index_tests", 4]);
  });

  it("sets all rows aside where one device stands for two people", () => {
    const records = study([
      { id: "P1", devices: [sound({ id: "same" })] },
      { id: "P2", devices: [sound({ id: "same" })] },
      { id: "P3", devices: [sound()] },
    ]);
    expect(places(records.issues).filter(([rule]) => rule === "device_for_two_people")).toEqual([
      ["device_for_two_people", "index_tests", 2],
      ["device_for_two_people", "index_tests", 3],
    ]);
    expect(setOf(records).pairs.map((pair) => pair.rapid)).toEqual(["not_done", "not_done", "nonreactive"]);
    const readings = records.ledger.find((entry) => entry.file === "line_readings.csv");
    expect(readings?.setAside).toEqual([{ reason: "device_for_two_people", rows: [2, 3, 4, 5, 6, 7] }]);
  });

  it("sets both rows aside where one device stands for two specimens of one person", () => {
    const records = study([
      { id: "P1", devices: [sound({ id: "same" }), sound({ id: "same", specimen: "fingerstick" })] },
    ]);
    expect(places(records.issues).filter(([rule]) => rule === "duplicate_device")).toHaveLength(2);
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "not_done" });
  });

  it("counts the first row where a device stands twice for the same specimen", () => {
    const records = recordsOf(
      buildStudy({
        people: [{ id: "P1", devices: [sound()] }],
        edit: (tables) => tables.index_tests.push({ ...tables.index_tests[0] }),
      }),
    );
    expect(places(records.issues)).toContainEqual(["duplicate_device", "index_tests", 3]);
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "nonreactive" });
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("counts a device that nobody could read as invalid, by its recorded reason", () => {
    const records = study([{ id: "P1", devices: [{ row: { invalid_reason: "no_flow" }, readings: [] }] }]);
    expect(setOf(records).pairs[0]).toMatchObject({ rapid: "invalid", invalidReason: "recorded_invalid" });
    expect(records.results.map(({ reader, reason }) => [reader, reason])).toEqual([
      ["R1", "recorded_invalid"],
      ["R1", "recorded_invalid"],
    ]);
  });

  it("flags readings outside the window and leaves their result", () => {
    const at = (minutes: number | null) => ({
      readings: [{ lines: ["clear", "clear", "absent"] as const, minutes }],
    });
    const records = study(
      [14, 15, 20, 21, null].map((minutes, index) => ({ id: `P${index}`, devices: [at(minutes)] })),
    );
    const pairs = setOf(records).pairs;
    expect(pairs.map((pair) => pair.window)).toEqual(["early", "in", "in", "late", "unknown"]);
    expect(pairs.every((pair) => pair.rapid === "reactive")).toBe(true);
  });

  it("counts minutes from the step that the kit file names", () => {
    const files = buildStudy({
      people: [
        { id: "P1", devices: [{ readings: [{ lines: ["clear", "absent", "absent"], minutes: 20.5 }] }] },
      ],
      kit: { timed_from: "buffer_applied" },
    });
    expect(setOf(recordsOf(files)).pairs[0]).toMatchObject({ minutes: 19.5, window: "in" });
  });

  it("reads strata from every table, those of a device from the device that counted", () => {
    const stratum = (id: string, table: string, column: string) => ({
      id,
      title: id,
      table,
      column,
      planned: true,
    });
    const records = study(
      [{ id: "P1", devices: [invalid, { ...reactive, attempt: 2, lot: "LOT2" }] }, { id: "P2" }],
      {
        strata: [
          stratum("sex", "participants", "sex"),
          stratum("lot", "index_tests", "lot_id"),
          stratum("cadre", "operators", "cadre"),
          stratum("expiry", "lots", "expiry"),
          stratum("visit", "specimens", "visit_no"),
          stratum("none", "participants", "height"),
        ],
      },
    );
    const [first, second] = setOf(records).pairs;
    expect(first?.strata).toEqual({
      sex: "unknown",
      lot: "LOT2",
      cadre: "nurse",
      expiry: "2027-01-31",
      visit: "1",
      none: null,
    });
    expect(second?.strata).toMatchObject({ sex: "unknown", lot: null, cadre: null });
    expect(records.issues.find((issue) => issue.rule === "missing_column")).toMatchObject({
      column: "height",
    });
  });
});

describe("readers", () => {
  const eyes = (one: string, two: string): readonly DevicePlan[] => [
    {
      readings: [
        { reader: "R1", lines: ["clear", one, "absent"] },
        { reader: "R2", lines: ["clear", two, "absent"] },
        { reader: "OPT", lines: [50, 30, 1] },
      ],
    },
  ];
  const people: PersonPlan[] = [
    { id: "P1", devices: eyes("clear", "clear") },
    { id: "P2", devices: eyes("clear", "absent") },
    { id: "P3", devices: eyes("unreadable", "clear") },
    { id: "P4", devices: [{ readings: [{ reader: "R2", lines: ["clear", "absent", "absent"] }] }] },
  ];
  const results = (records: StudyRecords, reader?: string) =>
    setOf(records, "A1", "venous", reader).pairs.map((pair) => pair.rapid);

  it("primary: one reader's results", () => {
    const records = study(people, { readers: { use: "primary", primary: "R2" } });
    expect(records.sets.every((set) => set.reader === "R2" && set.method === "eye")).toBe(true);
    expect(results(records)).toEqual(["reactive", "nonreactive", "reactive", "nonreactive"]);
  });

  it("each: every reader's results, the primary first, instruments after eyes", () => {
    const records = study(people, { readers: { use: "each", primary: "R2" } });
    const readers = records.sets.filter((set) => set.analyte === "A1" && set.specimen === "venous");
    expect(readers.map((set) => [set.reader, set.method])).toEqual([
      ["R2", "eye"],
      ["R1", "eye"],
      ["OPT", "optical"],
    ]);
    expect(results(records, "R1")).toEqual(["reactive", "reactive", "invalid", "not_done"]);
    expect(results(records, "OPT")).toEqual(["reactive", "reactive", "reactive", "not_done"]);
  });

  it.each([
    ["reactive", ["reactive", "reactive", "invalid", "nonreactive"]],
    ["nonreactive", ["reactive", "nonreactive", "invalid", "nonreactive"]],
    ["set_aside", ["reactive", "invalid", "nonreactive"]],
  ])("consensus, who disagree: %s", (disagreement, expected) => {
    const records = study(people, { readers: { use: "consensus", disagreement } });
    expect(results(records)).toEqual(expected);
    const before = disagreement === "set_aside" ? [{ reason: "readers_disagree", people: 1 }] : [];
    expect(setOf(records).before).toEqual(before);
  });

  it("keeps the instrument's intensity and judges it by the kit file's cut-off", () => {
    const optical = study(people, { readers: { use: "each" } }).results.filter(
      ({ method }) => method === "optical",
    );
    expect(optical[0]).toMatchObject({ analyte: "A1", intensity: 30, result: "reactive" });
    expect(optical[1]).toMatchObject({ analyte: "A2", intensity: 1, result: "nonreactive" });
  });

  it("holds typed results against own and other lines", () => {
    const records = recordsOf(
      buildStudy({
        people: people.slice(1, 2),
        edit: (tables) =>
          tables.interpretations.push({
            cassette_id: "P2-d1",
            reader_id: "R1",
            analyte_id: "A1",
            result_typed: "Nonreactive ",
          }),
      }),
    );
    expect(records.interpretations).toEqual([
      {
        device: "P2-d1",
        reader: "R1",
        analyte: "A1",
        typed: "nonreactive",
        derived: "reactive",
        other: "nonreactive",
      },
    ]);
  });
});

describe("a study without some of its parts", () => {
  it("needs neither interpretations nor lots nor operators", () => {
    const {
      interpretations: _,
      lots: __,
      operators: ___,
      ...needed
    } = studyPlan().records as Record<string, string>;
    const records = study([{ id: "P1", devices: [sound()] }], { records: needed });
    expect(records.ledger).toHaveLength(5);
    const rules = new Set(records.issues.map((issue) => issue.rule));
    expect(rules).toEqual(new Set(["missing_reference", "no_rows"]));
  });
});
