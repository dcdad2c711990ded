import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { exactUnconditional } from "../../../src/methods/comparison/exact-unconditional.ts";
import { differenceScore } from "../../../src/methods/proportion/score-difference.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";
import { SMALL_GROUPS } from "./arbitrary.ts";

interface Groups {
  readonly first: { readonly count: number; readonly total: number };
  readonly second: { readonly count: number; readonly total: number };
}

/** The sign and square of the pooled score as a fraction of whole numbers, without its constant. */
function squaredScore(a: number, m: number, b: number, n: number): readonly [bigint, bigint] {
  const apart = BigInt(a * n - b * m);
  const [both, rest] = [BigInt(a + b), BigInt(m + n - a - b)];
  if (apart === 0n) return [0n, 1n];
  return [apart < 0n ? -apart * apart : apart * apart, both * rest];
}

/** Two-sided p by listing every result, over a grid of common proportions. */
function listedTwoSided({ first, second }: Groups, shares: readonly number[]): number {
  const [seenTop, seenBottom] = squaredScore(first.count, first.total, second.count, second.total);
  const size = seenTop < 0n ? -seenTop : seenTop;
  let highest = 0;
  for (const share of shares) {
    const [one, other] = [binomialMasses(first.total, share), binomialMasses(second.total, share)];
    let p = 0;
    for (const [a, mass] of one.entries()) {
      for (const [b, weight] of other.entries()) {
        const [top, bottom] = squaredScore(a, first.total, b, second.total);
        if ((top < 0n ? -top : top) * seenBottom >= size * bottom) p += mass * weight;
      }
    }
    highest = Math.max(highest, p);
  }
  return highest;
}

const SHARES = Array.from({ length: 799 }, (_, at) => (at + 1) / 800);

describe("comparison.exact_unconditional", () => {
  it("gives plain numbers, or null with a note; p as listing every result gives", () => {
    fc.assert(
      fc.property(SMALL_GROUPS, (groups) => {
        const found = compute(exactUnconditional, groups);
        expect(faultsOf(found)).toEqual([]);
        const { twoSided, difference } = found.values;
        if (twoSided === null) return;
        const listed = listedTwoSided(groups, SHARES);
        // The grid of 1/800 misses the top of a hump by little.
        expect(twoSided).toBeGreaterThan(listed * (1 - 1e-9));
        expectClose(twoSided, listed, { relative: 2e-4 }, "p");
        const { value, lower, upper } = difference as Record<"value" | "lower" | "upper", number>;
        expect(lower).toBeLessThanOrEqual(value);
        expect(upper).toBeGreaterThanOrEqual(value);
      }),
      { numRuns: 60 },
    );
  });

  it("turns signs when the groups are exchanged, and keeps p", () => {
    fc.assert(
      fc.property(SMALL_GROUPS, ({ first, second }) => {
        const one = compute(exactUnconditional, { first, second }).values;
        const other = compute(exactUnconditional, { first: second, second: first }).values;
        if (one.twoSided === null) return;
        expectClose(other.twoSided, one.twoSided, { relative: 1e-9 }, "two-sided");
        expectClose(other.less, one.greater as number, { relative: 1e-9 }, "one-sided");
        expectClose(-(other.difference.upper as number), one.difference.lower as number, { absolute: 1e-12 });
      }),
      { numRuns: 60 },
    );
  });

  it("has one-sided p at most alpha / 2 where the limits leave out 0", () => {
    fc.assert(
      fc.property(SMALL_GROUPS, (groups) => {
        const { difference, greater, less } = compute(exactUnconditional, groups, { level: 0.8 }).values;
        if ((difference.lower ?? 0) > 1e-9) expect(greater).toBeLessThanOrEqual(0.1 + 1e-9);
        if ((difference.upper ?? 0) < -1e-9) expect(less).toBeLessThanOrEqual(0.1 + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it("rests on a score that rises with the first count and falls with the second", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 25 }),
        fc.integer({ min: 1, max: 25 }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (m, n, drawn) => {
          // Differences too small to be squared have no variance that could be computed.
          const supposed = Math.abs(drawn) < 1e-100 ? 0 : drawn;
          for (let a = 0; a <= m; a += 1) {
            for (let b = 0; b <= n; b += 1) {
              const here = differenceScore(a, m, b, n, supposed);
              const slack = Number.isFinite(here) ? 1e-9 * Math.max(1, Math.abs(here)) : 0;
              if (a < m) expect(differenceScore(a + 1, m, b, n, supposed) + slack >= here).toBe(true);
              if (b < n) expect(differenceScore(a, m, b + 1, n, supposed) <= here + slack).toBe(true);
            }
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it("covers at least the stated level, every result of 7 and 9 people added up", () => {
    const limits = Array.from({ length: 8 }, (_, a) =>
      Array.from({ length: 10 }, (_, b) => {
        const groups = { first: { count: a, total: 7 }, second: { count: b, total: 9 } };
        return compute(exactUnconditional, groups, { level: 0.9 }).values.difference;
      }),
    );
    for (let p = 0.02; p < 1; p += 0.04) {
      for (let q = 0.02; q < 1; q += 0.04) {
        const [first, second] = [binomialMasses(7, p), binomialMasses(9, q)];
        let covered = 0;
        for (const [a, row] of limits.entries()) {
          for (const [b, { lower, upper }] of row.entries()) {
            const inside = (lower as number) <= p - q && p - q <= (upper as number);
            if (inside) covered += (first[a] as number) * (second[b] as number);
          }
        }
        expect(covered, `at ${p}, ${q}`).toBeGreaterThanOrEqual(0.9 - 1e-9);
      }
    }
  });

  it("never rejects too often: the size of the test at 5 %, 10 and 12 people", () => {
    const rejected: [number, number][] = [];
    for (let a = 0; a <= 10; a += 1) {
      for (let b = 0; b <= 12; b += 1) {
        const groups = { first: { count: a, total: 10 }, second: { count: b, total: 12 } };
        if ((compute(exactUnconditional, groups).values.twoSided as number) <= 0.05) rejected.push([a, b]);
      }
    }
    expect(rejected.length).toBeGreaterThan(20);
    for (const share of SHARES) {
      const [first, second] = [binomialMasses(10, share), binomialMasses(12, share)];
      const size = rejected.reduce((sum, [a, b]) => sum + (first[a] as number) * (second[b] as number), 0);
      expect(size).toBeLessThanOrEqual(0.05);
    }
  });

  it("adds the error of the restriction, and restricts", () => {
    const groups = { first: { count: 141, total: 150 }, second: { count: 130, total: 150 } };
    const free = compute(exactUnconditional, groups).values;
    const restricted = compute(exactUnconditional, groups, { restriction: 0.001 }).values;
    expect(restricted.twoSided as number).toBeLessThan(free.twoSided as number);
    expect(restricted.twoSided as number).toBeGreaterThan(0.001);
    expect(restricted.commonProportion as number).toBeGreaterThan(0.8);
  });

  it("refuses groups that would take too long", () => {
    const large = { first: { count: 5, total: 2001 }, second: { count: 1, total: 4 } };
    expect(() => compute(exactUnconditional, large)).toThrow(InputError);
  });
});
