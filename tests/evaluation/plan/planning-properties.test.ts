import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { Ajv } from "ajv";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import type { Planning } from "../../../src/evaluation/plan/document.ts";
import { evaluatePlan } from "../../../src/evaluation/plan/evaluate-plan.ts";
import { planningJsonSchema } from "../../../src/evaluation/plan/json-schema.ts";
import { isPlanning, readPlanning } from "../../../src/evaluation/plan/read.ts";
import { planningTables } from "../../../src/evaluation/plan/tables.ts";
import { writePlanning } from "../../../src/evaluation/plan/write.ts";
import { planJsonSchema } from "../../../src/records/plan/json-schema.ts";
import { anyPlan, parsed, planText, readable } from "./any-plan.ts";

const ROOT = resolve(import.meta.dirname, "../../..");
const ajv = new Ajv({ strict: false, allErrors: true, validateFormats: false });
const fits = ajv.compile(planningJsonSchema() as object);
const planFits = ajv.compile(planJsonSchema() as object);

/** Numbers that say how many, by the place of their note. */
function needs({ criteria, widths, comparisons }: Planning) {
  return [...criteria, ...widths, ...comparisons].map(({ needed, notes }) => ({ needed, notes }));
}

describe("any plan that can be read", () => {
  it("is planned without a crash, fits the published schema, and reads back the same", () => {
    fc.assert(
      fc.property(anyPlan, (text) => {
        const read = parsed(text);
        if (!read.ok) {
          expect(read.issues.length).toBeGreaterThan(0);
          return;
        }
        expect(planFits(text)).toBe(true);
        const planning = evaluatePlan(read.value, []);
        const written = writePlanning(planning);
        expect(fits(JSON.parse(written))).toBe(true);
        expect(readPlanning(JSON.parse(written))).toEqual(planning);
        expect(written).not.toMatch(/NaN|Infinity/);
        for (const { needed, notes } of needs(planning)) {
          if (needed === null) expect(notes.filter(({ path }) => path === "needed")).not.toEqual([]);
        }
        const { answer, notes } = planning;
        if (answer.enrol === null) expect(notes.map(({ code }) => code)).toContain("no_enrolment");
        else expect(answer.assuredTogether).not.toBeNull();
        const unplanned = [...answer.criteria.out, ...answer.out];
        expect(notes.filter(({ code }) => code === "not_planned")).toHaveLength(unplanned.length);
      }),
      { numRuns: 25, seed: 20261102 },
    );
  });

  it("gives the same bytes twice", () => {
    const plan = readable(
      parse(readFileSync(join(ROOT, "data/plan/plan.yaml"), "utf8")) as ReturnType<typeof planText>,
    );
    expect(writePlanning(evaluatePlan(plan, []))).toBe(writePlanning(evaluatePlan(plan, [])));
  });
});

describe("a planning document", () => {
  const planning = evaluatePlan(readable(planText()), [{ name: "plan.yaml", bytes: 3, sha256: "ab" }]);

  it("says what it was made from and by which methods", () => {
    expect(planning.provenance.inputs).toEqual([{ name: "plan.yaml", bytes: 3, sha256: "ab" }]);
    const ids = planning.provenance.methods.map(({ id }) => id);
    expect(ids).toEqual([...ids].sort());
    expect(ids).toContain("planning.criterion_size");
  });

  it("is refused where it is something else, of another version, or damaged", () => {
    expect(isPlanning(planning)).toBe(true);
    expect(isPlanning({ format: "fourfold-evaluation" })).toBe(false);
    expect(() => readPlanning([])).toThrow("a planning document");
    expect(() => readPlanning({ ...planning, format: "x" })).toThrow('expected "fourfold-planning"');
    expect(() => readPlanning({ ...planning, version: 2 })).toThrow("a newer Fourfold wrote this document");
    expect(() => readPlanning({ ...planning, version: "1" })).toThrow("a version of the planning document");
    expect(() => readPlanning({ ...planning, extra: 1 })).toThrow("no such field");
    expect(() => writePlanning({ ...planning, notes: undefined } as never)).toThrow("planning.notes");
  });

  it("becomes tidy tables: as many cells in every row as there are columns", () => {
    const tables = planningTables(planning);
    expect(tables.find(({ name }) => name === "criteria")?.rows).toHaveLength(1);
    for (const { columns, rows } of tables) {
      for (const row of rows) expect(row).toHaveLength(columns.length);
    }
  });
});

describe("the published schema of a plan file", () => {
  it("accepts the demonstration's plan", () => {
    expect(planFits(parse(readFileSync(join(ROOT, "data/plan/plan.yaml"), "utf8")))).toBe(true);
  });

  it.each([
    { power: 1 },
    { criteria: [] },
    { seed: 1.5 },
    { colour: "red" },
    { interval: { method: "wald", level: 0.9 } },
  ])("refuses what reading refuses: %j", (change) => {
    expect(planFits(planText(change))).toBe(false);
    expect(parsed(planText(change)).ok).toBe(false);
  });
});
