import { describe, expect, it } from "vitest";
import { gaussLegendre } from "../../src/numeric/gauss-legendre.ts";
import { expectClose } from "../tolerance.ts";

describe("gaussLegendre", () => {
  it("has the places and weights of the closed forms for 1, 2 and 3", () => {
    // DLMF 3.5.v: the roots of P2 = (3 x² - 1) / 2 and P3 = (5 x³ - 3 x) / 2.
    expectClose(gaussLegendre(1).nodes[0], 0, { absolute: 1e-16 });
    expectClose(gaussLegendre(1).weights[0], 2, { relative: 1e-15 });
    expectClose(gaussLegendre(2).nodes[1], 1 / Math.sqrt(3), { relative: 1e-15 });
    const three = gaussLegendre(3);
    expectClose(three.nodes[0], -Math.sqrt(0.6), { relative: 1e-15 });
    expectClose(three.weights[0], 5 / 9, { relative: 1e-14 });
    expectClose(three.weights[1], 8 / 9, { relative: 1e-14 });
  });

  it.each([1, 2, 5, 24, 64])(
    "integrates powers exactly up to degree 2 × %i - 1, and not the next one",
    (size) => {
      const { nodes, weights } = gaussLegendre(size);
      const sum = (degree: number) =>
        nodes.reduce((total, node, at) => total + (weights[at] as number) * node ** degree, 0);
      for (let degree = 0; degree < 2 * size; degree += 1) {
        expectClose(sum(degree), degree % 2 === 0 ? 2 / (degree + 1) : 0, {
          relative: 1e-13,
          absolute: 1e-15,
        });
      }
      if (size <= 5) expect(Math.abs(sum(2 * size) - 2 / (2 * size + 1))).toBeGreaterThan(1e-4);
    },
  );

  it("refuses what is no number of places", () => {
    for (const size of [0, 2.5, Number.NaN]) expect(() => gaussLegendre(size)).toThrow(/size/);
  });
});
