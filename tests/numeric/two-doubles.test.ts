import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bivariateNormalCdf } from "../../src/numeric/bivariate-normal.ts";
import { leastPivot } from "../../src/numeric/correlation-matrix.ts";
import { normalOrthant } from "../../src/numeric/orthant.ts";
import { twoDoublesCdf } from "../../src/numeric/two-doubles.ts";

const matrixOf = (ofX: number, ofY: number, across: number) => [
  [1, ofX, across, across],
  [ofX, 1, across, across],
  [across, across, 1, ofY],
  [across, across, ofY, 1],
];

describe("four normal variables, two of a kind each", () => {
  it("all correlated by 1/2, at 0: one of five equally probable orders (by hand)", () => {
    // X_i = (Z_i - Z_0) / sqrt 2 are so correlated; all below 0 where Z_0 is the largest of five.
    expect(twoDoublesCdf(0, 0, 0.5, 0.5, 0.5)).toBeCloseTo(1 / 5, 13);
  });

  it("two kinds that say nothing of each other: a product", () => {
    const product = bivariateNormalCdf(-1, -1, 0.7) * bivariateNormalCdf(0.5, 0.5, 0.2);
    expect(twoDoublesCdf(-1, 0.5, 0.7, 0.2, 0)).toBe(product);
  });

  it("agrees with the general routine, which is held against mpmath and SciPy", () => {
    const threshold = fc.double({ min: -4, max: 3, noNaN: true });
    const within = fc.double({ min: -0.6, max: 0.95, noNaN: true });
    const across = fc.double({ min: -0.9, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(threshold, threshold, within, within, across, (x, y, ofX, ofY, tie) => {
        const correlations = matrixOf(ofX, ofY, tie);
        fc.pre(leastPivot(correlations) > 0.02);
        const general = normalOrthant([x, x, y, y], correlations);
        expect(Math.abs(twoDoublesCdf(x, y, ofX, ofY, tie) - general)).toBeLessThan(1e-11);
      }),
      { numRuns: 200, seed: 7 },
    );
  });
});
