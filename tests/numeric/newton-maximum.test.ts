import { describe, expect, it } from "vitest";
import { gradientByDifferences, hessianOfGradient } from "../../src/numeric/differences.ts";
import { type Local, newtonMaximum } from "../../src/numeric/newton-maximum.ts";
import { profileLimit } from "../../src/numeric/profile-limit.ts";
import { expectClose } from "../tolerance.ts";

/** A function with its derivatives by differences. */
function locally(f: (at: Float64Array) => number): (at: Float64Array) => Local {
  const gradient = (at: Float64Array) => gradientByDifferences(f, at);
  return (at) => ({ value: f(at), gradient: gradient(at), hessian: hessianOfGradient(gradient, at) });
}

/** Rosenbrock's valley, turned over: the only top is at (1, 1), by hand. */
const valley = ([x = 0, y = 0]: Float64Array) => -((1 - x) ** 2) - 100 * (y - x * x) ** 2;

describe("a maximum by Newton's steps", () => {
  it("finds the end of a bent ridge", () => {
    const found = newtonMaximum(locally(valley), [-1.2, 1]);
    expect(found.converged).toBe(true);
    for (const part of found.at) expectClose(part, 1, { absolute: 1e-7 }, "place");
  });

  it("leaves a place where the second derivatives bend upwards", () => {
    const twoHills = ([x = 0]: Float64Array) => 2 * x * x - x ** 4;
    const found = newtonMaximum(locally(twoHills), [0.1]);
    expectClose(found.at[0] ?? null, 1, { absolute: 1e-8 }, "the hill at 1, by hand");
  });

  it("holds places, and stays at a border of 0 that it would leave", () => {
    const hill = ([x = 0, y = 0]: Float64Array) => -((x + 1) ** 2) - (y - x - 2) ** 2;
    const held = newtonMaximum(locally(hill), [3, 0], { held: [0] });
    expect(held.at[0]).toBe(3);
    expectClose(held.at[1] ?? null, 5, { absolute: 1e-8 }, "the rest follows, by hand");
    const bordered = newtonMaximum(locally(hill), [3, 0], { nonNegative: [0] });
    expect(bordered.at[0]).toBe(0);
    expectClose(bordered.at[1] ?? null, 2, { absolute: 1e-8 }, "beside the border, by hand");
  });

  it("says where it found no end", () => {
    const slope = ([x = 0]: Float64Array) => x;
    const found = newtonMaximum(locally(slope), [0], { mostSteps: 20 });
    expect(found.converged).toBe(false);
    expect(found.iterations).toBe(20);
  });
});

describe("derivatives by differences", () => {
  it("are those of calculus", () => {
    const f = ([x = 0, y = 0]: Float64Array) => Math.exp(x) * Math.sin(y);
    const at = Float64Array.from([0.3, 0.7]);
    const [wave, shifted] = [Math.exp(0.3) * Math.sin(0.7), Math.exp(0.3) * Math.cos(0.7)];
    const gradient = gradientByDifferences(f, at);
    [wave, shifted].forEach((part, k) => {
      expectClose(gradient[k] ?? null, part, { relative: 1e-11 }, "first");
    });
    const hessian = hessianOfGradient((there) => gradientByDifferences(f, there), at);
    [wave, shifted, shifted, -wave].forEach((part, k) => {
      expectClose(hessian[k] ?? null, part, { relative: 1e-8 }, "second");
    });
  });
});

describe("a profile limit", () => {
  it("is where the loss is as large as said", () => {
    const loss = (value: number) => (value - 2) ** 2 / 2;
    const { limit, reached } = profileLimit(loss, 4.5, 2, 3, 100);
    expect(reached).toBe(true);
    expectClose(limit, 5, { absolute: 1e-6 }, "2 + 3, by hand");
    expectClose(profileLimit(loss, 4.5, 2, 1.9, -100).limit, -1, { absolute: 1e-6 }, "2 - 3, by hand");
  });

  it("is the end where the loss is never reached", () => {
    expect(profileLimit((value) => Math.min(1, value), 2, 0, 0.5, 10)).toEqual({ limit: 10, reached: false });
  });
});
