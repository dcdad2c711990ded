import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exactHomogeneity } from "../../../src/methods/strata/exact-homogeneity.ts";
import { exactTrend, simulatedTrend } from "../../../src/methods/strata/exact-trend.ts";
import { fisherProbabilities } from "../../../src/methods/strata/fisher-probabilities.ts";
import { simulatedHomogeneity } from "../../../src/methods/strata/simulated-homogeneity.ts";
import { expectClose } from "../../tolerance.ts";
import { choose, quotient, tables, waysOf } from "../enumeration.ts";

/** Exact tests held against listing every table and adding whole numbers. */
const stratum = (most: number) =>
  fc.integer({ min: 1, max: most }).chain((total) =>
    fc.record({
      total: fc.constant(total),
      count: fc.integer({ min: 0, max: total }),
      score: fc.integer({ min: -3, max: 7 }),
    }),
  );
const STRATA = fc.array(stratum(9), { minLength: 2, maxLength: 5 });
const NEAR = { relative: 1e-9, absolute: 1e-15 };

const sum = (numbers: readonly number[]) => numbers.reduce((total, next) => total + next, 0);

/** Probability of the tables that fulfil a condition, the margins fixed. */
function share(totals: readonly number[], counted: number, holds: (table: number[]) => boolean): number {
  let ways = 0n;
  for (const table of tables(totals, counted)) if (holds(table)) ways += waysOf(totals, table);
  return quotient(ways, choose(sum(totals), counted));
}

describe("the exact test of homogeneity", () => {
  it("agrees with listing every table", () => {
    fc.assert(
      fc.property(STRATA, (strata) => {
        const totals = strata.map(({ total }) => total);
        const counts = strata.map(({ count }) => count);
        const seen = waysOf(totals, counts);
        const expected = share(totals, sum(counts), (table) => waysOf(totals, table) <= seen);
        expectClose(exactHomogeneity(totals, counts), expected, NEAR, "p");
      }),
      { numRuns: 300 },
    );
  });

  it("does not depend on the order of the strata or on what is counted", () => {
    const [totals, counts] = [
      [20, 41, 18, 33, 25],
      [0, 3, 2, 7, 1],
    ];
    const p = exactHomogeneity(totals, counts) as number;
    expectClose(exactHomogeneity([...totals].reverse(), [...counts].reverse()), p, NEAR, "reversed");
    const others = counts.map((count, at) => (totals[at] as number) - count);
    expectClose(exactHomogeneity(totals, others), p, NEAR, "others");
  });

  it("gives way to random tables where there are too many, which agree where both can be had", () => {
    expect(exactHomogeneity(Array(12).fill(80), [40, 38, 45, 41, 36, 39, 40, 44, 37, 42, 40, 39])).toBeNull();
    const [totals, counts] = [
      [30, 31, 28, 30, 33, 29],
      [12, 15, 9, 14, 20, 6],
    ];
    const exact = exactHomogeneity(totals, counts) as number;
    const drawn = simulatedHomogeneity(totals, counts, 20_000, 3);
    expect(Math.abs(drawn - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / 20_000));
    expect(simulatedHomogeneity(totals, counts, 1000, 3)).toBe(simulatedHomogeneity(totals, counts, 1000, 3));
  });
});

describe("the exact test for trend", () => {
  it("agrees with listing every table", () => {
    fc.assert(
      fc.property(STRATA, (strata) => {
        const totals = strata.map(({ total }) => total);
        const counts = strata.map(({ count }) => count);
        const scored = (table: readonly number[]) =>
          table.reduce((total, count, at) => total + count * (strata[at]?.score ?? 0), 0);
        const everybody = sum(totals);
        // Whole numbers: everybody times the sum of scores, less its expectation.
        const expectation = sum(counts) * sum(strata.map(({ score, total }) => score * total));
        const distance = (table: readonly number[]) => Math.abs(everybody * scored(table) - expectation);
        const seen = scored(counts);
        const found = exactTrend(strata);
        const counted = sum(counts);
        const far = share(totals, counted, (table) => distance(table) >= distance(counts));
        expectClose(found?.twoSided, far, NEAR, "two-sided");
        const high = share(totals, counted, (table) => scored(table) >= seen);
        expectClose(found?.increasing, high, NEAR, "increasing");
        const low = share(totals, counted, (table) => scored(table) <= seen);
        expectClose(found?.decreasing, low, NEAR, "decreasing");
      }),
      { numRuns: 200 },
    );
  });

  it("agrees with random tables", () => {
    const strata = [
      { score: 0, count: 38, total: 40 },
      { score: 1, count: 27, total: 30 },
      { score: 2.5, count: 20, total: 25 },
    ];
    const exact = exactTrend(strata);
    const drawn = simulatedTrend(strata, 20_000, 5);
    for (const side of ["twoSided", "increasing", "decreasing"] as const) {
      const p = exact?.[side] as number;
      expect(Math.abs(drawn[side] - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / 20_000) + 1e-4);
    }
  });
});

describe("Fisher's exact test", () => {
  it("agrees with listing every table", () => {
    fc.assert(
      fc.property(stratum(40), stratum(40), (first, second) => {
        const totals = [first.total, second.total];
        const counted = first.count + second.count;
        const seen = waysOf(totals, [first.count, second.count]);
        const found = fisherProbabilities(first, second);
        const twoSided = share(totals, counted, (table) => waysOf(totals, table) <= seen);
        expectClose(found.twoSided, twoSided, NEAR, "two-sided");
        const greater = share(totals, counted, ([count]) => (count as number) >= first.count);
        expectClose(found.greater, greater, NEAR, "greater");
        const less = share(totals, counted, ([count]) => (count as number) <= first.count);
        expectClose(found.less, less, NEAR, "less");
      }),
      { numRuns: 300 },
    );
  });
});
