import { describe, expect, it } from "vitest";
import { leastPivot } from "../../src/numeric/correlation-matrix.ts";
import { expectClose } from "../tolerance.ts";

const three = (a: number, b: number, c: number) => [
  [1, a, b],
  [a, 1, c],
  [b, c, 1],
];

describe("leastPivot", () => {
  it("is the share of the last variable's variance that the others leave: det / det", () => {
    const [a, b, c] = [0.3, 0.5, -0.2];
    const whole = 1 + 2 * a * b * c - a * a - b * b - c * c;
    expectClose(leastPivot(three(a, b, c)), whole / (1 - a * a), { relative: 1e-14 });
  });

  it("is 0 where one is determined, and below 0 where none can be", () => {
    expectClose(leastPivot(three(0.5, 0.5, -0.5)), 0, { absolute: 1e-15 });
    expectClose(leastPivot(three(1, 0.4, 0.4)), 0, { absolute: 1e-15 });
    expect(leastPivot(three(0.9, 0.9, -0.9))).toBeLessThan(0);
    expect(leastPivot(three(1, 0.4, 0.3))).toBeLessThan(0);
  });
});
