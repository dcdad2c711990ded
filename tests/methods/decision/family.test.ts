import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { decisionFamily } from "../../../src/methods/decision/family.ts";
import { exactTest } from "../../../src/methods/proportion/exact-test.ts";
import { lowerLimit } from "../../../src/methods/proportion/proportion-interval.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const P_VALUES = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 9 });
const named = (pValues: readonly number[]) => pValues.map((pValue, at) => ({ label: `${at}`, pValue }));

/** Holm's procedure as it is told: compare the smallest with alpha / m, then the next with alpha / (m - 1) ... */
function holmByStepping(pValues: readonly number[], alpha: number): number {
  const sorted = [...pValues].sort((one, other) => one - other);
  const stopped = sorted.findIndex((pValue, at) => pValue > alpha / (sorted.length - at));
  return stopped === -1 ? sorted.length : stopped;
}

/** Benjamini and Hochberg's: the largest i with p(i) <= i alpha / m. */
function discoveriesByCounting(pValues: readonly number[], alpha: number): number {
  const sorted = [...pValues].sort((one, other) => one - other);
  return 1 + sorted.findLastIndex((pValue, at) => pValue <= ((at + 1) * alpha) / sorted.length);
}

describe("a family of criteria", () => {
  it("shows as many as the procedures do step by step, and orders them by strictness", () => {
    fc.assert(
      fc.property(P_VALUES, fc.constantFrom(0.025, 0.05, 0.2), (pValues, alpha) => {
        const found = compute(decisionFamily, { criteria: named(pValues) }, { alpha });
        const { shown, allMustPass, anyPasses } = found.values;
        expect(faultsOf(found)).toEqual([]);
        expect(shown.holm).toBe(holmByStepping(pValues, alpha));
        expect(shown.benjaminiHochberg).toBe(discoveriesByCounting(pValues, alpha));
        expect(shown.bonferroni).toBeLessThanOrEqual(shown.holm);
        expect(shown.holm).toBeLessThanOrEqual(shown.benjaminiHochberg);
        expect(shown.benjaminiHochberg).toBeLessThanOrEqual(shown.alone);
        expect(allMustPass.verdict === "shown").toBe(shown.alone === pValues.length);
        expect(anyPasses.verdict === "shown").toBe(shown.holm > 0);
        const stopped = pValues.findIndex((pValue) => pValue > alpha);
        expect(shown.fixedSequence).toBe(stopped === -1 ? pValues.length : stopped);
      }),
      { numRuns: 400 },
    );
  });

  it("takes counts as the exact one-sided test does, and as the one-sided limit does", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 80 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (total, part) => {
          const count = Math.round(part * total);
          const threshold = 0.9;
          const least = { label: "a", count, total, threshold, direction: "at_least" } as const;
          const most = { ...least, label: "b", direction: "at_most" } as const;
          const { criteria } = compute(decisionFamily, { criteria: [least, most] }).values;
          const tested = compute(exactTest, { count, total, hypothesis: threshold }).values;
          expectClose(criteria[0]?.pValue, tested.greater as number, { relative: 1e-12 });
          expectClose(criteria[1]?.pValue, tested.less as number, { relative: 1e-12 });
          const limit = lowerLimit(count, total, { level: 0.95, sides: "lower" });
          expect(criteria[0]?.verdicts.alone).toBe(limit >= threshold ? "shown" : "not_shown");
        },
      ),
      { numRuns: 200 },
    );
  });

  it("takes a confidence as one minus the p-value, and speaks of an empty criterion and of a name used twice", () => {
    const criteria = [
      { label: "a", confidence: 0.99 },
      { label: "a", count: 0, total: 0, threshold: 0.9, direction: "at_least" as const },
    ];
    const { values, notes } = compute(decisionFamily, { criteria });
    expectClose(values.criteria[0]?.pValue, 0.01, { relative: 1e-12 });
    expect(values.criteria[1]?.pValue).toBe(1);
    expect(notes.map(({ code }) => code)).toEqual(["no_observations", "same_label"]);
    expect(() => compute(decisionFamily, { criteria: [{ label: "a" }] as never })).toThrow("expected");
  });
});
