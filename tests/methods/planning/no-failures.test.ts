import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningNoFailures } from "../../../src/methods/planning/no-failures.ts";
import { criterionVerdict } from "../../../src/methods/proportion/criterion.ts";
import { INTERVAL_METHODS } from "../../../src/methods/proportion/intervals/rules.ts";
import { faultsOf } from "../plain-values.ts";

describe("people needed when none may fail", () => {
  // Computed for this project by exact arithmetic before its methods were written.
  it.each([
    [0.9, 29, 36, 35],
    [0.95, 59, 72, 73],
    [0.98, 149, 183, 189],
    [0.99, 299, 368, 381],
  ])("at least %d", (threshold, oneSided, twoSided, wilson) => {
    expect(compute(planningNoFailures, { threshold }, { sides: "one" }).values.total).toBe(oneSided);
    expect(compute(planningNoFailures, { threshold }, { rule: "one_sided" }).values.total).toBe(oneSided);
    expect(compute(planningNoFailures, { threshold }).values.total).toBe(twoSided);
    expect(compute(planningNoFailures, { threshold }, { method: "wilson" }).values.total).toBe(wilson);
  });

  it.each(INTERVAL_METHODS)("is the first that meets the criterion, one by one: %s", (method) => {
    for (const threshold of [0.05, 0.3, 0.5, 0.77, 0.9, 0.95]) {
      for (const level of [0.8, 0.95, 0.99]) {
        const found = compute(planningNoFailures, { threshold }, { method, level });
        expect(faultsOf(found)).toEqual([]);
        let total = 1;
        const options = { method, level, sides: "two" } as const;
        const asked = { threshold, direction: "at_least" } as const;
        while (criterionVerdict({ count: total, total, ...asked }, options) !== "met") total += 1;
        expect(found.values.total, `${threshold} at ${level}`).toBe(total);
      }
    }
  });

  it("warns that Blaker's interval may lose the criterion again with more people", () => {
    const { values, notes } = compute(planningNoFailures, { threshold: 0.77 }, { method: "blaker" });
    expect(values.total).toBe(13);
    const options = { method: "blaker", level: 0.95, sides: "two" } as const;
    const asked = { count: 14, total: 14, threshold: 0.77, direction: "at_least" } as const;
    expect(criterionVerdict(asked, options)).toBe("undecided");
    expect(notes[0]?.message).toMatch(/take exactly so many, or the exact interval/);
    const never = compute(planningNoFailures, { threshold: 0.99999 }, { method: "blaker" });
    expect(never.notes[0]?.message).toMatch(/more than 100,000 people/);
  });

  it("agrees with powers of the threshold where the numbers are large", () => {
    for (const threshold of [0.9999, 0.999999]) {
      const total = Math.ceil(Math.log(0.025) / Math.log(threshold));
      expect(compute(planningNoFailures, { threshold }).values.total).toBe(total);
    }
  });

  it("warns where a single person would do, and says what to change where too many are needed", () => {
    const wald = compute(planningNoFailures, { threshold: 0.99 }, { method: "wald" });
    expect(wald.values.total).toBe(1);
    expect(wald.notes[0]?.message).toMatch(/choose another interval/);
    const point = compute(planningNoFailures, { threshold: 0.99 }, { rule: "point" });
    expect(point.values.total).toBe(1);
    expect(point.notes[0]?.message).toMatch(/let the interval decide/);
    const never = compute(planningNoFailures, { threshold: 0.99999999999 });
    expect(never.values.total).toBeNull();
    expect(never.notes[0]?.message).toMatch(/set an easier threshold/);
  });

  it("refuses a threshold that only certainty meets", () => {
    expect(() => compute(planningNoFailures, { threshold: 1 })).toThrow(/threshold/);
  });
});
