import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { incompleteGamma } from "../../src/numeric/incomplete-gamma.ts";
import { normalCdf } from "../../src/numeric/normal.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, spread } from "./arbitraries.ts";
import { expectAll, readOracle } from "./oracle-table.ts";

const shape = spread(-3, 5);

describe("the incomplete gamma function", () => {
  it("agrees with 60-digit arithmetic, shapes from 1e-8 to 1e9, tails down to 1e-290", () => {
    const checks = readOracle("oracle-tails-mp.csv")
      .filter((row) => row.word("fn") === "gamma")
      .map((row) => ({
        row: row.text,
        expected: row.number("value"),
        actual: incompleteGamma(
          row.number("a"),
          row.number("x"),
          row.word("tail") === "lower" ? "lower" : "upper",
        ),
      }));
    expectAll("oracle-tails-mp.csv, gamma", checks, 2e-13, 250);
    const everyday = checks.filter(({ expected }) => expected > 1e-10);
    expectAll("oracle-tails-mp.csv, gamma, above 1e-10", everyday, 1e-14, 200);
  });

  it("the tails add up to 1, and move the right way with x", () => {
    fc.assert(
      fc.property(shape, spread(-6, 6), spread(-6, 6), (a, one, other) => {
        expectClose(incompleteGamma(a, one) + incompleteGamma(a, one, "upper"), 1, { absolute: 4e-16 });
        const [low, high] = [Math.min(one, other), Math.max(one, other)];
        expect(incompleteGamma(a, low)).toBeLessThanOrEqual(incompleteGamma(a, high) * (1 + 1e-13));
      }),
      RUNS,
    );
  });

  it("is Poisson's sum for whole shapes: Q(n, x) = e^-x (1 + x + … + x^(n-1) / (n-1)!), DLMF 8.4.10", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), spread(-3, 2), (n, x) => {
        let term = Math.exp(-x);
        let sum = term;
        for (let k = 1; k < n; k++) {
          term *= x / k;
          sum += term;
        }
        expectClose(incompleteGamma(n, x, "upper"), sum, { relative: 1e-13 });
      }),
      RUNS,
    );
  });

  it("is the normal tail for shape 1/2: Q(1/2, z^2 / 2) = P(|Z| > z), DLMF 8.4.6", () => {
    for (const z of [1e-5, 0.1, 1, 1.7, 1.9, 3, 10, 30]) {
      const expected = 2 * normalCdf(z, "upper");
      expectClose(incompleteGamma(0.5, (z * z) / 2, "upper"), expected, { relative: 2e-14 }, `z = ${z}`);
    }
  });

  it("knows its ends", () => {
    expect(incompleteGamma(2, 0)).toBe(0);
    expect(incompleteGamma(2, 0, "upper")).toBe(1);
    expect(incompleteGamma(2, Number.POSITIVE_INFINITY)).toBe(1);
    expect(incompleteGamma(2, 1e300, "upper")).toBe(0);
  });

  it.each([
    [0, 1],
    [-1, 1],
    [1, -1],
    [Number.NaN, 1],
    [1, Number.NaN],
    [Number.POSITIVE_INFINITY, 1],
  ])("refuses a = %d, x = %d", (a, x) => {
    expect(() => incompleteGamma(a, x)).toThrow(InputError);
  });
});
