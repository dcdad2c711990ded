import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { incompleteBeta } from "../../src/numeric/incomplete-beta.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, spread } from "./arbitraries.ts";
import { expectAll, readOracle } from "./oracle-table.ts";

const unit = fc.double({ min: 0, max: 1, noNaN: true });
/** Multiples of 2^-30, for which 1 - x is exact. */
const evenUnit = fc.integer({ min: 0, max: 2 ** 30 }).map((count) => count / 2 ** 30);
const shape = spread(-3, 5);

describe("the incomplete beta function", () => {
  it("agrees with 60-digit arithmetic, shapes from 1e-8 to 1e9, tails down to 1e-290", () => {
    const checks = readOracle("oracle-tails-mp.csv")
      .filter((row) => row.word("fn") === "beta")
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: incompleteBeta(
          row.number("x"),
          row.number("a"),
          row.number("b"),
          row.word("tail") === "lower" ? "lower" : "upper",
        ),
      }));
    expectAll("oracle-tails-mp.csv, beta", checks, 2e-13, 500);
    const everyday = checks.filter(({ expected }) => expected > 1e-10);
    expectAll("oracle-tails-mp.csv, beta, above 1e-10", everyday, 1e-14, 400);
  });

  it("agrees with 50-digit arithmetic (mpmath 1.3.0) where a + b can't be held in a double", () => {
    const tail = incompleteBeta(0.10705, 60000000.37, 500000000.1);
    expectClose(tail, 5.956845259349765e-13, { relative: 5e-14 });
  });

  it("the tails add up to 1", () => {
    fc.assert(
      fc.property(unit, shape, shape, (x, a, b) => {
        expectClose(incompleteBeta(x, a, b) + incompleteBeta(x, a, b, "upper"), 1, { absolute: 4e-16 });
      }),
      RUNS,
    );
  });

  it("exchanging the shapes exchanges the tails: I_x(a, b) = 1 - I_(1-x)(b, a), DLMF 8.17.4", () => {
    fc.assert(
      fc.property(evenUnit, shape, shape, (x, a, b) => {
        expectClose(incompleteBeta(x, a, b), incompleteBeta(1 - x, b, a, "upper"), {
          relative: 1e-14,
          absolute: 1e-300,
        });
      }),
      RUNS,
    );
  });

  it("grows with x", () => {
    fc.assert(
      fc.property(unit, unit, shape, shape, (one, other, a, b) => {
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        const slack = 1 + 1e-13;
        expect(incompleteBeta(low, a, b)).toBeLessThanOrEqual(incompleteBeta(high, a, b) * slack);
        expect(incompleteBeta(low, a, b, "upper") * slack).toBeGreaterThanOrEqual(
          incompleteBeta(high, a, b, "upper"),
        );
      }),
      RUNS,
    );
  });

  it("is a power where one shape is 1, DLMF 8.17.7", () => {
    fc.assert(
      fc.property(unit, shape, (x, a) => {
        expectClose(incompleteBeta(x, a, 1), x ** a, { relative: 3e-13, absolute: 1e-300 });
        expectClose(incompleteBeta(x, 1, a, "upper"), (1 - x) ** a, { relative: 1e-11, absolute: 1e-300 });
      }),
      RUNS,
    );
  });

  it("is the arcsine law for a = b = 1/2", () => {
    for (const x of [1e-12, 0.01, 0.3, 0.5, 0.9]) {
      expectClose(incompleteBeta(x, 0.5, 0.5), (2 / Math.PI) * Math.asin(Math.sqrt(x)), { relative: 1e-15 });
    }
  });

  it("obeys the recurrence of DLMF 8.17.20", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 0.95, noNaN: true }), spread(0, 2), spread(0, 2), (x, a, b) => {
        const step = incompleteBeta(x, a, b) - incompleteBeta(x, a + 1, b);
        const weight = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - jstat.jStat.gammaln(a + 1));
        const factor = Math.exp(jstat.jStat.gammaln(a + b) - jstat.jStat.gammaln(b));
        expectClose(step, weight * factor, { relative: 1e-10, absolute: 1e-15 });
      }),
      RUNS,
    );
  });

  it("agrees with jstat where that is sound (bulk, shapes from 1 to 100; its own error passes 1e-8)", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 0.9, noNaN: true }), spread(0, 2), spread(0, 2), (x, a, b) => {
        const theirs = jstat.jStat.beta.cdf(x, a, b);
        expectClose(incompleteBeta(x, a, b), theirs, { absolute: 1e-6 });
      }),
      RUNS,
    );
  });

  it("knows its ends", () => {
    expect(incompleteBeta(0, 2, 3)).toBe(0);
    expect(incompleteBeta(0, 2, 3, "upper")).toBe(1);
    expect(incompleteBeta(1, 2, 3)).toBe(1);
    expect(incompleteBeta(1, 2, 3, "upper")).toBe(0);
  });

  it.each([
    [Number.NaN, 1, 1],
    [-0.1, 1, 1],
    [1.1, 1, 1],
    [0.5, 0, 1],
    [0.5, -1, 1],
    [0.5, 1, Number.NaN],
    [0.5, 1, Number.POSITIVE_INFINITY],
  ])("refuses x = %d, a = %d, b = %d", (x, a, b) => {
    expect(() => incompleteBeta(x, a, b)).toThrow(InputError);
  });
});
