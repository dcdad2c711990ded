import { describe, expect, it } from "vitest";
import { parse, stringify } from "yaml";
import type { StudyRecords } from "../../src/records/model.ts";
import { buildStudy, csvOf, type DevicePlan, type Row, textFile } from "./build-study.ts";
import { accounts, places, recordsOf, SOUND_PEOPLE } from "./expect-records.ts";

type Reading = NonNullable<DevicePlan["readings"]>[number];

const at = (minutes: number, lines: readonly string[], reading_no: string, row: Row = {}): Reading => ({
  lines,
  minutes,
  row: { reading_no, ...row },
});

function read(devices: readonly DevicePlan[], edit?: (rows: Row[]) => void): StudyRecords {
  const records = recordsOf(
    buildStudy({
      people: [{ id: "P1", reference: { A1: "negative", A2: "negative" }, devices }],
      edit: (tables) => edit?.(tables.line_readings),
    }),
  );
  expect(accounts(records)).toEqual({ rows: true, people: true });
  return records;
}

const readingsLedger = (records: StudyRecords) =>
  records.ledger.find(({ file }) => file === "line_readings.csv");

describe("a second reading of a device by the same reader", () => {
  it("decides nothing, stands beside the first, and its rows are analysed", () => {
    const records = read([
      {
        readings: [
          at(31, ["clear", "faint", "absent"], "2"),
          at(17, ["clear", "absent", "absent"], "1"),
          { ...at(18, ["clear", "absent", "absent"], "1"), reader: "R2" },
        ],
      },
    ]);
    expect(records.sets[0]?.pairs[0]).toMatchObject({ rapid: "nonreactive", minutes: 17, window: "in" });
    expect(records.results.map(({ reader, analyte }) => `${reader} ${analyte}`)).toEqual([
      "R1 A1",
      "R1 A2",
      "R2 A1",
      "R2 A2",
    ]);
    expect(records.rereadings).toEqual(
      ["reactive", "nonreactive"].map((result, index) => ({
        device: "P1-d1",
        person: "P1",
        analyte: `A${index + 1}`,
        kit: "kit-x",
        specimen: "venous",
        reader: "R1",
        first: { result: "nonreactive", window: "in", minutes: 17 },
        second: { result, window: "late", minutes: 31 },
      })),
    );
    expect(readingsLedger(records)).toMatchObject({ rows: 9, analysed: 9, setAside: [] });
    expect(records.totals.readings).toBe(3);
    expect(places(records.issues)).toEqual([["no_rows", "interpretations", null]]);
  });

  it("is the one next in number; later ones are set aside", () => {
    const records = read([
      {
        readings: [
          at(17, ["clear", "absent", "absent"], ""),
          at(60, ["clear", "clear", "clear"], "9"),
          at(25, ["clear", "absent", "faint"], "4"),
        ],
      },
    ]);
    expect(records.rereadings.map(({ second }) => [second.minutes, second.result])).toEqual([
      [25, "nonreactive"],
      [25, "reactive"],
    ]);
    expect(places(records.issues)).toContainEqual(["later_reading", "line_readings", 5]);
    expect(readingsLedger(records)?.setAside).toEqual([{ reason: "later_reading", rows: [5, 6, 7] }]);
  });

  it("has no partner where the first gave no result, and does not take its place", () => {
    const records = read(
      [{ readings: [at(17, ["clear", "absent", "absent"], "1"), at(30, ["clear", "clear", "clear"], "2")] }],
      (rows) => rows.splice(1, 1),
    );
    expect(records.sets.find(({ analyte }) => analyte === "A1")?.pairs[0]?.rapid).toBe("not_done");
    expect(records.rereadings.map(({ analyte }) => analyte)).toEqual(["A2"]);
    expect(places(records.issues).filter(([, file]) => file === "line_readings")).toEqual([
      ["missing_line", "line_readings", 2],
      ["later_reading", "line_readings", 5],
    ]);
    expect(readingsLedger(records)).toMatchObject({ rows: 5, analysed: 4 });
  });

  it("goes with its device where that is set aside", () => {
    const records = read([
      { readings: [at(17, ["clear", "absent", "absent"], "1")] },
      {
        attempt: 2,
        readings: [at(17, ["clear", "clear", "absent"], "1"), at(30, ["clear", "clear", "clear"], "2")],
      },
    ]);
    expect(records.rereadings).toEqual([]);
    const aside = readingsLedger(records)?.setAside;
    expect(aside).toEqual([{ reason: "repeat_without_invalid", rows: [5, 6, 7, 8, 9, 10] }]);
  });

  it("keeps its own invalid result", () => {
    const records = read([
      { readings: [at(17, ["clear", "clear", "absent"], "1"), at(90, ["absent", "clear", "absent"], "2")] },
    ]);
    expect(records.rereadings[0]).toMatchObject({
      first: { result: "reactive" },
      second: { result: "invalid" },
    });
    expect(records.totals.lineWithoutControl).toBe(0);
  });
});

describe("in the wide form", () => {
  const wide = (device: string, reading_no: string, line: string, minutes: string): Row => ({
    cassette_id: device,
    reader_id: "R1",
    reading_no,
    minutes,
    c: "clear",
    one: line,
    two: "absent",
  });
  const study = (rows: readonly Row[]) =>
    buildStudy({ people: SOUND_PEOPLE }).map((file) => {
      if (file.name === "line_readings.csv") return textFile("wide.csv", csvOf(rows));
      if (file.name !== "study.yaml") return file;
      const plan = parse(new TextDecoder().decode(file.bytes)) as { records: Record<string, unknown> };
      const { line_readings: _, ...records } = plan.records;
      const wide_readings = { table: "wide.csv", lines: { C: "c", T1: "one", T2: "two" } };
      return textFile("study.yaml", stringify({ ...plan, records: { ...records, wide_readings } }));
    });

  it("the second row of a reader is held against the first", () => {
    const records = recordsOf(
      study([
        wide("P1-d1", "1", "absent", "16"),
        wide("P1-d1", "2", "faint", "28"),
        wide("P2-d1", "2", "clear", "30"),
        wide("P2-d1", "1", "red", "17"),
      ]),
    );
    expect(records.rereadings.map(({ device, first, second }) => [device, first, second])).toEqual([
      [
        "P1-d1",
        { result: "nonreactive", window: "in", minutes: 16 },
        { result: "reactive", window: "late", minutes: 28 },
      ],
      [
        "P1-d1",
        { result: "nonreactive", window: "in", minutes: 16 },
        { result: "nonreactive", window: "late", minutes: 28 },
      ],
    ]);
    // The first row of P2-d1 can't be used: its late second reading does not step in.
    expect(records.sets[0]?.pairs.map((pair) => pair.rapid)).toEqual(["nonreactive", "not_done"]);
    expect(places(records.issues).filter(([rule]) => rule !== "no_rows")).toEqual([
      ["no_reading", "index_tests", 3],
      ["later_reading", "wide", 4],
      ["unknown_code", "wide", 5],
    ]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });
});
