import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { writeCsv } from "../../src/evaluation/csv.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { evaluationTables } from "../../src/evaluation/tables.ts";
import type { DeviceResult } from "../../src/records/model.ts";
import { readings, reread } from "./tiny-devices.ts";
import { people, person, setOf, tinyInputs, tinyRecords, twentyPeople } from "./tiny-study.ts";

type Row = Record<string, string>;

function tablesOf(...given: Parameters<typeof tinyRecords>): Record<string, Row[]> {
  const records = tinyRecords(...given);
  const tables = evaluationTables(evaluate(records, tinyInputs), records);
  return Object.fromEntries(
    tables.map((table) => [table.name, parse(writeCsv(table), { columns: true }) as Row[]]),
  );
}

describe("the tables", () => {
  it("are all rectangular, and named as promised", () => {
    const records = tinyRecords();
    const tables = evaluationTables(evaluate(records, tinyInputs), records);
    expect(tables.map((table) => table.name).sort()).toEqual([
      "accuracy",
      "agreement",
      "answers",
      "assurance",
      "clustered",
      "comparisons",
      "crosstabs",
      "decision",
      "disagreements",
      "discordant",
      "flow",
      "invalid",
      "joint",
      "predictive",
      "queries",
      "reading_time",
      "rereadings",
      "subgroups",
      "true_prevalence",
    ]);
    for (const { name, columns, rows } of tables) {
      expect(new Set(columns).size, name).toBe(columns.length);
      for (const row of rows) expect(row, name).toHaveLength(columns.length);
    }
  });

  it("carry the numbers of the document in full precision", () => {
    const { accuracy } = tablesOf();
    const row = accuracy?.find((entry) => entry.measure === "sensitivity");
    expect(row).toMatchObject({ analyte: "one", specimen: "serum", reader: "R1", count: "8", total: "9" });
    // R 4.2.2: binom.test(8, 9)$conf.int
    expect(Number(row?.lower)).toBeCloseTo(0.517503485082663, 13);
  });

  it("let the cross-tabulation add up to all people", () => {
    const { crosstabs } = tablesOf();
    expect(crosstabs?.reduce((sum, row) => sum + Number(row.people), 0)).toBe(20);
  });

  it("list every discordant person once, and nobody else", () => {
    const pairs = [
      ...twentyPeople(),
      person({ person: "X1", rapid: "invalid", reference: "positive" }),
      person({ person: "X2", rapid: "reactive", reference: "indeterminate" }),
      person({ person: "X3", rapid: "nonreactive", reference: "positive", minutes: 33, window: "late" }),
    ];
    const { discordant } = tablesOf([setOf(pairs)]);
    expect(discordant).toHaveLength(3);
    expect(discordant?.at(-1)).toMatchObject({
      person: "X3",
      rapid: "nonreactive",
      reference: "positive",
      minutes: "33",
      window: "late",
    });
  });

  it("tell beside a discordant result what others saw on the same device", () => {
    const result = (changes: Partial<DeviceResult>): DeviceResult => ({
      device: "D7",
      person: "X",
      visit: 1,
      specimen: "serum",
      analyte: "one",
      kit: "made-up-kit",
      reader: "R1",
      method: "eye",
      attempt: 2,
      result: "nonreactive",
      reason: null,
      lineWithoutControl: false,
      faint: false,
      window: "in",
      minutes: 16,
      intensity: null,
      site: "north",
      lot: "L1",
      operator: "O1",
      ...changes,
    });
    const pairs = [person({ person: "X", rapid: "nonreactive", reference: "positive", minutes: 16 })];
    const results = [
      result({ device: "D6", attempt: 1, result: "invalid", minutes: 18 }),
      result({}),
      result({ reader: "R2", result: "reactive", faint: true }),
      result({ reader: "OR", method: "optical", result: "reactive", intensity: 12.5 }),
      result({ device: "D6", reader: "R2", attempt: 1, result: "invalid" }),
    ];
    const { discordant } = tablesOf([setOf(pairs)], { results });
    expect(discordant?.[0]).toMatchObject({
      device: "D7",
      attempt: "2",
      other_readers: "R2 reactive (faint); OR reactive",
      intensity: "12.5",
      lot: "L1",
      operator: "O1",
    });
  });

  it("keep absent values empty", () => {
    const { accuracy } = tablesOf([setOf(people(3, { rapid: "reactive", reference: "positive" }))]);
    const row = accuracy?.find((entry) => entry.measure === "specificity");
    expect(row).toMatchObject({ count: "0", total: "0", value: "", lower: "", upper: "" });
  });

  it("hold readers, comparisons, clusters and decisions, one observation a row", () => {
    const pairs = twentyPeople().map((pair) => ({ ...pair, strata: { lot: pair.person.slice(-1) } }));
    const tables = tablesOf([setOf(pairs)], {
      results: readings({ R1: "++--!", R2: "+---!" }),
      rereadings: [reread("x", "nonreactive", "reactive")],
      study: {
        cluster: "lot",
        strata: [{ id: "lot", title: "Lot", column: "lot", planned: true }],
        decision: { control: "holm" },
        criteria: [
          {
            id: "se",
            analyte: "one",
            measure: "sensitivity",
            at_least: 0.9,
            rule: "interval",
            importance: "primary",
            source: "made up",
          },
        ],
        comparisons: [
          {
            id: "itself",
            title: "Itself",
            analyte: "one",
            first: { reader: "R1" },
            second: { reader: "R1" },
            margin: 0.1,
            kind: "equivalence",
            source: "made up",
          },
        ],
      },
    });
    const where = (name: string, wanted: Row) =>
      tables[name]?.find((row) => Object.entries(wanted).every(([column, cell]) => row[column] === cell));
    expect(where("agreement", { measure: "overall_agreement" })).toMatchObject({ count: "3", total: "4" });
    expect(where("agreement", { measure: "devices_both_invalid" })).toMatchObject({ value: "1", count: "" });
    expect(where("disagreements", { by: "lot", group: "L1" })).toMatchObject({ count: "1", total: "4" });
    expect(where("rereadings", { measure: "nonreactive to reactive" })).toMatchObject({ count: "1" });
    expect(where("rereadings", { measure: "flipped" })).toMatchObject({
      count: "1",
      total: "1",
      exact_p: "1",
    });
    expect(where("comparisons", { measure: "sensitivity", what: "difference" })).toMatchObject({
      value: "0",
      p: "1",
      test: "mid_p",
      kind: "equivalence",
      verdict: "undecided",
    });
    expect(where("comparisons", { measure: "ppv", what: "difference" })).toMatchObject({ value: "0" });
    expect(tables.clustered?.map(({ interval }) => interval)).toEqual([
      ...["plain", "ratio_estimator", "effective", "bootstrap"],
      ...["plain", "ratio_estimator", "effective", "bootstrap"],
    ]);
    expect(tables.decision?.map(({ criterion, verdict }) => [criterion, verdict])).toEqual([
      ["se", "undecided"],
      ["", "undecided"],
    ]);
    expect(where("assurance", { by: "needed", chance: "0.8" })).toBeDefined();
    expect(where("true_prevalence", { prevalence: "apparent" })).toMatchObject({ count: "10", total: "19" });
  });
});
