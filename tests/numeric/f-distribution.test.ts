import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { fCdf, fQuantile } from "../../src/numeric/f-distribution.ts";
import { tQuantile } from "../../src/numeric/student-t.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, spread, tail } from "./arbitraries.ts";
import { expectAll, readOracle, tailOf } from "./oracle-table.ts";

const df = spread(-0.3, 5);

describe("the F distribution", () => {
  it("the quantiles agree with 60-digit arithmetic (R's qf does not: off by more than 1e-10 in 54 rows)", () => {
    const checks = readOracle("oracle-f-mp.csv").map((row) => ({
      row: row.text,
      expected: row.number("value"),
      actual: fQuantile(row.number("arg"), row.number("d1"), row.number("d2"), tailOf(row)),
    }));
    expectAll("oracle-f-mp.csv, quantile", checks, 2e-14, 1440);
  });

  it("the probabilities agree with R's pf", () => {
    const checks = readOracle("oracle-f.csv")
      .filter((row) => row.word("fn") === "cdf")
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: fCdf(row.number("arg"), row.number("d1"), row.number("d2"), tailOf(row)),
      }));
    expectAll("oracle-f.csv, cdf", checks, 1e-12, 1296);
  });

  it("the quantile undoes the cdf, in either tail", () => {
    const p = fc.double({ min: 1e-9, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(p, df, df, tail, (probability, d1, d2, side) => {
        const x = fQuantile(probability, d1, d2, side);
        expectClose(fCdf(x, d1, d2, side), probability, { relative: 1e-12 });
      }),
      RUNS,
    );
  });

  it("turned upside down it exchanges degrees of freedom and tails", () => {
    fc.assert(
      fc.property(spread(-3, 3), df, df, (x, d1, d2) => {
        const upper = fCdf(1 / x, d2, d1, "upper");
        expectClose(fCdf(x, d1, d2), upper, { relative: 2e-11, absolute: 1e-300 });
        expectClose(fCdf(x, d1, d2) + fCdf(x, d1, d2, "upper"), 1, { absolute: 4e-16 });
      }),
      RUNS,
    );
  });

  it("with one degree of freedom above it is the square of t", () => {
    for (const d2 of [1, 4, 30, 1000]) {
      expectClose(fQuantile(0.05, 1, d2, "upper"), tQuantile(0.025, d2) ** 2, { relative: 1e-14 });
    }
  });

  it("knows its ends", () => {
    expect(fCdf(0, 2, 3)).toBe(0);
    expect(fCdf(Number.POSITIVE_INFINITY, 2, 3)).toBe(1);
    expect(fQuantile(0, 2, 3)).toBe(0);
    expect(fQuantile(1, 2, 3)).toBe(Number.POSITIVE_INFINITY);
  });

  it("refuses a negative x, degrees of freedom that are not above 0, p outside 0 to 1", () => {
    expect(() => fCdf(-1, 2, 3)).toThrow(InputError);
    expect(() => fCdf(1, 0, 3)).toThrow(InputError);
    expect(() => fQuantile(0.5, 2, -3)).toThrow(InputError);
    expect(() => fQuantile(2, 2, 3)).toThrow(InputError);
  });
});
