import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import type { RowIssue } from "../../src/records/model.ts";
import { neededFiles, parseStudy, readStudy } from "../../src/records/read-study.ts";
import { buildStudy, studyPlan, textFile } from "./build-study.ts";
import { SOUND_PEOPLE } from "./expect-records.ts";

type Plan = Record<string, unknown>;

const short = (issues: readonly RowIssue[]) =>
  issues.filter(({ severity }) => severity === "error").map(({ rule, column }) => [rule, column]);

/** Faults of the study file alone. */
const alone = (change: Plan) =>
  short(parseStudy(textFile("study.yaml", stringify({ ...studyPlan(), ...change }))).issues);

/** Faults of a folder with kit-x and kit-y, or with the one of them changed. */
function withKits(study: Plan, other: true | Plan = true): RowIssue[] {
  const read = readStudy(buildStudy({ people: SOUND_PEOPLE, study, other }));
  return read.ok ? [] : [...read.issues];
}

const criterion = { id: "c1", analyte: "A1", measure: "sensitivity", at_least: 0.95, source: "protocol" };
const compared = (change: Plan) => ({
  comparisons: [
    {
      id: "c",
      title: "C",
      analyte: "A1",
      first: { specimen: "fingerstick" },
      second: { specimen: "venous" },
      ...change,
    },
  ],
});
const stratum = { id: "site", title: "Site", table: "participants", column: "site_id", planned: true };

describe("names between the fields of a study file", () => {
  it.each<[string, Plan, [string, string | null][]]>([
    ["kit and kits", { kits: ["a.yaml"] }, [["wrong_field", null]]],
    ["neither kit nor kits", { kit: undefined }, [["wrong_field", null]]],
    ["no kit", { kit: undefined, kits: [] }, [["wrong_field", "kits"]]],
    [
      "observed counts of an unknown analyte",
      {
        prevalences: [
          { id: "p", title: "P", values: { A1: 0.1 }, observed: { A9: { reactive: 1, tested: 2 } } },
        ],
      },
      [["unknown_name", "prevalences.0.observed.A9"]],
    ],
    [
      "more observed reactive than tested",
      {
        prevalences: [
          { id: "p", title: "P", values: { A1: 0.1 }, observed: { A1: { reactive: 3, tested: 2 } } },
        ],
      },
      [["wrong_field", "prevalences.0.observed.A1"]],
    ],
    ["cluster", { cluster: "site" }, [["unknown_name", "cluster"]]],
    ["cluster of a stratum", { cluster: "site", strata: [stratum] }, []],
    ["cluster of people", { cluster: "person" }, []],
    ["a stratum named person", { strata: [{ ...stratum, id: "person" }] }, [["unknown_name", "strata.0.id"]]],
    [
      "order of judging",
      { criteria: [criterion], decision: { control: "fixed_sequence", order: ["c1", "c2", "c1"] } },
      [
        ["unknown_name", "decision.order.1"],
        ["unknown_name", "decision.order.2"],
      ],
    ],
    ["comparison", compared({ analyte: "A3" }), [["unknown_name", "comparisons.0.analyte"]]],
    [
      "specimen of a comparison",
      compared({ first: { specimen: "urine" } }),
      [["unknown_name", "comparisons.0.first.specimen"]],
    ],
    [
      "margin that rules nothing out",
      compared({ margin: 1, source: "made up" }),
      [["wrong_field", "comparisons.0.margin"]],
    ],
    ["margin without a source", compared({ margin: 0.05 }), [["wrong_field", "comparisons.0"]]],
    [
      "comparison twice",
      { comparisons: [...compared({}).comparisons, ...compared({}).comparisons] },
      [["unknown_name", "comparisons.1.id"]],
    ],
  ])("%s", (_, change, expected) => {
    expect(alone(change)).toEqual(expected);
  });

  it("lists every kit file that is needed, the main one first", () => {
    const read = parseStudy(
      textFile("study.yaml", stringify({ ...studyPlan(), kit: undefined, kits: ["b.yaml", "a.yaml"] })),
    );
    expect(read.ok && neededFiles(read.value).slice(0, 3)).toEqual(["b.yaml", "a.yaml", "participants.csv"]);
  });
});

describe("names between a study and its kits", () => {
  it.each<[string, Plan, true | Plan, [string, string][]]>([
    ["kits of one id", {}, { id: "kit-x" }, [["unknown_name", "kits.1"]]],
    [
      "the main kit shows every analyte",
      { kits: ["kit-y.yaml", "kit.yaml"] },
      true,
      [
        ["unknown_name", "analytes.1.id"],
        ["unknown_name", "specimens.1.type"],
      ],
    ],
    [
      "a further kit shows one at least",
      {},
      {
        lines: [
          { id: "K", role: "control" },
          { id: "L", role: "test", analyte: "A9" },
        ],
      },
      [["unknown_name", "kits.1"]],
    ],
    ["and accepts a specimen type", {}, { specimens: [{ type: "serum" }] }, [["unknown_name", "kits.1"]]],
    [
      "kit of a criterion",
      {
        criteria: [
          { ...criterion, kit: "kit-z" },
          { ...criterion, id: "c2", kit: "kit-y", analyte: "A2" },
          { ...criterion, id: "c3", kit: "kit-y", specimen: "fingerstick" },
          { ...criterion, id: "c4", kit: "kit-y" },
        ],
      },
      true,
      [
        ["unknown_name", "criteria.0.kit"],
        ["unknown_name", "criteria.1.kit"],
        ["unknown_name", "criteria.2.kit"],
      ],
    ],
    [
      "kit of a comparison",
      compared({ first: { kit: "kit-z" }, second: { kit: "kit-y", specimen: "fingerstick" } }),
      true,
      [
        ["unknown_name", "comparisons.0.first.kit"],
        ["unknown_name", "comparisons.0.second.kit"],
      ],
    ],
    ["kits compared", compared({ first: { kit: "kit-y" }, second: { kit: "kit-x" } }), true, []],
    [
      "sides that are the same",
      compared({ first: {}, second: {} }),
      true,
      [["unknown_name", "comparisons.0.second"]],
    ],
    [
      "sides that are the same, as one names what the other leaves out",
      compared({ first: { kit: "kit-x", reader: "R1" }, second: { specimen: "venous" } }),
      true,
      [["unknown_name", "comparisons.0.second"]],
    ],
  ])("%s", (_, study, other, expected) => {
    expect(short(withKits(study, other))).toEqual(expected);
  });

  it("speaks plainly of sides that don't differ", () => {
    const [issue] = withKits(compared({ first: {}, second: { reader: "R1" } }));
    expect(issue).toMatchObject({
      expected: "a side that differs from the first",
      received: '"kit-x, venous, R1, as the first"',
    });
    expect(issue?.row).toBeGreaterThan(1);
  });

  it("asks for a column for the lines of every kit in the wide form", () => {
    const { line_readings: _, ...records } = studyPlan().records as Plan;
    const lines = { C: "c", T1: "t1", T2: "t2", K: "k", M: "m" };
    const study = { records: { ...records, wide_readings: { table: "line_readings.csv", lines } } };
    expect(short(withKits(study))).toEqual([
      ["unknown_name", "records.wide_readings.lines.M"],
      ["unknown_name", "records.wide_readings.lines"],
    ]);
  });

  it("misses every kit file that is not there", () => {
    const files = buildStudy({ people: SOUND_PEOPLE, other: true });
    const read = readStudy(files.filter(({ name }) => !name.startsWith("kit")));
    expect(read.ok ? [] : read.issues.map(({ rule, file }) => [rule, file])).toEqual([
      ["missing_file", "kit.yaml"],
      ["missing_file", "kit-y.yaml"],
    ]);
  });
});

describe("kits of records without lines", () => {
  const mapped = (change: Plan[], columns: Plan = {}) => ({
    records: {
      shape: "results",
      table: "t.csv",
      columns,
      analytes: [
        { analyte: "A1", rapid: "a", reference: "ra" },
        { analyte: "A2", rapid: "b", reference: "rb" },
        ...change,
      ],
      codes: {
        rapid: { reactive: ["1"], nonreactive: ["0"] },
        reference: { positive: ["1"], negative: ["0"] },
      },
    },
  });

  it.each<[string, Plan[], [string, string][]]>([
    ["a kit without columns", [], [["unknown_name", "kits.1"]]],
    [
      "an unknown kit",
      [{ analyte: "A1", kit: "kit-z", rapid: "c", reference: "ra" }],
      [
        ["unknown_name", "kits.1"],
        ["unknown_name", "records.analytes.2.kit"],
      ],
    ],
    [
      "one kit and analyte twice",
      [
        { analyte: "A1", kit: "kit-x", rapid: "c", reference: "ra" },
        { analyte: "A1", kit: "kit-y", rapid: "d", reference: "ra" },
      ],
      [["unknown_name", "records.analytes.2"]],
    ],
    [
      "another reference column, and the same result column",
      [{ analyte: "A1", kit: "kit-y", rapid: "a", reference: "rc" }],
      [
        ["unknown_name", "records.analytes.2.rapid"],
        ["unknown_name", "records.analytes.2.reference"],
      ],
    ],
    [
      "an analyte that no line of the kit shows",
      [
        { analyte: "A1", kit: "kit-y", rapid: "c", reference: "ra" },
        { analyte: "A2", kit: "kit-y", rapid: "d", reference: "rb" },
      ],
      [["unknown_name", "records.analytes.3.analyte"]],
    ],
    ["all well", [{ analyte: "A1", kit: "kit-y", rapid: "c", reference: "ra" }], []],
  ])("%s", (_, change, expected) => {
    const found = withKits(mapped(change));
    expect(short(found.filter(({ rule }) => rule !== "missing_file"))).toEqual(expected);
  });

  it("the main kit has columns for every analyte", () => {
    const study = mapped([{ analyte: "A1", kit: "kit-y", rapid: "c", reference: "ra" }]);
    const [first] = study.records.analytes;
    Object.assign(first as Plan, { kit: "kit-y" });
    study.records.analytes.splice(2, 1);
    const [issue] = withKits(study);
    expect(issue).toMatchObject({
      column: "records.analytes",
      expected: "the result columns of the main kit, kit-x, for A1",
    });
  });

  it("readers can't be compared where the records name none", () => {
    const study = { ...mapped([]), ...compared({ first: { reader: "R2" }, second: { reader: "recorded" } }) };
    expect(alone(study)).toEqual([["unknown_name", "comparisons.0.first.reader"]]);
    expect(alone({ ...study, ...mapped([], { reader: "who" }) })).toEqual([]);
  });

  it("counts need a column for the kit", () => {
    const columns = {
      true_positives: "tp",
      false_positives: "fp",
      false_negatives: "fn",
      true_negatives: "tn",
    };
    const records = {
      shape: "counts",
      table: "t.csv",
      columns: { ...columns, analyte: "analyte", specimen: "specimen" },
    };
    expect(short(withKits({ records }))).toEqual([["unknown_name", "records.columns"]]);
  });
});
