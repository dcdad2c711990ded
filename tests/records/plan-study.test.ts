import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { stringify } from "yaml";
import type { Kit } from "../../src/records/kit.ts";
import type { InputFile } from "../../src/records/model.ts";
import { studyFilesOf } from "../../src/records/plan/study-text.ts";
import { parseKit, parseStudy, readStudy } from "../../src/records/read-study.ts";
import { type PlanText, planText, readable } from "../evaluation/plan/any-plan.ts";
import { kitPlan, textFile } from "./build-study.ts";

const TEMPLATE = join(resolve(import.meta.dirname, "../.."), "data/template");
const emptyTables: InputFile[] = readdirSync(TEMPLATE)
  .filter((name) => name.endsWith(".csv"))
  .map((name) => ({ name, bytes: readFileSync(join(TEMPLATE, name)) }));

const comparison = {
  id: "c",
  title: "Two kits",
  analyte: "A1",
  measure: "sensitivity",
  design: "paired",
  first: { title: "Kit X", expected: 0.95 },
  second: { title: "Kit: Y #2", expected: 0.95 },
  margin: 0.1,
};

/** The study folder of a plan, as the command writes it. */
function folderOf(change: PlanText, kit: Kit | null = null) {
  const files = studyFilesOf(readable(planText(change)), kit).map(({ name, text }) => textFile(name, text));
  const own = kit === null ? [] : [textFile("kit.yaml", stringify(kit))];
  return [...files, ...own, ...emptyTables];
}

function studyOf(files: readonly InputFile[]) {
  const read = parseStudy(files.find(({ name }) => name === "study.yaml") as InputFile);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

/** What reading the folder finds besides tables without rows. */
function faultsOf(files: readonly InputFile[]) {
  const read = readStudy(files);
  const issues = read.ok ? read.records.issues : read.issues;
  return issues.filter(({ rule }) => rule !== "no_rows");
}

const kitX = (change: PlanText = {}): Kit => {
  const read = parseKit(textFile("kit.yaml", stringify({ ...kitPlan(), ...change })));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
};
const blood = { specimens: [{ type: "venous", title: "Venous blood" }] };

describe("the study folder of a plan", () => {
  it.each<[string, PlanText, Kit | null]>([
    ["the smallest plan", {}, null],
    [
      "sites, and people alike",
      { alike: { icc: 0.1, size: 4 }, recruitment: { sites: [{ id: "S", title: "S: one", per_day: 1 }] } },
      null,
    ],
    ["another kit", { comparisons: [comparison] }, null],
    [
      "kits named in the plan",
      {
        comparisons: [
          {
            ...comparison,
            first: { ...comparison.first, kit: "K" },
            second: { ...comparison.second, kit: "K-2" },
          },
        ],
      },
      null,
    ],
    [
      "kits whose titles give one short name",
      { comparisons: [{ ...comparison, second: { title: "Kit-X", expected: 0.95 } }] },
      null,
    ],
    [
      "kits whose titles give no short name",
      { comparisons: [{ ...comparison, second: { title: "試薬", expected: 0.95 } }] },
      null,
    ],
    ["a kit file", { ...blood, kit: "kit.yaml" }, kitX()],
    ["a kit file and another kit", { ...blood, kit: "kit.yaml", comparisons: [comparison] }, kitX()],
    [
      "a kit without lines",
      { ...blood, kit: "kit.yaml", alike: { icc: 0.1, size: 4 } },
      kitX({
        lines: undefined,
        timed_from: undefined,
        reading_window: undefined,
        faint_line: undefined,
        instrument: undefined,
      }),
    ],
    [
      "a kit without lines and another kit",
      { ...blood, kit: "kit.yaml", comparisons: [comparison] },
      kitX({
        lines: undefined,
        timed_from: undefined,
        reading_window: undefined,
        faint_line: undefined,
        instrument: undefined,
      }),
    ],
  ])("of %s is read without a fault", (_, change, kit) => {
    const files = folderOf(change, kit);
    expect(faultsOf(files)).toEqual([]);
    expect(readStudy(files).ok).toBe(true);
    expect(files.map(({ name }) => name)).toContain("kit.yaml");
  });

  it("carries what the plan fixed, and nothing that only planning needs", () => {
    const decision = { control: "fixed_sequence", order: ["se"] };
    const interval = { method: "wilson", level: 0.9 };
    const change = { decision, interval, seed: 77, comparisons: [comparison], alike: { icc: 0.1, size: 4 } };
    const study = studyOf(folderOf(change));
    expect(study).toMatchObject({
      id: "small",
      title: "A small plan",
      status: "draft",
      decision,
      interval,
      seed: 77,
      cluster: "site",
    });
    expect(study.criteria).toEqual([
      {
        id: "se",
        analyte: "A1",
        measure: "sensitivity",
        at_least: 0.8,
        rule: "interval",
        importance: "primary",
        source: "made up",
      },
    ]);
    expect(study.comparisons).toMatchObject([
      {
        id: "c",
        first: {},
        second: { kit: "Kit-Y-2" },
        margin: 0.1,
        kind: "noninferiority",
        source: "plan small",
      },
    ]);
    expect(study.prevalences).toMatchObject([{ values: { A1: 0.2 } }]);
    expect(study.kits).toEqual(["kit.yaml", "kit-2.yaml"]);
  });

  it("says what a plan can't know, and names looks that have no field", () => {
    const stopping = [{ id: "early", design: "two_stage", criterion: "se", unacceptable: 0.7 }];
    const [study] = studyFilesOf(readable(planText({ stopping })), null);
    for (const field of ["arms", "analytes", "readers", "prevalences", "treatment"]) {
      expect(study?.text).toMatch(new RegExp(`TO BE FILLED IN:[^\\n]*\\n(?:#[^\\n]*\\n)*${field}:`));
    }
    expect(study?.text).toContain("early (two_stage) for se");
  });
});
