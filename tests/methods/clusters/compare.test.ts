import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { clustersCompare } from "../../../src/methods/clusters/compare.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const CLUSTER = fc
  .record({ total: fc.integer({ min: 0, max: 30 }), part: fc.double({ min: 0, max: 1, noNaN: true }) })
  .map(({ total, part }) => ({ count: Math.round(part * total), total }));
const PAIRS = fc.array(fc.tuple(CLUSTER, CLUSTER), { minLength: 1, maxLength: 14 }).map((pairs) => ({
  first: pairs.map(([one]) => one),
  second: pairs.map(([, other]) => other),
}));
const DESIGN = fc.constantFrom<("separate" | "same")[]>("separate", "same");
const CLOSE = { relative: 1e-9, absolute: 1e-12 };

describe("two proportions over clusters", () => {
  it("is plain data with every null explained, and turns its sign with the sides", () => {
    fc.assert(
      fc.property(PAIRS, DESIGN, ({ first, second }, design) => {
        const here = compute(clustersCompare, { first, second }, { design });
        const there = compute(clustersCompare, { first: second, second: first }, { design }).values;
        expect(faultsOf(here)).toEqual([]);
        const { difference, scoreDifference, pValue } = here.values;
        if (difference.lower !== null) expectClose(there.difference.upper, -difference.lower, CLOSE);
        if (scoreDifference.lower !== null) {
          expectClose(there.scoreDifference.upper, -scoreDifference.lower, CLOSE);
          expect(scoreDifference.lower).toBeGreaterThanOrEqual(-1);
        }
        if (pValue !== null) expectClose(there.pValue, pValue, CLOSE);
      }),
      { numRuns: 300 },
    );
  });

  it("knows in the same clusters that a test does not differ from itself", () => {
    const first = [8, 9, 4, 6].map((count) => ({ count, total: 10 }));
    const { values, notes } = compute(clustersCompare, { first, second: first }, { design: "same" });
    expect(values.difference).toEqual({ value: 0, lower: 0, upper: 0 });
    expect(values.correlation).toBe(1);
    expect(values.pValue).toBeNull();
    expect(notes.map(({ code }) => code)).toContain("not_estimable");
  });

  it("does not mind in the same clusters whether every person has both results or the sides are apart", () => {
    // Ratio estimator of (count1 - count2) / total over clusters, written out.
    const totals = [12, 30, 8, 22];
    const [mine, theirs] = [
      [10, 27, 5, 20],
      [9, 29, 4, 15],
    ] as const;
    const all = 72;
    const value = (62 - 57) / all;
    const squares = totals.reduce(
      (sum, total, at) => sum + ((mine[at] ?? 0) - (theirs[at] ?? 0) - value * total) ** 2,
      0,
    );
    const list = (counts: readonly number[]) =>
      counts.map((count, at) => ({ count, total: totals[at] ?? 0 }));
    const found = compute(clustersCompare, { first: list(mine), second: list(theirs) }, { design: "same" });
    expectClose(found.values.difference.value, value, CLOSE);
    expectClose(found.values.standardError, Math.sqrt(((4 / 3) * squares) / all ** 2), CLOSE);
  });

  it("refuses lists of unequal length as the same clusters", () => {
    const first = [{ count: 1, total: 2 }];
    const second = [...first, ...first];
    expect(() => compute(clustersCompare, { first, second }, { design: "same" })).toThrow(
      "input.second: expected 1 clusters",
    );
  });
});
