import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { coverage } from "../../../src/methods/proportion/coverage.ts";
import { INTERVAL_METHODS } from "../../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses } from "../enumeration.ts";

describe("true coverage and expected width", () => {
  it.each(INTERVAL_METHODS)("agree with adding up enumerated probabilities (%s)", (method) => {
    const proportions = [0.003, 0.1, 0.237, 0.5, 0.777, 0.99];
    const { points, lowest } = compute(coverage, { total: 37, proportions }, { method }).values;
    points.forEach(({ coverage: covered, expectedWidth }, at) => {
      const share = proportions[at] as number;
      let [sum, width] = [0, 0];
      binomialMasses(37, share).forEach((mass, count) => {
        const { lower, upper } = proportionInterval(count, 37, { method });
        if (lower <= share && share <= upper) sum += mass;
        width += mass * (upper - lower);
      });
      expectClose(covered, sum, { relative: 1e-11 }, `coverage at ${share}`);
      expectClose(expectedWidth, width, { relative: 1e-11 }, `width at ${share}`);
    });
    expect(lowest.coverage).toBe(Math.min(...points.map((point) => point.coverage as number)));
  });

  it.each(INTERVAL_METHODS)(
    "the lowest of all is below every point of a fine grid, and near it (%s)",
    (method) => {
      const proportions = Array.from({ length: 5000 }, (_, step) => (step + 0.5) / 5000);
      const { lowest, infimum } = compute(coverage, { total: 12, proportions }, { method }).values;
      expect(infimum.coverage).toBeLessThanOrEqual((lowest.coverage as number) + 1e-12);
      expect(infimum.coverage).toBeGreaterThan((lowest.coverage as number) - 0.01);
    },
  );
});
