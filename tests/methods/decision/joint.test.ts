import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { decisionJoint } from "../../../src/methods/decision/joint.ts";
import { criterion } from "../../../src/methods/proportion/criterion.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const CRITERION = fc
  .record({
    total: fc.integer({ min: 0, max: 200 }),
    part: fc.double({ min: 0.8, max: 1, noNaN: true }),
    percent: fc.integer({ min: 80, max: 100 }),
  })
  .map(({ total, part, percent }) => ({
    label: "a criterion",
    count: Math.round(part * total),
    total,
    threshold: percent / 100,
    direction: "at_least" as const,
  }));

describe("several criteria as one", () => {
  it("agrees with each criterion alone, and keeps within Fréchet's bounds", () => {
    const correlation = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(CRITERION, { minLength: 2, maxLength: 4 }), correlation, (criteria, wanted) => {
        const found = compute(decisionJoint, { criteria }, { correlation: criteria.length > 2 ? 0 : wanted });
        expect(faultsOf(found)).toEqual([]);
        const alone = criteria.map(({ label: _, ...input }) => compute(criterion, input).values);
        expect(found.values.criteria.map(({ verdict }) => verdict)).toEqual(
          alone.map(({ verdict }) => verdict),
        );
        const verdicts = alone.map(({ verdict }) => verdict);
        expect(found.values.verdict === "met").toBe(verdicts.every((verdict) => verdict === "met"));
        expect(found.values.verdict === "not_met").toBe(verdicts.includes("not_met"));
        const { independent, correlated, lowest, highest } = found.values.probability;
        if (independent === null) return;
        const product = alone.reduce((all, { probability }) => all * (probability ?? 0), 1);
        expectClose(independent, product, { relative: 1e-12, absolute: 1e-300 });
        for (const value of [independent, correlated ?? -1]) {
          expect(value).toBeGreaterThanOrEqual((lowest ?? 2) - 1e-15);
          expect(value).toBeLessThanOrEqual((highest ?? -1) + 1e-15);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("stays within what two criteria of these probabilities can share, and says so", () => {
    const criteria = [
      { label: "a", count: 50, total: 50, threshold: 0.9, direction: "at_least" as const },
      { label: "b", count: 45, total: 50, threshold: 0.9, direction: "at_least" as const },
    ];
    const { values, notes } = compute(decisionJoint, { criteria }, { correlation: 1 });
    expect(values.probability.correlated).toBe(values.probability.highest);
    expect(notes.map(({ code }) => code)).toEqual(["beyond_frechet"]);
  });

  it("takes a correlation for two criteria only", () => {
    const one = { label: "a", count: 50, total: 50, threshold: 0.9, direction: "at_least" as const };
    expect(() => compute(decisionJoint, { criteria: [one, one, one] }, { correlation: 0.1 })).toThrow(
      "options.correlation: expected 0 with more than two criteria",
    );
  });
});
