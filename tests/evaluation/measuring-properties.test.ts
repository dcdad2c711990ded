import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { person, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

/** The document is held against its schema, where numbers are finite, before it is handed out. */

const strata: Study["strata"] = [
  { id: "site", title: "Site", column: "site", planned: true },
  { id: "kind", title: "Kind", column: "kind", planned: true },
];
const criteria: Study["criteria"] = (["sensitivity", "specificity"] as const).map((measure) => ({
  id: measure,
  analyte: "one",
  measure,
  at_least: 0.9,
  rule: measure === "sensitivity" ? "interval" : "one_sided",
  importance: "primary",
  source: "made up",
}));
const count = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 400 }));
const anyRow = fc.record({
  site: fc.option(fc.constantFrom("A", "B", "C", "D", "E", "F")),
  kind: fc.option(fc.constantFrom("clinic", "hospital")),
  weight: count,
  rapid: fc.constantFrom<Pair["rapid"]>("reactive", "nonreactive", "invalid", "not_done"),
  reference: fc.constantFrom<Pair["reference"]>("positive", "negative", "indeterminate", "not_done"),
});

describe("whatever groups are pooled", () => {
  it("everybody is somewhere, chances are chances, and verdicts follow their limits", () => {
    fc.assert(
      fc.property(fc.array(anyRow, { maxLength: 40 }), (rows) => {
        const pairs = rows.map(({ site, kind, ...rest }) => person({ ...rest, strata: { site, kind } }));
        const records = tinyRecords([setOf(pairs)], {
          study: { strata, criteria, pooling: { by: "site", covariate: "kind" } },
        });
        for (const pooled of evaluate(records, tinyInputs).pooled) {
          const all = rows.reduce((sum, { weight }) => sum + weight, 0);
          const told = [...pooled.groups, ...pooled.leftOut].reduce((sum, { people }) => sum + people, 0);
          expect([pooled.people, told]).toEqual([all, all]);
          for (const { newGroup, threshold } of pooled.criteria) {
            const { chance, verdict, prediction } = newGroup;
            if (chance !== null) expect(chance >= 0 && chance <= 1).toBe(true);
            if (verdict === "met") expect(prediction.lower).toBeGreaterThanOrEqual(threshold);
            if (verdict === "met" && chance !== null) expect(chance).toBeGreaterThan(0.97);
            if (verdict === "not_met" && chance !== null) expect(chance).toBeLessThan(0.03);
          }
        }
      }),
      { numRuns: 40, seed: 11 },
    );
  });
});

describe("whatever a panel holds", () => {
  it("every row counts once, and a limit is told or warned of", () => {
    const row = fc
      .record({
        concentration: fc.constantFrom(0, 1e-3, 0.5, 1, 2, 4, 1e6),
        tested: fc.integer({ min: 0, max: 30 }),
        share: fc.double({ min: 0, max: 1, noNaN: true }),
        lot: fc.option(fc.constantFrom("a", "b")),
      })
      .map(({ share, ...rest }) => ({ ...rest, line: 2, reactive: Math.round(share * rest.tested) }));
    const panel: Study["panels"][number] = {
      id: "p",
      title: "Panel",
      analyte: "one",
      table: "panel.csv",
      columns: { concentration: "iu", tested: "n", reactive: "r", lot: "lot" },
      unit: "IU",
      chance: 0.9,
      lack_of_fit: "widen_when_shown",
    };
    fc.assert(
      fc.property(fc.array(row, { maxLength: 12 }), (rows) => {
        const records = tinyRecords(undefined, { study: { panels: [panel] }, panels: [{ id: "p", rows }] });
        const { panels, warnings } = evaluate(records, tinyInputs);
        const [found] = panels;
        expect((found?.rows.used ?? 0) + (found?.rows.blanks ?? 0)).toBe(rows.length);
        const limit = found?.values?.probit.concentrations.find(({ probability }) => probability === 0.9);
        const told = limit?.concentration.value != null && limit.concentration.upper !== null;
        expect(warnings.length).toBe(told ? 0 : 1);
        if (!told) expect(warnings[0]?.facts).not.toEqual({ reason: "not_estimable" });
      }),
      { numRuns: 60, seed: 12 },
    );
  });
});
