import { describe, expect, it } from "vitest";
import { parse, stringify } from "yaml";
import type { InputFile } from "../../src/records/model.ts";
import { buildStudy, csvOf, type Row, textFile } from "./build-study.ts";
import { accounts, places, recordsOf, SOUND_PEOPLE } from "./expect-records.ts";

/** The sound study with its readings in the wide form. */
function wideStudy(rows: readonly Row[]): InputFile[] {
  const files = buildStudy({ people: SOUND_PEOPLE });
  return files.map((file) => {
    if (file.name === "line_readings.csv") return textFile("wide.csv", csvOf(rows));
    if (file.name !== "study.yaml") return file;
    const study = parse(new TextDecoder().decode(file.bytes)) as { records: Record<string, unknown> };
    const { line_readings: _, ...records } = study.records;
    const wide_readings = { table: "wide.csv", lines: { C: "control", T1: "line 1", T2: "line 2" } };
    return textFile("study.yaml", stringify({ ...study, records: { ...records, wide_readings } }));
  });
}

const wide = (device: string, change: Row = {}): Row => ({
  cassette_id: device,
  reader_id: "R1",
  method: "",
  minutes: "17",
  control: "clear",
  "line 1": "absent",
  "line 2": "Faint",
  blinded: "yes",
  ...change,
});

describe("the wide form", () => {
  it("gives the same results as the long form", () => {
    const records = recordsOf(
      wideStudy([
        wide("P1-d1", { "line 1": "clear" }),
        wide("P2-d1", { minutes: "22" }),
        wide("P1-d1", {
          reader_id: "OPT",
          method: "optical",
          control: "55.5",
          "line 1": "9.9",
          "line 2": "12",
        }),
      ]),
    );
    const found = records.results.map((result) => [
      result.device,
      result.reader,
      result.analyte,
      result.result,
    ]);
    expect(found).toEqual([
      ["P1-d1", "R1", "A1", "reactive"],
      ["P1-d1", "R1", "A2", "reactive"],
      ["P1-d1", "OPT", "A1", "nonreactive"],
      ["P1-d1", "OPT", "A2", "reactive"],
      ["P2-d1", "R1", "A1", "nonreactive"],
      ["P2-d1", "R1", "A2", "reactive"],
    ]);
    expect(records.results[4]).toMatchObject({ minutes: 22, window: "late" });
    expect(records.results[2]).toMatchObject({ intensity: 9.9 });
    expect(places(records.issues)).toEqual([["no_rows", "interpretations", null]]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("uses a row whole or not at all", () => {
    const records = recordsOf(
      wideStudy([
        wide("P1-d1", { "line 2": "" }),
        wide("P2-d1", { "line 2": "red" }),
        wide("P2-d1", { minutes: "-3" }),
        wide("P2-d1"),
        wide("P9-d1"),
        wide("P1-d1", { method: "smell" }),
        wide("P1-d1", { reader_id: "" }),
      ]),
    );
    expect(places(records.issues).filter(([, file]) => file === "wide")).toEqual([
      ["missing_value", "wide", 2],
      ["unknown_code", "wide", 3],
      ["negative_minutes", "wide", 4],
      ["duplicate_reading", "wide", 5],
      ["unknown_device", "wide", 6],
      ["unknown_code", "wide", 7],
      ["blank_identifier", "wide", 8],
    ]);
    expect(records.results.map((result) => [result.device, result.minutes])).toEqual([
      ["P2-d1", null],
      ["P2-d1", null],
    ]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });
});
