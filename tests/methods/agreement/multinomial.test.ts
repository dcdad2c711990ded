import { describe, expect, it } from "vitest";
import { randomStream } from "../../../src/core/random.ts";
import { drawAgain } from "../../../src/methods/agreement/multinomial.ts";

const SIZES = [3, 900, 0, 60, 37];
const TOTAL = 1000;
const DRAWS = 20_000;

describe("drawing again with replacement", () => {
  const drawn = new Uint32Array(SIZES.length);
  const seen = Array.from({ length: DRAWS }, (_, draw) => {
    drawAgain(SIZES, [1, 3, 4, 0, 2], randomStream(5, draw), drawn);
    return [...drawn];
  });
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

  it("gives as many items as there are, and none of an empty kind", () => {
    expect(seen.every((counts) => counts.reduce((sum, count) => sum + count, 0) === TOTAL)).toBe(true);
    expect(seen.every((counts) => counts[2] === 0)).toBe(true);
  });

  it("has the mean, variance and covariance of the multinomial distribution (textbook moments)", () => {
    SIZES.forEach((size, kind) => {
      const share = size / TOTAL;
      const counts = seen.map((entry) => entry[kind] as number);
      const variance = TOTAL * share * (1 - share);
      const centre = mean(counts);
      expect(Math.abs(centre - size)).toBeLessThanOrEqual(4.5 * Math.sqrt(variance / DRAWS));
      const spread = mean(counts.map((count) => (count - centre) ** 2));
      expect(Math.abs(spread - variance)).toBeLessThanOrEqual(0.06 * variance);
    });
    const together = mean(seen.map((entry) => ((entry[1] as number) - 900) * ((entry[3] as number) - 60)));
    expect(Math.abs(together + TOTAL * 0.9 * 0.06)).toBeLessThan(0.06 * TOTAL * 0.9 * 0.06 + 3);
  });

  it("finds a rare kind as often as the binomial says: none of 3 in 1,000 with probability .997^1000", () => {
    const none = seen.filter((entry) => entry[0] === 0).length / DRAWS;
    const expected = 0.997 ** 1000;
    expect(Math.abs(none - expected)).toBeLessThan(4.5 * Math.sqrt((expected * (1 - expected)) / DRAWS));
  });
});
