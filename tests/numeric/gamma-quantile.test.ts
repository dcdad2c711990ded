import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { gammaQuantile } from "../../src/numeric/gamma-quantile.ts";
import { incompleteGamma } from "../../src/numeric/incomplete-gamma.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS, smallProbability, spread, tail } from "./arbitraries.ts";

const shape = spread(-3, 7);

describe("the gamma quantile", () => {
  it("the tail at the quantile is the probability again, as closely as the quantile's own rounding lets it", () => {
    fc.assert(
      fc.property(smallProbability, shape, tail, (p, a, side) => {
        const x = gammaQuantile(p, a, side);
        if (x < 1e-270) return;
        const here = incompleteGamma(a, x, side);
        const steepness = Math.abs(incompleteGamma(a, x * (1 + 1e-7), side) / here - 1) / 1e-7;
        expectClose(here, p, { relative: 2e-15 * (steepness + 10 - Math.log(p)) });
      }),
      { ...RUNS, numRuns: 3000 },
    );
  });

  it("is the exponential quantile for shape 1", () => {
    fc.assert(
      fc.property(smallProbability, (p) => {
        expectClose(gammaQuantile(p, 1, "upper"), -Math.log(p), { relative: 1e-15 });
        expectClose(gammaQuantile(p, 1, "lower"), -Math.log1p(-p), { relative: 1e-15 });
      }),
      RUNS,
    );
  });

  it("grows with the probability and with the shape", () => {
    fc.assert(
      fc.property(smallProbability, spread(-2, 6), (p, a) => {
        const x = gammaQuantile(p, a);
        expect(gammaQuantile(p / 2, a)).toBeLessThanOrEqual(x);
        expect(gammaQuantile(p, a * 1.1)).toBeGreaterThanOrEqual(x);
      }),
      RUNS,
    );
  });

  it("agrees with jstat in the bulk", () => {
    for (const a of [0.5, 1, 3, 20, 200]) {
      for (const p of [0.025, 0.3, 0.5, 0.975]) {
        expectClose(
          gammaQuantile(p, a),
          jstat.jStat.gamma.inv(p, a, 1),
          { relative: 1e-7 },
          `p ${p}, a ${a}`,
        );
      }
    }
  });

  it("knows its ends", () => {
    expect(gammaQuantile(0, 3)).toBe(0);
    expect(gammaQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(gammaQuantile(0, 3, "upper")).toBe(Number.POSITIVE_INFINITY);
    expect(gammaQuantile(1, 3, "upper")).toBe(0);
  });

  it.each([
    [-0.1, 1],
    [1.1, 1],
    [0.5, 0],
    [Number.NaN, 1],
    [0.5, Number.NaN],
  ])("refuses p = %d, a = %d", (p, a) => {
    expect(() => gammaQuantile(p, a)).toThrow(InputError);
  });
});
