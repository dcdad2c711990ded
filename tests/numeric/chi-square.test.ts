import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { chiSquareCdf, chiSquareQuantile } from "../../src/numeric/chi-square.ts";
import { expectClose } from "../tolerance.ts";
import { expectAll, readOracle, tailOf } from "./oracle-table.ts";

describe("the chi-square distribution", () => {
  const rows = readOracle("oracle-chisq.csv");
  const checksOf = (fn: string, ours: typeof chiSquareCdf) =>
    rows
      .filter((row) => row.word("fn") === fn)
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: ours(row.number("arg"), row.number("df"), tailOf(row)),
      }));

  it("agrees with R's pchisq; the worst rows, near 1e-76 and beyond, are R's own error (45-digit arithmetic)", () => {
    expectAll("oracle-chisq.csv, cdf", checksOf("cdf", chiSquareCdf), 1e-12, 416);
  });

  it("agrees with R's qchisq", () => {
    expectAll("oracle-chisq.csv, quantile", checksOf("quantile", chiSquareQuantile), 5e-14, 494);
  });

  it("is exponential for two degrees of freedom", () => {
    expectClose(chiSquareCdf(3, 2, "upper"), Math.exp(-1.5), { relative: 1e-15 });
    expectClose(chiSquareQuantile(0.05, 2, "upper"), -2 * Math.log(0.05), { relative: 1e-15 });
  });

  it("agrees with jstat in the bulk", () => {
    for (const df of [1, 4, 30]) {
      expectClose(chiSquareQuantile(0.95, df), jstat.jStat.chisquare.inv(0.95, df), { relative: 1e-8 });
      expectClose(chiSquareCdf(df, df), jstat.jStat.chisquare.cdf(df, df), { relative: 1e-10 });
    }
  });

  it("refuses a negative x, df that is not above 0, p outside 0 to 1", () => {
    expect(() => chiSquareCdf(-1, 2)).toThrow(InputError);
    expect(() => chiSquareCdf(1, 0)).toThrow(InputError);
    expect(() => chiSquareQuantile(1.5, 2)).toThrow(InputError);
    expect(() => chiSquareQuantile(0.5, Number.NaN)).toThrow(InputError);
  });
});
