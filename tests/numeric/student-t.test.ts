import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { normalQuantile } from "../../src/numeric/normal.ts";
import { tCdf, tQuantile } from "../../src/numeric/student-t.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, smallProbability, spread, tail } from "./arbitraries.ts";
import { expectAll, readOracle, tailOf } from "./oracle-table.ts";

describe("Student's t distribution", () => {
  const rows = readOracle("oracle-t.csv");
  const checksOf = (fn: string, ours: typeof tCdf) =>
    rows
      .filter((row) => row.word("fn") === fn)
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: ours(row.number("arg"), row.number("df"), tailOf(row)),
      }));

  it("agrees with R's pt", () => {
    expectAll("oracle-t.csv, cdf", checksOf("cdf", tCdf), 5e-13, 532);
  });

  it("agrees with R's qt", () => {
    expectAll("oracle-t.csv, quantile", checksOf("quantile", tQuantile), 5e-14, 456);
  });

  it("is Cauchy's distribution for one degree of freedom, far out too", () => {
    for (const t of [1, 50, 1e10, 1e100, 1e200]) {
      expectClose(tCdf(t, 1, "upper"), Math.atan2(1, t) / Math.PI, { relative: 1e-13 }, `t = ${t}`);
      expectClose(
        tQuantile(1 / (Math.PI * t), 1, "upper"),
        1 / Math.tan(1 / t),
        { relative: 1e-12 },
        `t = ${t}`,
      );
    }
  });

  it("has a closed form for two degrees of freedom", () => {
    for (const t of [-30, -1, 0.2, 4]) {
      expectClose(tCdf(t, 2), 0.5 + t / (2 * Math.sqrt(2 + t * t)), { relative: 1e-13 }, `t = ${t}`);
    }
  });

  it("the quantile undoes the cdf, in either tail", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-12, max: 0.4999, noNaN: true }),
        spread(-0.5, 6),
        tail,
        (p, df, side) => {
          expectClose(tCdf(tQuantile(p, df, side), df, side), p, { relative: 1e-13 });
        },
      ),
      RUNS,
    );
  });

  it("is symmetric, its tails add up", () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), spread(-0.5, 6), (t, df) => {
        expectClose(tCdf(t, df), tCdf(-t, df, "upper"), { relative: 1e-15 });
        expectClose(tCdf(t, df) + tCdf(t, df, "upper"), 1, { absolute: 4e-16 });
      }),
      RUNS,
    );
  });

  it("turns into the normal distribution", () => {
    fc.assert(
      fc.property(
        smallProbability.filter((p) => p > 1e-6),
        (p) => {
          expectClose(tQuantile(p, 1e12), normalQuantile(p), { relative: 1e-10, absolute: 1e-10 });
        },
      ),
      RUNS,
    );
  });

  it("agrees with jstat in the bulk", () => {
    for (const df of [3, 12, 80]) {
      expectClose(tQuantile(0.975, df), jstat.jStat.studentt.inv(0.975, df), { relative: 1e-7 });
      expectClose(tCdf(1.3, df), jstat.jStat.studentt.cdf(1.3, df), { relative: 1e-9 });
    }
  });

  it("knows its ends", () => {
    expect(tCdf(Number.NEGATIVE_INFINITY, 3)).toBe(0);
    expect(tCdf(Number.POSITIVE_INFINITY, 3)).toBe(1);
    expect(tCdf(0, 3)).toBe(0.5);
    expect(tQuantile(0, 3)).toBe(Number.NEGATIVE_INFINITY);
    expect(tQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(tQuantile(0.5, 3)).toBe(0);
  });

  it("refuses what is no number, df that is not above 0, p outside 0 to 1", () => {
    expect(() => tCdf(Number.NaN, 3)).toThrow(InputError);
    expect(() => tCdf(1, 0)).toThrow(InputError);
    expect(() => tQuantile(-0.1, 3)).toThrow(InputError);
  });
});
