import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningCriterionPower } from "../../../src/methods/planning/criterion-power.ts";
import { CRITERION_RULES, criterionVerdict } from "../../../src/methods/proportion/criterion.ts";
import { INTERVAL_METHODS } from "../../../src/methods/proportion/intervals/rules.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";

const PERCENT = fc.integer({ min: 1, max: 99 }).map((percent) => percent / 100);
const ASKED = fc.record({
  expected: PERCENT,
  threshold: PERCENT,
  direction: fc.constantFrom<("at_least" | "at_most")[]>("at_least", "at_most"),
  total: fc.integer({ min: 1, max: 120 }),
});

describe("power of a study against a criterion", () => {
  it("agrees with asking the criterion about every result, for every interval and rule", () => {
    fc.assert(
      fc.property(
        ASKED,
        fc.constantFrom(...INTERVAL_METHODS),
        fc.constantFrom(...CRITERION_RULES),
        (asked, method, chosen) => {
          const rule = method === "blaker" && chosen === "one_sided" ? "interval" : chosen;
          const found = compute(planningCriterionPower, asked, { method, rule });
          expect(faultsOf(found)).toEqual([]);
          const { expected, threshold, direction, total } = asked;
          const sums = { met: 0, notMet: 0, undecided: 0, atThreshold: 0, notMetAtThreshold: 0 };
          const [truth, edge] = [binomialMasses(total, expected), binomialMasses(total, threshold)];
          for (let count = 0; count <= total; count += 1) {
            const options = { method, rule, level: 0.95, sides: "two" } as const;
            const verdict = criterionVerdict({ count, total, threshold, direction }, options);
            const key = verdict === "not_met" ? "notMet" : verdict;
            if (key === "not_estimable") throw new Error("a total of 1 or more is always estimable");
            sums[key] += truth[count] ?? 0;
            if (key === "met") sums.atThreshold += edge[count] ?? 0;
            if (key === "notMet") sums.notMetAtThreshold += edge[count] ?? 0;
          }
          for (const key of ["met", "notMet", "undecided", "atThreshold", "notMetAtThreshold"] as const) {
            expectClose(found.values[key], sums[key], { relative: 1e-10, absolute: 1e-12 }, key);
          }
        },
      ),
      { numRuns: 300, seed: 20262 },
    );
  });

  it("keeps the error of the exact interval, and warns where another exceeds it", () => {
    let exceeded = 0;
    for (let total = 1; total <= 300; total += 1) {
      const asked = { expected: 0.98, threshold: 0.95, direction: "at_least", total } as const;
      const exact = compute(planningCriterionPower, asked);
      expect(exact.values.atThreshold).toBeLessThanOrEqual(0.025);
      expect(exact.notes.map(({ code }) => code)).not.toContain("error_above_level");
      const mid = compute(planningCriterionPower, asked, { method: "mid_p" });
      const above = (mid.values.atThreshold ?? 0) > 0.025;
      expect(mid.notes.some(({ code }) => code === "error_above_level")).toBe(above);
      if (above) exceeded += 1;
    }
    expect(exceeded).toBeGreaterThan(20);
  });

  it("says how many people it takes where no result can meet the criterion", () => {
    const found = compute(planningCriterionPower, {
      expected: 0.99,
      threshold: 0.95,
      direction: "at_least",
      total: 71,
    });
    expect(found.values).toMatchObject({ needed: null, allowed: null, met: 0, atThreshold: 0 });
    expect(found.notes[0]?.message).toMatch(/take 72 people or more$/);
    expect(found.notes.map(({ path }) => path)).toEqual(["needed", "allowed"]);
  });

  it("says that a kit no better than demanded is passed by error, and that an estimate alone errs", () => {
    const asked = { expected: 0.9, threshold: 0.9, direction: "at_least", total: 200 } as const;
    const equal = compute(planningCriterionPower, asked, { rule: "point" });
    expect(equal.notes.map(({ code }) => code)).toEqual(["not_beyond_threshold", "error_above_level"]);
    expect(equal.values.met).toBe(equal.values.atThreshold);
    expect(equal.values.met).toBeGreaterThan(0.45);
  });

  it("refuses a study of nobody", () => {
    const asked = { expected: 0.9, threshold: 0.8, direction: "at_least" } as const;
    expect(() => compute(planningCriterionPower, { ...asked, total: 0 })).toThrow(/total/);
  });
});
