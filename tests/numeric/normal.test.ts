import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { normalCdf, normalDensity, normalQuantile } from "../../src/numeric/normal.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, smallProbability, tail } from "./arbitraries.ts";
import { expectAll, readOracle, tailOf } from "./oracle-table.ts";

const z = fc.double({ min: -37, max: 37, noNaN: true });

describe("the normal distribution", () => {
  const rows = readOracle("oracle-normal.csv");

  it("agrees with R's pnorm, both tails, out to 37.5", () => {
    const checks = rows
      .filter((row) => row.word("fn") === "cdf")
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: normalCdf(row.number("arg"), tailOf(row)),
      }));
    expectAll("oracle-normal.csv, cdf", checks, 1e-15, 100);
  });

  it("agrees with R's qnorm, down to 1e-300", () => {
    const checks = rows
      .filter((row) => row.word("fn") === "quantile")
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: normalQuantile(row.number("arg"), tailOf(row)),
      }));
    expectAll("oracle-normal.csv, quantile", checks, 2e-15, 90);
  });

  it("the quantile undoes the cdf, in either tail", () => {
    fc.assert(
      fc.property(smallProbability, tail, (p, side) => {
        const quantile = normalQuantile(p, side);
        expectClose(normalCdf(quantile, side), p, { relative: 2e-15 * (1 + quantile * quantile) });
      }),
      RUNS,
    );
  });

  it("is symmetric, its tails add up, and it grows", () => {
    fc.assert(
      fc.property(z, z, (one, other) => {
        expect(normalCdf(one, "upper")).toBe(normalCdf(-one, "lower"));
        expectClose(normalCdf(one) + normalCdf(one, "upper"), 1, { absolute: 2e-16 });
        expect(normalCdf(Math.min(one, other))).toBeLessThanOrEqual(normalCdf(Math.max(one, other)));
        expect(normalDensity(one)).toBe(normalDensity(-one));
      }),
      RUNS,
    );
  });

  it("the density is the slope", () => {
    for (const at of [-8, -2, -0.3, 0, 1, 5]) {
      const slope = (normalCdf(at + 1e-5) - normalCdf(at - 1e-5)) / 2e-5;
      expectClose(normalDensity(at), slope, { relative: 1e-6, absolute: 1e-10 });
    }
    expectClose(normalDensity(0), 1 / Math.sqrt(2 * Math.PI), { relative: 1e-15 });
  });

  it("agrees with jstat in the bulk", () => {
    for (const p of [0.01, 0.2, 0.5, 0.7, 0.99]) {
      expectClose(normalQuantile(p), jstat.jStat.normal.inv(p, 0, 1), { relative: 1e-8, absolute: 1e-8 });
    }
  });

  it("knows its ends", () => {
    expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
    expect(normalCdf(50, "upper")).toBe(0);
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(0, "upper")).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(0.5)).toBe(0);
  });

  it("refuses what is no number, or no probability", () => {
    expect(() => normalCdf(Number.NaN)).toThrow(InputError);
    expect(() => normalDensity(Number.NaN)).toThrow(InputError);
    expect(() => normalQuantile(-0.1)).toThrow(InputError);
    expect(() => normalQuantile(Number.NaN)).toThrow(InputError);
  });
});
