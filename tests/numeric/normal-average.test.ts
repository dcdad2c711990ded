import { describe, expect, it } from "vitest";
import { bivariateNormalCdf } from "../../src/numeric/bivariate-normal.ts";
import { normalCdf } from "../../src/numeric/normal.ts";
import { normalAverage } from "../../src/numeric/normal-average.ts";
import { expectClose } from "../tolerance.ts";

function mean(steepness: number, of: (u: number) => number): number {
  const { nodes, weights } = normalAverage(steepness);
  return nodes.reduce((sum, node, at) => sum + (weights[at] as number) * of(node), 0);
}

describe("normalAverage", () => {
  it.each([0, 0.05, 0.3, 0.5, 0.71, 0.9, 1.5, 3, 10, 100])(
    "averages cdf(a + s u), and the product of two, by their closed forms: s = %d",
    (slope) => {
      const size = Math.sqrt(1 + slope * slope);
      for (const z of [-3, -2, -0.5, 0, 1, 2.5]) {
        const one = mean(slope * slope, (u) => normalCdf(z * size + slope * u));
        expectClose(one, normalCdf(z), { absolute: 3e-14 }, `one, ${z}`);
        const two = mean(
          2 * slope * slope,
          (u) => normalCdf(z * size + slope * u) * normalCdf(-2 * size + slope * u),
        );
        expectClose(two, bivariateNormalCdf(z, -2, (slope / size) ** 2), { absolute: 3e-14 }, `two, ${z}`);
      }
    },
  );

  it("gives weights that add up to 1, and refuses a steepness below 0", () => {
    for (const steepness of [0, 1, 5, 400])
      expectClose(
        mean(steepness, () => 1),
        1,
        { absolute: 1e-14 },
      );
    expect(() => normalAverage(-1)).toThrow(/steepness/);
  });
});
