import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import type { PairedSet, StudyRecords } from "../../src/records/model.ts";
import { tally } from "../../src/records/tallies.ts";
import { kitPlan, studyPlan, textFile } from "./build-study.ts";
import { accounts, places, recordsOf } from "./expect-records.ts";

type Plan = Record<string, unknown>;

const analytes = (studyPlan().analytes as Plan[]).map((entry) => ({
  ...entry,
  reference: { title: "EIA", role: "reference_standard", discrepancies: "none settled" },
}));

const RESULTS: Plan = {
  shape: "results",
  table: "results.csv",
  columns: { person: "who", device: "device", site: "clinic", minutes: "min" },
  analytes: [
    { analyte: "A1", rapid: "a1", reference: "ref1" },
    { analyte: "A2", rapid: "a2", reference: "ref2" },
  ],
  codes: {
    rapid: { reactive: ["pos", "1"], nonreactive: ["neg", "0"], invalid: ["inv"] },
    reference: { positive: ["+"], negative: ["-"], indeterminate: ["?"] },
  },
};

function read(records: Plan, table: string | Uint8Array, change: Plan = {}): StudyRecords {
  const study = {
    ...studyPlan(),
    analytes,
    specimens: [{ type: "venous", title: "Venous" }],
    ...change,
    records,
  };
  const name = records.table as string;
  return recordsOf([
    textFile("study.yaml", stringify(study)),
    textFile("kit.yaml", stringify(kitPlan())),
    typeof table === "string" ? textFile(name, table) : { name, bytes: table },
  ]);
}

const first = (records: StudyRecords): PairedSet => records.sets[0] as PairedSet;
const rapid = (records: StudyRecords) => first(records).pairs.map((pair) => pair.rapid);
const plain = { invalid: "set_aside", outsideWindow: "keep" } as const;
const HEADER = "who,device,clinic,min,a1,ref1,a2,ref2\n";

describe("result-level records", () => {
  it("become the same paired sets", () => {
    const records = read(
      RESULTS,
      `${HEADER}p1,d1,N,17, POS ,+,neg,-\np2,d2,N,25,neg,-,INV,\np3,d3,S,,0,?,1,+\n`,
    );
    expect(records.sets.map((set) => [set.analyte, set.specimen, set.reader, set.method])).toEqual([
      ["A1", "venous", "recorded", "recorded"],
      ["A2", "venous", "recorded", "recorded"],
    ]);
    expect(first(records).pairs).toMatchObject([
      { person: "p1", rapid: "reactive", reference: "positive", window: "in", minutes: 17, site: "N" },
      { person: "p2", rapid: "nonreactive", reference: "negative", window: "late", minutes: 25 },
      { person: "p3", rapid: "nonreactive", reference: "indeterminate", window: "unknown", minutes: null },
    ]);
    expect(records.sets[1]?.pairs[1]).toMatchObject({ rapid: "invalid", reference: "not_done" });
    expect(records.results).toHaveLength(6);
    expect(records.totals).toMatchObject({ enrolled: 3, devices: 3, sites: ["N", "S"] });
    expect(records.issues).toEqual([]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("takes rows of one person as attempts, in file order", () => {
    const table = `${HEADER}p1,d1,N,17,inv,+,neg,-\np1,d2,N,17,pos,+,neg,-\np2,d3,N,17,neg,-,neg,-\np2,d4,N,17,pos,-,neg,-\n`;
    const records = read(RESULTS, table);
    expect(first(records).pairs).toMatchObject([
      { rapid: "reactive", firstRapid: "invalid" },
      { rapid: "nonreactive", firstRapid: "nonreactive" },
    ]);
    expect(places(records.issues)).toEqual([["second_result", "results", 5]]);
    expect(records.totals.repeats).toBe(1);
    expect(accounts(records)).toEqual({ rows: true, people: true });
    const firstOnly = { treatment: { invalid: "set_aside", outside_window: "keep", repeat: "first" } };
    expect(rapid(read(RESULTS, table, firstOnly))).toEqual(["invalid", "nonreactive"]);
  });

  it("finds the faults of rows and accounts for every person", () => {
    const rows = [
      "p1,d1,N,-5,pos,+,neg,-",
      "p2,d2,N,2000,maybe,+,neg,-",
      "p3,d3,N,17,neg",
      ",d4,N,17,neg,-,neg,-",
      "p4,d1,N,17,neg,-,neg,-",
      "p4,d5,N,17,inv,+,neg,-",
      "p1,d1,N,17,neg,-,neg,-",
      ",,,,,,,",
    ];
    const records = read(RESULTS, `${HEADER}${rows.join("\n")}\n`);
    expect(places(records.issues)).toEqual([
      ["negative_minutes", "results", 2],
      ["absurd_minutes", "results", 3],
      ["unknown_code", "results", 3],
      ["ragged_row", "results", 4],
      ["blank_identifier", "results", 5],
      ["device_for_two_people", "results", 6],
      ["second_result", "results", 7],
      ["duplicate_device", "results", 8],
      ["blank_row", "results", 9],
    ]);
    expect(rapid(records)).toEqual(["reactive", "not_done", "nonreactive"]);
    expect(first(records).before).toEqual([
      { reason: "blank_identifier", people: 1 },
      { reason: "ragged_row", people: 1 },
    ]);
    expect(records.totals.enrolled).toBe(5);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("keeps the first of two differing reference results", () => {
    const records = read(RESULTS, `${HEADER}p1,d1,N,17,inv,+,neg,\np1,d2,N,17,pos,-,neg,-\n`);
    expect(first(records).pairs[0]).toMatchObject({ rapid: "reactive", reference: "positive" });
    expect(records.sets[1]?.pairs[0]).toMatchObject({ reference: "negative" });
    expect(places(records.issues)).toEqual([["reference_differs", "results", 3]]);
  });

  it("understands semicolons with decimal commas, and says so once", () => {
    const table = `${HEADER.replaceAll(",", ";")}p1;d1;N;17,5;pos;+;neg;-\np2;d2;N;16,25;neg;-;neg;-\n`;
    const records = read(RESULTS, table);
    expect(first(records).pairs.map((pair) => pair.minutes)).toEqual([17.5, 16.25]);
    expect(records.issues).toMatchObject([
      { rule: "decimal_comma", severity: "note", row: 2, column: "min" },
    ]);
  });

  it("takes an empty cell for not done unless it is listed as a code", () => {
    const codes = RESULTS.codes as Record<string, Record<string, string[]>>;
    const listed = { ...codes, rapid: { ...codes.rapid, nonreactive: ["neg", ""] } };
    const table = `${HEADER}p1,d1,N,17,,-,,-\n`;
    expect(rapid(read(RESULTS, table))).toEqual(["not_done"]);
    expect(rapid(read({ ...RESULTS, codes: listed }, table))).toEqual(["nonreactive"]);
  });

  it("takes each row for a person where none is named, and strata and specimens from columns", () => {
    const records = read(
      { ...RESULTS, columns: { specimen: "type", selection: "how" } },
      "type,how,grp,a1,ref1,a2,ref2\nVenous,random,x,pos,+,neg,-\nfingerstick,,y,neg,-,neg,-\nurine,,y,neg,-,neg,-\n",
      {
        specimens: [
          { type: "venous", title: "Venous" },
          { type: "fingerstick", title: "Fingerstick" },
        ],
        strata: [{ id: "g", title: "Group", column: "grp", planned: true }],
      },
    );
    expect(records.sets).toHaveLength(4);
    expect(first(records).pairs).toMatchObject([
      { person: "row 2", rapid: "reactive", selection: "random", strata: { g: "x" } },
      { person: "row 3", rapid: "not_done", selection: "consecutive", strata: { g: "y" } },
    ]);
    expect(first(records).before).toEqual([{ reason: "unknown_specimen_type", people: 1 }]);
    expect(accounts(records)).toEqual({ rows: true, people: true });
  });

  it("makes sets by reader", () => {
    const columns = { person: "who", reader: "rd" };
    const table =
      "who,rd,a1,ref1,a2,ref2\np1,R1,pos,+,neg,-\np1,R2,neg,+,neg,-\np2,R1,neg,-,neg,-\np2,R2,neg,-,neg,-\n";
    const of = (readers: Plan) =>
      read({ ...RESULTS, columns }, table, { readers }).sets.filter((set) => set.analyte === "A1");
    expect(of({ use: "primary", primary: "R2" }).map((set) => set.pairs.map((pair) => pair.rapid))).toEqual([
      ["nonreactive", "nonreactive"],
    ]);
    expect(of({ use: "each", primary: "R2" }).map((set) => set.reader)).toEqual(["R2", "R1"]);
    const [together] = of({ use: "consensus", disagreement: "set_aside" });
    expect(together).toMatchObject({
      reader: "consensus",
      before: [{ reason: "readers_disagree", people: 1 }],
    });
    expect(together?.pairs.map((pair) => pair.person)).toEqual(["p2"]);
  });
});

describe("records that are counts", () => {
  const COUNTS: Plan = {
    shape: "counts",
    table: "counts.csv",
    columns: {
      analyte: "analyte",
      true_positives: "tp",
      false_positives: "fp",
      false_negatives: "fn",
      true_negatives: "tn",
      invalid_positives: "ip",
      invalid_negatives: "in",
    },
  };
  const table = "analyte,grp,tp,fp,fn,tn,ip,in\nA1,x,40,5,4,171,2,3\nA1,y,10,0,1,20,0,0\na2,x,1,2,3,4,0,0\n";

  it("become weighted pairs of the same kind", () => {
    const records = read(COUNTS, table, {
      strata: [{ id: "g", title: "Group", column: "grp", planned: true }],
    });
    expect(records.sets.map((set) => [set.analyte, set.reader])).toEqual([
      ["A1", "recorded"],
      ["A2", "recorded"],
    ]);
    const found = tally(first(records), plain);
    expect(found.counts).toEqual({
      truePositives: 50,
      falsePositives: 5,
      falseNegatives: 5,
      trueNegatives: 191,
    });
    expect(found).toMatchObject({ people: 256, invalidPositives: 2, invalidNegatives: 3 });
    const group = tally(first(records), plain, (pair) => pair.strata.g === "y");
    expect(group.people).toBe(31);
    expect(records.results).toEqual([]);
    expect(records.totals.enrolled).toBe(256);
    expect(accounts(records).rows).toBe(true);
  });

  it("set aside rows whose counts are none", () => {
    const bad = `${table}A1,z,-1,0,0,0,0,0\nA1,z,1.5,0,0,0,0,0\nA3,z,1,0,0,0,0,0\nA1,z,,0,0,0,0,0\nA1,z,many,0,0,0,0,0\n`;
    const records = read(COUNTS, bad);
    expect(places(records.issues)).toEqual([
      ["out_of_range", "counts", 5],
      ["not_a_number", "counts", 6],
      ["unknown_analyte", "counts", 7],
      ["missing_value", "counts", 8],
      ["not_a_number", "counts", 9],
    ]);
    expect(records.ledger[0]).toMatchObject({ rows: 8, analysed: 3 });
    expect(tally(first(records), plain).people).toBe(256);
  });
});
