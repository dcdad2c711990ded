import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/input-error.ts";
import { findRoot } from "../../src/numeric/root.ts";
import { expectClose } from "../tolerance.ts";
import { RUNS } from "./arbitraries.ts";

describe("findRoot", () => {
  it("agrees with scipy.optimize.brentq (SciPy 1.10.1, xtol 1e-15)", () => {
    const cosine = findRoot((x) => Math.cos(x) - x, 0, 1);
    expectClose(cosine.root, 0.7390851332151607, { relative: 1e-15 });
    expect(cosine.converged).toBe(true);
    expect(cosine.iterations).toBeLessThan(12);
    expectClose(findRoot((x) => x ** 3 - 2 * x - 5, 2, 3).root, 2.0945514815423265, { relative: 1e-15 });
    expectClose(findRoot((x) => Math.exp(x) - 1e5, 0, 100).root, Math.log(1e5), { relative: 1e-15 });
  });

  it("finds the root of any line and any cubic with one real root", () => {
    const place = fc.double({ min: -100, max: 100, noNaN: true }).filter((at) => Math.abs(at) > 1e-9);
    const slope = fc.double({ min: 0.01, max: 100, noNaN: true });
    fc.assert(
      fc.property(place, slope, (at, steep) => {
        const line = findRoot((x) => steep * (x - at), -150, 170);
        expectClose(line.root, at, { relative: 1e-14, absolute: 1e-14 });
        const cubic = findRoot((x) => (x - at) * (steep + (x - at) ** 2), -150, 170);
        expectClose(cubic.root, at, { relative: 1e-14, absolute: 1e-13 });
        expect(line.converged && cubic.converged).toBe(true);
      }),
      RUNS,
    );
  });

  it("stops at the tolerance asked for", () => {
    const rough = findRoot((x) => Math.cos(x) - x, 0, 1, { absolute: 1e-3 });
    expectClose(rough.root, 0.7390851332151607, { absolute: 1e-3 });
    expect(rough.iterations).toBeLessThan(findRoot((x) => Math.cos(x) - x, 0, 1).iterations);
  });

  it("takes a root at an end, and finds the place of a jump", () => {
    expect(findRoot((x) => x, 0, 1)).toEqual({ root: 0, iterations: 0, converged: true });
    expect(findRoot((x) => x - 1, 0, 1)).toEqual({ root: 1, iterations: 0, converged: true });
    expectClose(findRoot((x) => (x < 0.3 ? -1 : 1), 0, 1).root, 0.3, { relative: 1e-15 });
  });

  it("says when it stopped early", () => {
    const short = findRoot((x) => Math.cos(x) - x, 0, 1, { maxIterations: 2 });
    expect(short.converged).toBe(false);
    expect(short.iterations).toBe(2);
  });

  it("refuses an interval without a change of sign, and a function without a value", () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow(InputError);
    expect(() => findRoot(() => Number.NaN, -1, 1)).toThrow(InputError);
    expect(() => findRoot((x) => Math.sqrt(x), -1, 1)).toThrow(InputError);
  });
});
