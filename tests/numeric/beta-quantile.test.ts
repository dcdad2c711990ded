import betaincinv from "@stdlib/math-base-special-betaincinv";
import stdlibBetaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { betaQuantile, betaQuantilePair } from "../../src/numeric/beta-quantile.ts";
import { betaTail } from "../../src/numeric/incomplete-beta.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, smallProbability, spread, tail } from "./arbitraries.ts";
import { expectAll, readOracle, tailOf } from "./oracle-table.ts";

const shape = spread(-4, 7);

describe("the beta quantile", () => {
  const truth = readOracle("oracle-beta-quantile-mp.csv");
  const pairOf = (row: (typeof truth)[number]) =>
    betaQuantilePair(row.number("p"), row.number("a"), row.number("b"), tailOf(row));

  it("agrees with 40-digit arithmetic on all rows, n up to 10 million: x and 1 - x", () => {
    const x = truth.map((row) => ({
      row: row.text,
      expected: row.number("quantile"),
      actual: pairOf(row).x,
    }));
    const complement = truth.map((row) => ({
      row: row.text,
      expected: row.number("one_minus"),
      actual: pairOf(row).complement,
    }));
    expectAll("oracle-beta-quantile-mp.csv, x", x, 5e-15, 1040);
    expectAll("oracle-beta-quantile-mp.csv, 1 - x", complement, 5e-15, 1040);
  });

  it("agrees with R's qbeta, whose own error is up to 8.2e-15", () => {
    const checks = readOracle("oracle-beta-quantile.csv").map((row) => ({
      row: row.text,
      expected: row.number("quantile"),
      actual: betaQuantile(row.number("p"), row.number("a"), row.number("b"), tailOf(row)),
    }));
    expectAll("oracle-beta-quantile.csv", checks, 2e-14, 1040);
  });

  it("the tail at the quantile is the probability again, as closely as the quantile's own rounding lets it", () => {
    fc.assert(
      fc.property(smallProbability, shape, shape, tail, (p, a, b, side) => {
        const { x, complement } = betaQuantilePair(p, a, b, side);
        expect(Math.min(x, complement)).toBeGreaterThanOrEqual(0);
        if (Math.min(x, complement) < 1e-290) return;
        const nudged = (x / complement) * (1 + 1e-7);
        const here = betaTail(a, b, x, complement, side);
        const beside = betaTail(a, b, nudged / (1 + nudged), 1 / (1 + nudged), side);
        const steepness = Math.abs(beside / here - 1) / 1e-7;
        expectClose(here, p, { relative: 2e-15 * (steepness + 10 - Math.log(p)) });
      }),
      { ...RUNS, numRuns: 3000 },
    );
  });

  it("is 0 only where the probability lies below the smallest double", () => {
    fc.assert(
      fc.property(smallProbability, spread(-4, 1), shape, (p, a, b) => {
        if (betaQuantile(p, a, b) === 0) expect(betaTail(a, b, 1e-300, 1, "lower")).toBeGreaterThan(p);
      }),
      RUNS,
    );
  });

  it("exchanging shapes and tail exchanges x and 1 - x", () => {
    fc.assert(
      fc.property(smallProbability, shape, shape, (p, a, b) => {
        const lower = betaQuantilePair(p, a, b, "lower");
        const upper = betaQuantilePair(p, b, a, "upper");
        expectClose(upper.complement, lower.x, { relative: 1e-15 });
        expectClose(upper.x, lower.complement, { relative: 1e-15 });
        expectClose(lower.x + lower.complement, 1, { absolute: 3e-16 });
      }),
      RUNS,
    );
  });

  it("a probability from below is the rest from above", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1023 }), shape, shape, (count, a, b) => {
        const p = count / 1024;
        expect(betaQuantile(p, a, b, "upper")).toBe(betaQuantile(1 - p, a, b, "lower"));
      }),
      RUNS,
    );
  });

  it("grows with the probability, falls with b", () => {
    fc.assert(
      fc.property(smallProbability, spread(-2, 5), spread(-2, 5), (p, a, b) => {
        const x = betaQuantile(p, a, b);
        expect(betaQuantile(p / 2, a, b)).toBeLessThanOrEqual(x);
        expect(betaQuantile(p, a, b * 1.1)).toBeLessThanOrEqual(x * (1 + 1e-13));
      }),
      RUNS,
    );
  });

  it("knows closed forms: one shape 1, and the arcsine law", () => {
    expectClose(betaQuantile(0.025, 1, 30), 1 - 0.975 ** (1 / 30), { relative: 1e-13 });
    expectClose(betaQuantile(0.025, 30, 1), 0.025 ** (1 / 30), { relative: 1e-15 });
    expectClose(betaQuantile(0.1, 0.5, 0.5), Math.sin((Math.PI * 0.1) / 2) ** 2, { relative: 1e-15 });
    expect(betaQuantile(0.5, 7, 7)).toBeCloseTo(0.5, 15);
  });

  it("agrees with @stdlib and jstat on exact limits, n up to 1,000, where they are sound", () => {
    for (let n = 10; n <= 1000; n += 33) {
      const x = (n * 7) % (n - 1);
      const [a, b] = [x + 1, n - x];
      const ours = betaQuantile(0.025, a, b, "upper");
      expectClose(
        ours,
        stdlibBetaQuantile(0.975, a, b),
        { relative: 1e-13 },
        `@stdlib quantile, ${x} of ${n}`,
      );
      expectClose(ours, betaincinv(0.025, a, b, true), { relative: 1e-13 }, `@stdlib, ${x} of ${n}`);
      expectClose(ours, jstat.jStat.beta.inv(0.975, a, b), { relative: 1e-7 }, `jstat, ${x} of ${n}`);
    }
  });

  it("knows its ends", () => {
    expect(betaQuantilePair(0, 2, 3)).toEqual({ x: 0, complement: 1 });
    expect(betaQuantilePair(1, 2, 3)).toEqual({ x: 1, complement: 0 });
    expect(betaQuantilePair(0, 2, 3, "upper")).toEqual({ x: 1, complement: 0 });
    expect(betaQuantile(1, 0.5, 0.5, "upper")).toBe(0);
  });

  it.each([
    [Number.NaN, 1, 1],
    [-1e-9, 1, 1],
    [1.1, 1, 1],
    [0.5, 0, 1],
    [0.5, 1, -2],
    [0.5, Number.POSITIVE_INFINITY, 1],
  ])("refuses p = %d, a = %d, b = %d", (p, a, b) => {
    expect(() => betaQuantile(p, a, b)).toThrow(InputError);
    expect(() => betaQuantilePair(p, a, b)).toThrow(InputError);
  });
});
