import { describe, expect, it } from "vitest";
import { gaussHermite } from "../../src/numeric/gauss-hermite.ts";
import { expectClose } from "../tolerance.ts";

describe("gaussHermite", () => {
  it("has the places and weights of the closed forms for 1, 2 and 3", () => {
    // The roots of He2 = x² - 1 and He3 = x³ - 3 x; DLMF 18.3 and 3.5.v.
    expect(gaussHermite(1)).toEqual({ nodes: [0], weights: [1] });
    expectClose(gaussHermite(2).nodes[1], 1, { relative: 1e-15 });
    expectClose(gaussHermite(2).weights[0], 0.5, { relative: 1e-15 });
    expectClose(gaussHermite(3).nodes[2], Math.sqrt(3), { relative: 1e-15 });
    expectClose(gaussHermite(3).weights[2], 1 / 6, { relative: 1e-14 });
    expectClose(gaussHermite(3).weights[1], 2 / 3, { relative: 1e-14 });
  });

  it.each([1, 2, 5, 16, 33, 64, 256])(
    "has the moments of the normal distribution exactly up to degree 2 × %i - 1",
    (size) => {
      const { nodes, weights } = gaussHermite(size);
      expect(nodes).toHaveLength(size);
      let moment = 1;
      for (let degree = 0; degree < Math.min(2 * size, 40); degree += 2) {
        if (degree > 0) moment *= degree - 1;
        const sum = nodes.reduce((total, node, at) => total + (weights[at] as number) * node ** degree, 0);
        expectClose(sum, moment, { relative: 1e-12 }, `degree ${degree}`);
      }
    },
  );

  it("is symmetric and ascending, and refuses what is no number of places", () => {
    const { nodes } = gaussHermite(41);
    for (const [at, node] of nodes.entries()) {
      expect(node).toBe(-(nodes[nodes.length - 1 - at] as number) || 0);
      if (at > 0) expect(node).toBeGreaterThan(nodes[at - 1] as number);
    }
    for (const size of [0, 2.5, 257, Number.NaN]) expect(() => gaussHermite(size)).toThrow(/size/);
  });
});
