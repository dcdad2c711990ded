import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { binomialCdf, binomialLogMass, binomialMass, binomialQuantile } from "../../src/numeric/binomial.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS } from "./arbitraries.ts";
import { expectAll, type OracleRow, readOracle } from "./oracle-table.ts";

const trials = fc.integer({ min: 1, max: 400 });
const chance = fc.double({ min: 1e-4, max: 1 - 1e-4, noNaN: true });

/** Rows of `dbinom` off by 1.1e-12 to 2.3e-12: the same by 50-digit arithmetic (mpmath 1.3.0), C(n, x) p^x (1-p)^(n-x). */
const R_IS_WRONG: Readonly<Record<string, number>> = {
  "3200,10000,0.5": 1.234735519204781e-290,
  "6800,10000,0.5": 1.234735519204781e-290,
  "86585,100000,0.90000000000000002": 3.5835302705073105e-260,
  "99999,100000,0.99990000000000001": 0.00045381772136219775,
};

describe("the binomial distribution", () => {
  const rows = readOracle("oracle-binom.csv");

  /** All rows of a column: those with n up to 1e5 to 1e-12, larger n to 1e-9 (R's own errors there reach 1.4e-11). */
  function expectColumn(column: string, ours: (x: number, n: number, p: number) => number): void {
    const checks = rows.map((row) => ({
      row: row.text,
      size: row.number("n"),
      expected: column === "pmf" ? massOf(row) : row.number(column),
      actual: ours(row.number("x"), row.number("n"), row.number("p")),
    }));
    expectAll(
      `oracle-binom.csv, ${column}`,
      checks.filter(({ size }) => size <= 1e5),
      1e-12,
      1003,
    );
    expectAll(
      `oracle-binom.csv, ${column}, large n`,
      checks.filter(({ size }) => size > 1e5),
      1e-9,
      282,
    );
  }

  function massOf(row: OracleRow): number {
    return R_IS_WRONG[row.text.split(",").slice(0, 3).join(",")] ?? row.number("pmf");
  }

  it("agrees with R's dbinom", () => {
    expectColumn("pmf", binomialMass);
  });

  it("agrees with the logarithm of R's dbinom", () => {
    expectColumn("logpmf", binomialLogMass);
  });

  it("agrees with R's pbinom in both tails", () => {
    expectColumn("cdf", (x, n, p) => binomialCdf(x, n, p, "lower"));
    expectColumn("sf", (x, n, p) => binomialCdf(x, n, p, "upper"));
  });

  it("agrees with 50-digit arithmetic (mpmath 1.3.0) at 10 million trials", () => {
    const mass = binomialMass(965847, 10_000_000, 0.1);
    expectClose(mass, 2.008332542196322e-288, { relative: 5e-13 });
    expectClose(binomialLogMass(3004347, 10_000_000, 0.3), -12.695980318913152, { relative: 1e-15 });
  });

  it("the masses add up to the tails and to 1", () => {
    fc.assert(
      fc.property(trials, chance, fc.double({ min: 0, max: 1, noNaN: true }), (n, p, share) => {
        const x = Math.floor(share * n);
        let lower = 0;
        let upper = 0;
        for (let at = 0; at <= n; at++) {
          if (at <= x) lower += binomialMass(at, n, p);
          else upper += binomialMass(at, n, p);
        }
        expectClose(lower, binomialCdf(x, n, p), { relative: 5e-13, absolute: 1e-300 });
        expectClose(upper, binomialCdf(x, n, p, "upper"), { relative: 5e-13, absolute: 1e-300 });
        expectClose(lower + upper, 1, { absolute: 1e-13 });
      }),
      { ...RUNS, numRuns: 200 },
    );
  });

  it("is exact for small numbers: 10 choose x over 1024", () => {
    const choose = [1, 10, 45, 120, 210, 252, 210, 120, 45, 10, 1];
    choose.forEach((ways, x) => {
      expectClose(binomialMass(x, 10, 0.5), ways / 1024, { relative: 2e-15 }, `${x} of 10`);
    });
  });

  it("the quantile is the smallest count that reaches the probability", () => {
    fc.assert(
      fc.property(trials, chance, fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), (n, p, q) => {
        const x = binomialQuantile(q, n, p);
        expect(binomialCdf(x, n, p)).toBeGreaterThanOrEqual(q * (1 - 1e-13));
        if (x > 0) expect(binomialCdf(x - 1, n, p)).toBeLessThan(q);
      }),
      RUNS,
    );
  });

  it("the quantile of a cdf is the count again, also for ten million trials", () => {
    for (const [n, p] of [
      [1, 0.3],
      [37, 0.9],
      [5000, 0.02],
      [10_000_000, 0.4],
    ] as const) {
      for (const shift of [-3, -1, 0, 2]) {
        const x = Math.min(n, Math.max(0, Math.floor(n * p + shift * Math.sqrt(n * p * (1 - p)))));
        if (binomialCdf(x, n, p, "upper") > 1e-9) {
          expect(binomialQuantile(binomialCdf(x, n, p), n, p), `${x} of ${n}`).toBe(x);
        }
      }
    }
  });

  it("knows what is certain and what can't be", () => {
    expect(binomialMass(0, 0, 0.3)).toBe(1);
    expect(binomialLogMass(0, 5, 0)).toBe(0);
    expect(binomialMass(5, 5, 1)).toBe(1);
    expect(binomialMass(4, 5, 1)).toBe(0);
    expect(binomialMass(6, 5, 0.5)).toBe(0);
    expect(binomialMass(-1, 5, 0.5)).toBe(0);
    expect(binomialCdf(-1, 5, 0.5)).toBe(0);
    expect(binomialCdf(5, 5, 0.5)).toBe(1);
    expect(binomialCdf(2.7, 5, 0.5)).toBe(binomialCdf(2, 5, 0.5));
    expect(binomialQuantile(0, 5, 0.5)).toBe(0);
    expect(binomialQuantile(1, 5, 0.5)).toBe(5);
  });

  it("refuses part counts, negative n, p outside 0 to 1", () => {
    expect(() => binomialMass(1.5, 5, 0.5)).toThrow(InputError);
    expect(() => binomialMass(1, -5, 0.5)).toThrow(InputError);
    expect(() => binomialCdf(1, 5.5, 0.5)).toThrow(InputError);
    expect(() => binomialCdf(Number.NaN, 5, 0.5)).toThrow(InputError);
    expect(() => binomialLogMass(1, 5, 1.5)).toThrow(InputError);
    expect(() => binomialQuantile(-0.1, 5, 0.5)).toThrow(InputError);
  });
});
