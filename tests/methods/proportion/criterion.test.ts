import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { criterion } from "../../../src/methods/proportion/criterion.ts";
import type { IntervalMethod } from "../../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { faultsOf } from "../plain-values.ts";

type Direction = "at_least" | "at_most";
const SEARCHED = 3000;

/** The last total up to 3,000 that does not decide, plus one; every total looked at. */
function settledByCounting(
  seen: number,
  observed: number,
  threshold: number,
  direction: Direction,
  method: IntervalMethod,
  searched = SEARCHED,
): number {
  let open = 0;
  for (let total = 1; total <= searched; total += 1) {
    // Whole-number arithmetic; rounded towards the threshold.
    const remainder = (total * seen) % observed;
    const down = (total * seen - remainder) / observed;
    const count = seen / observed > threshold || remainder === 0 ? down : down + 1;
    const { lower, upper } = proportionInterval(count, total, { method });
    const decided =
      direction === "at_least"
        ? lower >= threshold || upper < threshold
        : upper <= threshold || lower > threshold;
    if (!decided) open = total;
  }
  return open + 1;
}

const CASES = fc.record({
  total: fc.integer({ min: 1, max: 60 }),
  part: fc.double({ min: 0, max: 1, noNaN: true }),
  percent: fc.integer({ min: 2, max: 98 }),
  direction: fc.constantFrom<Direction>("at_least", "at_most"),
});

describe("how many observations would decide", () => {
  it.each<IntervalMethod>(["clopper_pearson", "wilson", "jeffreys", "agresti_coull"])(
    "agrees with looking at every total up to 3,000 (%s)",
    (method) => {
      let compared = 0;
      fc.assert(
        fc.property(CASES, ({ total, part, percent, direction }) => {
          const count = Math.round(part * total);
          const threshold = percent / 100;
          const input = { count, total, threshold, direction };
          const { verdict, settledBy } = compute(criterion, input, { method }).values;
          if (verdict !== "undecided" || settledBy === null || settledBy > SEARCHED / 3) return;
          compared += 1;
          expect(settledBy).toBe(settledByCounting(count, total, threshold, direction, method));
        }),
        { numRuns: 60 },
      );
      expect(compared).toBeGreaterThan(10);
    },
  );

  it("agrees for the interval of Blaker and mid-P", () => {
    const cases = [
      [9, 10, 0.8, "at_least"],
      [27, 30, 0.95, "at_least"],
      [1, 20, 0.1, "at_most"],
      [8, 20, 0.25, "at_most"],
    ] as const;
    for (const method of ["blaker", "mid_p"] as const) {
      for (const [count, total, threshold, direction] of cases) {
        const input = { count, total, threshold, direction };
        const { settledBy } = compute(criterion, input, { method }).values;
        expect(settledBy).toBeLessThan(400);
        expect(settledBy).toBe(settledByCounting(count, total, threshold, direction, method, 1000));
      }
    }
  });

  it("is never reached where the estimate equals the threshold, and says so", () => {
    const input = { count: 19, total: 20, threshold: 0.95, direction: "at_least" } as const;
    const found = compute(criterion, input);
    expect(found.values).toMatchObject({ verdict: "undecided", settledBy: null, further: null });
    expect(found.notes.map(({ code }) => code)).toContain("at_threshold");
  });

  it("stops at the horizon, and says so", () => {
    const input = { count: 9501, total: 10_000, threshold: 0.95, direction: "at_least" } as const;
    const found = compute(criterion, input);
    expect(found.values.settledBy).toBeNull();
    expect(found.notes.map(({ code }) => code)).toContain("beyond_horizon");
  });
});

describe("a verdict", () => {
  it.each([
    [200, 200, 0.95, "at_least", "met"],
    [90, 200, 0.95, "at_least", "not_met"],
    [190, 200, 0.95, "at_least", "undecided"],
    [0, 200, 0.05, "at_most", "met"],
    [60, 200, 0.05, "at_most", "not_met"],
    [8, 200, 0.05, "at_most", "undecided"],
    [0, 0, 0.05, "at_most", "not_estimable"],
  ] as const)("%i of %i against %d %s: %s", (count, total, threshold, direction, verdict) => {
    const found = compute(criterion, { count, total, threshold, direction });
    expect(found.values.verdict).toBe(verdict);
    expect(faultsOf(found)).toEqual([]);
  });

  it("is mirrored when events and others change places", () => {
    fc.assert(
      fc.property(CASES, ({ total, part, percent, direction }) => {
        const count = Math.round(part * total);
        // Thresholds and their complements that doubles hold exactly, so that ties stay ties.
        const threshold = Math.round((percent * 64) / 100) / 64;
        const here = compute(criterion, { count, total, threshold, direction }).values;
        const there = compute(criterion, {
          count: total - count,
          total,
          threshold: 1 - threshold,
          direction: direction === "at_least" ? "at_most" : "at_least",
        }).values;
        expect(there.settledBy).toBe(here.settledBy);
        expect(there.probability).toBeCloseTo(here.probability as number, 12);
        // "At least c" includes c and "at most c" does too, so the mirror image has the same verdict.
        expect(there.verdict).toBe(here.verdict);
      }),
      { numRuns: 200 },
    );
  });

  it("gets more likely the more events are seen", () => {
    let before = 0;
    for (let count = 0; count <= 50; count += 1) {
      const input = { count, total: 50, threshold: 0.9, direction: "at_least" } as const;
      const probability = compute(criterion, input).values.probability as number;
      expect(probability).toBeGreaterThan(before);
      before = probability;
    }
  });
});
