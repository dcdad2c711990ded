import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningZeroEvents } from "../../../src/methods/planning/zero-events.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

describe("an event that is not seen once", () => {
  it("gives the frequency at which not to see it is as improbable as the level says", () => {
    for (const level of [0.2, 0.5, 0.8, 0.95, 0.99]) {
      for (const total of [1, 2, 3, 10, 250]) {
        const found = compute(planningZeroEvents, { total }, { level });
        expect(faultsOf(found)).toEqual([]);
        let [oneSided, twoSided] = [1, 1];
        for (let person = 0; person < total; person += 1) {
          oneSided *= 1 - (found.values.exactOneSided ?? 0);
          twoSided *= 1 - (found.values.exactTwoSided ?? 0);
        }
        // A limit near 1 leaves few digits of what it lacks to 1.
        expectClose(oneSided, 1 - level, { relative: 1e-12 }, `one-sided, ${total}`);
        expectClose(twoSided, (1 - level) / 2, { relative: 1e-12 }, `two-sided, ${total}`);
      }
    }
  });

  it("has a rule of three that lies above the one-sided limit, ever closer", () => {
    let before = Number.POSITIVE_INFINITY;
    for (const total of [3, 10, 100, 1000, 100_000]) {
      const { values } = compute(planningZeroEvents, { total });
      const ratio = (values.ruleOfThree ?? 0) / (values.exactOneSided ?? 1);
      expect(ratio).toBeGreaterThan(1);
      expect(ratio).toBeLessThan(before);
      before = ratio;
    }
    // Its limit: 3 over minus the logarithm of 0.05.
    expectClose(before, 3 / -Math.log(0.05), { relative: 1e-4 }, "limit");
  });

  it("keeps the rule of three to what it is for", () => {
    const other = compute(planningZeroEvents, { total: 30 }, { level: 0.99 });
    expect(other.values.ruleOfThree).toBeNull();
    expect(other.notes[0]?.message).toMatch(/take the exact limits/);
    const few = compute(planningZeroEvents, { total: 2 });
    expect(few.values.ruleOfThree).toBeNull();
    expect(few.notes[0]?.code).toBe("too_few");
  });

  it("refuses nobody", () => {
    expect(() => compute(planningZeroEvents, { total: 0 })).toThrow(/total/);
  });
});
