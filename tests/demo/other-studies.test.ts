import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { byReference, cellsOf, fourfold } from "../../src/demo/cases.ts";
import { WIDE_PLAN, WIDE_SEED } from "../../src/demo/make-small.ts";
import { simulate } from "../../src/demo/simulate.ts";
import { KitSchema } from "../../src/records/kit.ts";
import { StudySchema } from "../../src/records/study.ts";
import { tally } from "../../src/records/tallies.ts";
import { DATA, recordsOf, rowsOf } from "./folder.ts";

const AS_READ = { invalid: "set_aside", outsideWindow: "keep" } as const;

describe("the open data of histology", () => {
  const { sets, issues, ledger } = recordsOf("results-nwtco");

  // Source: R 4.2.2, table(survival::nwtco$instit, survival::nwtco$histol), package survival 3.5-3.
  it("gives the table that R gives", () => {
    expect(sets).toHaveLength(1);
    const set = sets[0] as (typeof sets)[number];
    const { counts, people } = tally(set, AS_READ);
    expect(counts).toEqual({
      truePositives: 330,
      falseNegatives: 129,
      falsePositives: 76,
      trueNegatives: 3493,
    });
    expect(people).toBe(4028);
  });

  // Source: R 4.2.2, table(survival::nwtco$stage).
  it("has the four stages as subgroups, in order", () => {
    const stages = (sets[0]?.pairs ?? []).map((pair) => pair.strata.stage);
    const count = (stage: string) => stages.filter((one) => one === stage).length;
    expect(["1", "2", "3", "4"].map(count)).toEqual([1572, 1052, 944, 460]);
  });

  it("has nothing to complain of, and its ids stay text", () => {
    expect(issues).toEqual([]);
    expect(ledger[0]).toMatchObject({ rows: 4028, analysed: 4028 });
    expect(sets[0]?.pairs[0]?.person).toBe("1");
  });
});

describe("the study in the wide form", () => {
  const { sets, issues } = recordsOf("wide");

  it("gives what its generator knows", () => {
    const cells = cellsOf(simulate({ seed: WIDE_SEED, plan: WIDE_PLAN }));
    for (const { analyte, specimen, cases } of cells) {
      const set = sets.find((one) => one.analyte === analyte && one.specimen === specimen);
      if (set === undefined) throw new Error(`no set of ${analyte}, ${specimen}`);
      expect(tally(set, AS_READ).counts).toEqual(fourfold(cases, byReference));
      expect(set.pairs).toHaveLength(120);
    }
  });

  it("has no planted fault: the one pending specimen is all", () => {
    const rules = issues.filter(({ severity }) => severity !== "note").map(({ rule }) => rule);
    expect(rules).toEqual(["missing_reference", "missing_reference"]);
  });
});

describe("the study of counts", () => {
  const { sets, issues } = recordsOf("counts");

  it("adds its rows up", () => {
    const rows = rowsOf("counts", "counts.csv");
    for (const set of sets) {
      const own = rows.filter((row) => row.analyte === set.analyte && row.specimen === set.specimen);
      const sum = (column: string) => own.reduce((total, row) => total + Number(row[column]), 0);
      const { counts, invalidPositives, invalidNegatives } = tally(set, AS_READ);
      expect(own).toHaveLength(3);
      expect(counts).toEqual({
        truePositives: sum("reactive_positive"),
        falsePositives: sum("reactive_negative"),
        falseNegatives: sum("nonreactive_positive"),
        trueNegatives: sum("nonreactive_negative"),
      });
      expect([invalidPositives, invalidNegatives]).toEqual([
        sum("invalid_positive"),
        sum("invalid_negative"),
      ]);
    }
    expect(sets).toHaveLength(4);
    expect(issues).toEqual([]);
  });
});

describe("the template", () => {
  const folder = join(DATA, "template");
  const study = readFileSync(join(folder, "study.yaml"), "utf8");
  const kit = readFileSync(join(folder, "kit.yaml"), "utf8");

  it("is a valid study without rows", () => {
    const { issues } = recordsOf("template");
    expect(new Set(issues.map(({ rule }) => rule))).toEqual(new Set(["no_rows"]));
  });

  it("shows every field that study and kit files may have", () => {
    const shown = (text: string, field: string) => new RegExp(`(^|[ {#])${field}:`, "m").test(text);
    expect(Object.keys(StudySchema.pipe[0].entries).filter((field) => !shown(study, field))).toEqual([]);
    const kitFields = Object.keys(KitSchema.pipe[0].entries);
    expect(kitFields.filter((field) => !shown(kit, field))).toEqual([]);
  });

  it("explains every field: a comment stands right above it", () => {
    for (const text of [study, kit]) {
      const lines = text.split("\n");
      const bare = lines.filter(
        (line, index) => /^[a-z_]+:/.test(line) && !(lines[index - 1] ?? "").startsWith("#"),
      );
      expect(bare).toEqual([]);
    }
  });

  it("explains every column of its empty tables", () => {
    const tables = readdirSync(folder).filter((name) => name.endsWith(".csv"));
    expect(tables).toHaveLength(8);
    for (const name of tables) {
      const header = readFileSync(join(folder, name), "utf8");
      expect(header.trimEnd().split("\n")).toHaveLength(1);
      const silent = header
        .trim()
        .split(",")
        .filter((column) => !study.includes(column));
      expect(silent, name).toEqual([]);
    }
  });
});
