import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { logBeta, logGamma } from "../../src/numeric/gamma-function.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, spread } from "./arbitraries.ts";
import { expectAll, readOracle } from "./oracle-table.ts";

describe("the logarithm of the gamma function", () => {
  it("agrees with R's lgamma, which is off by 1e-12 beside its zeros at 1 and 2", () => {
    const checks = readOracle("oracle-lgamma.csv", ["x", "value"])
      .filter((row) => Number.isFinite(row.number("x")))
      .map((row) => ({ row: row.text, expected: row.number("value"), actual: logGamma(row.number("x")) }));
    expectAll("oracle-lgamma.csv", checks, 1e-12, 19);
    const away = checks.filter(({ row }) => Math.abs(Number(row.split(",")[0]) - 1.5) > 0.6);
    expectAll("oracle-lgamma.csv, away from 1 and 2", away, 1e-15, 10);
  });

  it("agrees with 45-digit arithmetic (mpmath 1.3.0) beside its zeros", () => {
    expectClose(logGamma(0.9999), 5.772979156119387e-5, { relative: 1e-15 });
    expectClose(logGamma(2.0001), 4.2281658112919945e-5, { relative: 1e-15 });
  });

  it("is exact for factorials", () => {
    let factorial = 1;
    for (let n = 1; n <= 22; n++) {
      expectClose(logGamma(n), Math.log(factorial), { relative: 1e-15 }, `log Gamma(${n})`);
      factorial *= n;
    }
    expectClose(logGamma(0.5), Math.log(Math.PI) / 2, { relative: 1e-15 });
  });

  it("obeys the recurrence and the duplication formula, DLMF 5.5.1 and 5.5.5", () => {
    fc.assert(
      fc.property(spread(-6, 8), (x) => {
        const absolute = 1e-15 * (1 + Math.abs(x * Math.log(x)));
        expectClose(logGamma(x + 1), logGamma(x) + Math.log(x), { absolute });
        const double = (2 * x - 1) * Math.LN2 - Math.log(Math.PI) / 2 + logGamma(x) + logGamma(x + 0.5);
        expectClose(logGamma(2 * x), double, { absolute: 4 * absolute });
      }),
      RUNS,
    );
  });

  it("agrees with jstat", () => {
    fc.assert(
      fc.property(spread(0.5, 6), (x) => {
        expectClose(logGamma(x), jstat.jStat.gammaln(x), { relative: 1e-12 });
      }),
      RUNS,
    );
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("refuses %d", (x) => {
    expect(() => logGamma(x)).toThrow(InputError);
  });
});

describe("the logarithm of the beta function", () => {
  it("is what the gamma functions say", () => {
    fc.assert(
      fc.property(spread(-3, 2), spread(-3, 2), (a, b) => {
        const expected = logGamma(a) + logGamma(b) - logGamma(a + b);
        expectClose(logBeta(a, b), expected, { relative: 1e-13, absolute: 2e-13 });
        expectClose(logBeta(a, b), logBeta(b, a), { relative: 1e-15, absolute: 1e-15 });
      }),
      RUNS,
    );
  });

  it("keeps its digits where the gamma functions cancel: B(a, 1) = 1 / a, B(a, 2) = 1 / (a (a + 1))", () => {
    fc.assert(
      fc.property(spread(-10, 12), (a) => {
        expectClose(logBeta(a, 1), -Math.log(a), { absolute: 1e-14 });
        expectClose(logBeta(2, a), -Math.log(a) - Math.log1p(a), { absolute: 1e-14 });
      }),
      RUNS,
    );
  });

  it("is a product for halves: B(a, 1) = 1 / a, B(a + 1, 1/2) = B(a, 1/2) a / (a + 1/2) from B(1/2, 1/2) = pi", () => {
    let odd = Math.PI;
    let even = 2;
    for (let a = 0.5; a <= 40; a += 1) {
      expectClose(logBeta(a, 1), -Math.log(a), { absolute: 4e-15 }, `B(${a}, 1)`);
      expectClose(logBeta(a, 0.5), Math.log(odd), { absolute: 4e-15 }, `B(${a}, 1/2)`);
      expectClose(logBeta(a + 0.5, 0.5), Math.log(even), { absolute: 4e-15 }, `B(${a + 0.5}, 1/2)`);
      odd *= a / (a + 0.5);
      even *= (a + 0.5) / (a + 1);
    }
  });

  it("refuses shapes that are not above 0", () => {
    expect(() => logBeta(0, 1)).toThrow(InputError);
    expect(() => logBeta(1, Number.NaN)).toThrow(InputError);
  });
});
