import betaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { coverage } from "../../../src/methods/proportion/coverage.ts";
import { interval } from "../../../src/methods/proportion/interval.ts";
import { INTERVAL_METHODS } from "../../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses } from "../enumeration.ts";

const METHODS = fc.constantFrom(...INTERVAL_METHODS);
const LEVELS = fc.constantFrom(0.5, 0.8, 0.9, 0.95, 0.99, 0.999);
const COUNTS = fc
  .integer({ min: 1, max: 5000 })
  .chain((total) => fc.record({ total: fc.constant(total), count: fc.integer({ min: 0, max: total }) }));

describe("every interval of a proportion", () => {
  it("is ordered, keeps to 0..1 and contains the estimate", () => {
    fc.assert(
      fc.property(COUNTS, METHODS, LEVELS, ({ count, total }, method, level) => {
        const { lower, upper } = proportionInterval(count, total, { method, level });
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(upper).toBeLessThanOrEqual(1);
        expect(lower).toBeLessThanOrEqual(count / total);
        expect(upper).toBeGreaterThanOrEqual(count / total);
      }),
      { numRuns: 2000 },
    );
  });

  it("is mirrored when events and others change places", () => {
    fc.assert(
      fc.property(COUNTS, METHODS, LEVELS, ({ count, total }, method, level) => {
        const here = proportionInterval(count, total, { method, level });
        const there = proportionInterval(total - count, total, { method, level });
        expectClose(here.lower, 1 - there.upper, { relative: 1e-11, absolute: 1e-13 }, "lower");
        expectClose(here.upper, 1 - there.lower, { relative: 1e-11, absolute: 1e-13 }, "upper");
      }),
      { numRuns: 1000 },
    );
  });

  it("moves up with the count", () => {
    fc.assert(
      fc.property(COUNTS, METHODS, LEVELS, ({ count, total }, method, level) => {
        if (count === total) return;
        const here = proportionInterval(count, total, { method, level });
        const next = proportionInterval(count + 1, total, { method, level });
        expect(next.lower).toBeGreaterThanOrEqual(here.lower - 1e-14);
        expect(next.upper).toBeGreaterThanOrEqual(here.upper - 1e-14);
      }),
      { numRuns: 1000 },
    );
  });

  it("has one-sided limits that are two-sided limits of twice the error", () => {
    const oneSided = METHODS.filter((method) => method !== "blaker");
    // Absolute beside relative: the corrected Wald limit near 0 is a difference of larger numbers.
    const near = { relative: 1e-12, absolute: 1e-15 };
    fc.assert(
      fc.property(COUNTS, oneSided, ({ count, total }, method) => {
        const two = proportionInterval(count, total, { method, level: 0.9 });
        const lower = proportionInterval(count, total, { method, level: 0.95, sides: "lower" });
        const upper = proportionInterval(count, total, { method, level: 0.95, sides: "upper" });
        expectClose(lower.lower, two.lower, near, "lower");
        expectClose(upper.upper, two.upper, near, "upper");
        expect([lower.upper, upper.lower]).toEqual([1, 0]);
      }),
      { numRuns: 300 },
    );
  });

  it("has an answer, finite and ordered, up to ten million observations", () => {
    for (const method of INTERVAL_METHODS) {
      for (const total of [1, 1e4, 1e6, 1e7]) {
        for (const count of new Set([0, 1, Math.floor(total / 3), total - 1, total])) {
          const { lower, upper } = proportionInterval(count, total, { method, level: 0.95 });
          expect(lower >= 0 && lower <= upper && upper <= 1, `${method} ${count}/${total}`).toBe(true);
        }
      }
    }
  });
});

describe("the exact interval", () => {
  // Second opinion: @stdlib/stats-base-dists-beta-quantile 0.2.3, found good to 1e-15 up to n = 1,000.
  it("agrees with beta quantiles of another library", () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 1000 }), fc.nat(), LEVELS, (total, seedOfCount, level) => {
        const count = 1 + (seedOfCount % (total - 1));
        const { lower, upper } = proportionInterval(count, total, { level });
        const outside = (1 - level) / 2;
        expectClose(lower, betaQuantile(outside, count, total - count + 1), { relative: 1e-12 }, "lower");
        expectClose(upper, betaQuantile(1 - outside, count + 1, total - count), { relative: 1e-12 }, "upper");
      }),
      { numRuns: 500 },
    );
  });

  it("never covers less than it says: every total up to 100, 333 proportions each, by counting", () => {
    const short: string[] = [];
    for (let total = 1; total <= 100; total += 1) {
      const limits = Array.from({ length: total + 1 }, (_, count) => proportionInterval(count, total));
      for (let step = 1 + (total % 3); step < 1000; step += 3) {
        const share = step / 1000;
        const covered = binomialMasses(total, share).reduce((sum, mass, count) => {
          const { lower, upper } = limits[count] as { lower: number; upper: number };
          return lower <= share && share <= upper ? sum + mass : sum;
        }, 0);
        if (covered < 0.95 - 1e-12) short.push(`${total} at ${share}: ${covered}`);
      }
    }
    expect(short).toEqual([]);
  });

  it("never covers less than it says anywhere, nor does Blaker's, by the lowest of all", () => {
    for (const method of ["clopper_pearson", "blaker"] as const) {
      for (const total of [1, 2, 3, 7, 20, 50, 100, 250]) {
        for (const level of [0.8, 0.95, 0.99]) {
          const { infimum } = compute(coverage, { total, proportions: [0.5] }, { method, level }).values;
          expect(infimum.coverage, `${method} ${total} ${level}`).toBeGreaterThanOrEqual(level - 1e-9);
        }
      }
    }
  });
});

describe("the method", () => {
  it("refuses a count above the total, naming the field", () => {
    expect(() => compute(interval, { count: 3, total: 2 })).toThrow(InputError);
    expect(() => compute(interval, { count: 3, total: 2 })).toThrow(
      /^input\.count: .*at most the total, 2.*3$/,
    );
  });

  it("refuses one-sided limits that don't exist", () => {
    const blaker = { method: "blaker", sides: "lower" } as const;
    expect(() => compute(interval, { count: 1, total: 2 }, blaker)).toThrow(/options\.sides/);
    const low = { level: 0.4, sides: "lower" } as const;
    expect(() => compute(interval, { count: 1, total: 2 }, low)).toThrow(/options\.level/);
  });

  it("says where a limit was cut, and gives it uncut when asked", () => {
    const cut = compute(interval, { count: 1, total: 20 }, { method: "wald" });
    expect(cut.values.proportion.lower).toBe(0);
    expect(cut.notes).toMatchObject([{ code: "truncated", path: "proportion.lower" }]);
    const raw = compute(interval, { count: 1, total: 20 }, { method: "wald", truncate: false });
    expect(raw.values.proportion.lower).toBeLessThan(0);
    expect(raw.notes).toEqual([]);
  });
});
