import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import type { StudyRecords } from "../../src/records/model.ts";
import { tally } from "../../src/records/tallies.ts";
import { kitPlan, otherKitPlan, studyPlan, textFile } from "./build-study.ts";
import { accounts, places, recordsOf } from "./expect-records.ts";

type Plan = Record<string, unknown>;

const analytes = (studyPlan().analytes as Plan[]).map((entry) => ({
  ...entry,
  reference: { title: "EIA", role: "reference_standard", discrepancies: "none settled" },
}));

function read(records: Plan, table: string, change: Plan = {}): StudyRecords {
  const study = {
    ...studyPlan(),
    analytes,
    kit: undefined,
    kits: ["kit.yaml", "kit-y.yaml"],
    specimens: [{ type: "venous", title: "Venous" }],
    ...change,
    records,
  };
  return recordsOf([
    textFile("study.yaml", stringify(study)),
    textFile("kit.yaml", stringify(kitPlan())),
    textFile("kit-y.yaml", stringify(otherKitPlan())),
    textFile("t.csv", table),
  ]);
}

const RESULTS: Plan = {
  shape: "results",
  table: "t.csv",
  columns: { person: "who", device: "dev", minutes: "min" },
  analytes: [
    { analyte: "A1", rapid: "x1", reference: "r1" },
    { analyte: "A2", rapid: "x2", reference: "r2" },
    { analyte: "A1", kit: "kit-y", rapid: "y1", reference: "r1" },
  ],
  codes: {
    rapid: { reactive: ["+"], nonreactive: ["-"], invalid: ["!"] },
    reference: { positive: ["P"], negative: ["N"] },
  },
};
const HEADER = "who,dev,min,x1,x2,y1,r1,r2\n";
const rapid = (records: StudyRecords) => records.sets.map((set) => set.pairs.map((pair) => pair.rapid));

describe("results of two kits", () => {
  it("stand side by side in one row: one device of each kit", () => {
    const records = read(RESULTS, `${HEADER}p1,d1,8,+,-,-,P,N\np2,d2,17,-,-,+,N,N\n`);
    expect(records.sets.map((set) => `${set.analyte} ${set.kit}`)).toEqual([
      "A1 kit-x",
      "A1 kit-y",
      "A2 kit-x",
    ]);
    expect(rapid(records)).toEqual([
      ["reactive", "nonreactive"],
      ["nonreactive", "reactive"],
      ["nonreactive", "nonreactive"],
    ]);
    // Windows: 15 to 20 minutes for kit-x, 5 to 10 for kit-y.
    expect(records.sets.map((set) => set.pairs.map((pair) => pair.window))).toEqual([
      ["early", "in"],
      ["in", "late"],
      ["early", "in"],
    ]);
    expect(records.results.map(({ device, kit, analyte }) => `${device}: ${kit} ${analyte}`)).toEqual([
      "d1, kit-x: kit-x A1",
      "d1, kit-x: kit-x A2",
      "d1, kit-y: kit-y A1",
      "d2, kit-x: kit-x A1",
      "d2, kit-x: kit-x A2",
      "d2, kit-y: kit-y A1",
    ]);
    expect(records.totals).toMatchObject({ enrolled: 2, devices: 4, repeats: 0 });
    expect(records.issues).toEqual([]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("may stand in rows of their own, and are repeated kit by kit", () => {
    const rows = [
      "p1,d1,17,+,-,,P,N",
      "p1,d2,8,,,!,P,N",
      "p1,d3,8,,,+,P,N",
      "p1,d4,17,-,-,,P,N",
      "p2,d5,,,,-,N,",
      "p2,d6,17,-,-,+,N,N",
    ];
    const records = read(RESULTS, `${HEADER}${rows.join("\n")}\n`);
    expect(rapid(records)).toEqual([
      ["reactive", "nonreactive"],
      ["reactive", "nonreactive"],
      ["nonreactive", "nonreactive"],
    ]);
    expect(records.sets[1]?.pairs[0]).toMatchObject({ firstRapid: "invalid" });
    expect(records.issues.map(({ rule, row, consequence }) => [rule, row, consequence])).toEqual([
      ["second_result", 5, "row_set_aside"],
      ["second_result", 7, "value_ignored"],
    ]);
    expect(records.ledger[0]).toMatchObject({ rows: 6, analysed: 5 });
    expect(
      records.results.filter(({ kit }) => kit === "kit-y").map(({ device, attempt }) => [device, attempt]),
    ).toEqual([
      ["d2", 1],
      ["d3", 2],
      ["d5", 1],
    ]);
    expect(records.totals).toMatchObject({ devices: 5, repeats: 1 });
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("of a specimen type that a kit does not accept are not counted", () => {
    const columns = { person: "who", specimen: "type" };
    const records = read(
      { ...RESULTS, columns },
      "who,type,x1,x2,y1,r1,r2\np1,fingerstick,+,-,+,P,N\np2,fingerstick,,,+,P,N\np3,venous,+,-,+,P,N\n",
      { specimens: ["venous", "fingerstick"].map((type) => ({ type, title: type })) },
    );
    expect(records.issues.map(({ rule, row, consequence }) => [rule, row, consequence])).toEqual([
      ["specimen_not_of_kit", 2, "value_ignored"],
      ["specimen_not_of_kit", 3, "row_set_aside"],
    ]);
    const other = records.sets.filter((set) => set.kit === "kit-y");
    expect(other.map((set) => [set.specimen, set.pairs.map((pair) => pair.rapid)])).toEqual([
      ["venous", ["not_done", "reactive"]],
    ]);
    expect(other[0]?.before).toEqual([{ reason: "specimen_not_of_kit", people: 1 }]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("have sets for the readers whom comparisons name", () => {
    const side = { id: "c", title: "C", analyte: "A1", first: { reader: "R2" }, second: { reader: "R1" } };
    const table = "who,rd,x1,x2,y1,r1,r2\np1,R1,+,-,,P,N\np1,R2,-,-,,P,N\n";
    const columns = { person: "who", reader: "rd" };
    const records = read({ ...RESULTS, columns }, table, { comparisons: [side] });
    expect(records.sets.map((set) => `${set.analyte} ${set.kit} ${set.reader}`)).toEqual([
      "A1 kit-x R1",
      "A1 kit-x R2",
      "A1 kit-y R1",
      "A2 kit-x R1",
      "A2 kit-x R2",
    ]);
  });
});

describe("counts of two kits", () => {
  it("add up kit by kit", () => {
    const records = read(
      {
        shape: "counts",
        table: "t.csv",
        columns: {
          analyte: "a",
          kit: "k",
          specimen: "s",
          true_positives: "tp",
          false_positives: "fp",
          false_negatives: "fn",
          true_negatives: "tn",
        },
      },
      "a,k,s,tp,fp,fn,tn\nA1,kit-y,venous,1,2,3,4\nA1,KIT-X,venous,5,6,7,8\nA1,kit-y,venous,10,0,0,0\nA1,kit-z,venous,1,1,1,1\nA1,,venous,1,1,1,1\nA1,kit-y,fingerstick,1,1,1,1\n",
      { specimens: ["venous", "fingerstick"].map((type) => ({ type, title: type })) },
    );
    const counts = records.sets.map((set) => [
      set.kit,
      Object.values(tally(set, { invalid: "set_aside", outsideWindow: "keep" }).counts),
    ]);
    expect(counts).toEqual([
      ["kit-x", [5, 6, 7, 8]],
      ["kit-y", [11, 2, 3, 4]],
    ]);
    expect(places(records.issues)).toEqual([
      ["unknown_kit", "t", 5],
      ["unknown_kit", "t", 6],
      ["specimen_not_of_kit", "t", 7],
    ]);
    expect(records.ledger[0]).toMatchObject({ rows: 6, analysed: 3 });
  });
});
