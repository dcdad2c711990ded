import { describe, expect, it } from "vitest";
import { gammaTurn } from "../../src/numeric/complex-gamma.ts";
import { expectClose } from "../tolerance.ts";

/** Shape, imaginary part, steps; real and imaginary part of loggamma(z + it) - loggamma(z), 40 digits (mpmath 1.2.1). */
const BY_MPMATH: readonly (readonly [number, number, number, number, number])[] = [
  [0.01, 3.5, 0, -9.7921157644679, 0.09251874034432227],
  [0.5, 40, 3, -52.04451970841328, 112.1562082538868],
  [21.96, 7.25, 125, -0.179369284249003, 36.15692734461172],
  [1e9, 12, 5, -7.1999999676e-8, 248.6791900973569],
  [1e9, 1e5, 0, -4.999999994166667, 2072326.583811308],
  [3, 300, 200, -175.5099022096749, 1665.30209072765],
];

describe("gamma functions off the real line", () => {
  it.each(BY_MPMATH)("shape %d, %d i, %d steps: as 40 digits say", (shape, imaginary, steps, size, angle) => {
    const { logSize, angle: turn } = gammaTurn(shape, imaginary, steps);
    expectClose(logSize[steps], size, { relative: 2e-13, absolute: 1e-14 }, "size");
    // Angles are needed to a share of a turn.
    expectClose(turn[steps], angle, { relative: 4e-16, absolute: 1e-12 }, "angle");
  });

  it("has the closed sizes of DLMF 5.4 at 1 and at a half", () => {
    for (const t of [0.1, 1, 3.3, 20]) {
      const one = gammaTurn(1, t, 0).logSize[0] as number;
      expectClose(2 * one, Math.log((Math.PI * t) / Math.sinh(Math.PI * t)), { relative: 1e-13 });
      const half = gammaTurn(0.5, t, 0).logSize[0] as number;
      expectClose(2 * half, -Math.log(Math.cosh(Math.PI * t)), { relative: 1e-13 });
    }
  });

  it("turns the other way for the conjugate, and not at all on the real line", () => {
    const [there, back] = [gammaTurn(2.5, 4, 9), gammaTurn(2.5, -4, 9)];
    there.angle.forEach((angle, k) => {
      expectClose(back.angle[k], -angle, { absolute: 1e-13 });
      expectClose(back.logSize[k], there.logSize[k] as number, { absolute: 1e-13 });
    });
    const still = gammaTurn(2.5, 0, 9);
    expect([...still.logSize, ...still.angle].every((part) => Math.abs(part) < 1e-15)).toBe(true);
  });
});
