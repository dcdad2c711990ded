import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { fourfold } from "../../../src/methods/accuracy/fourfold.ts";
import { levelLikelihoodRatios } from "../../../src/methods/accuracy/level-likelihood-ratios.ts";
import { faultsOf } from "../plain-values.ts";

const people = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 400 }));
const LEVELS = fc.array(
  fc.record({ label: fc.constantFrom("absent", "faint", "clear"), positives: people, negatives: people }),
  { minLength: 2, maxLength: 6 },
);

describe("likelihood ratios by level", () => {
  it("are finite, or explained", () => {
    fc.assert(
      fc.property(LEVELS, fc.constantFrom("log" as const, "score" as const), (levels, ratioInterval) => {
        expect(faultsOf(compute(levelLikelihoodRatios, { levels }, { ratioInterval }))).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  it("average to 1 over the people without the condition", () => {
    fc.assert(
      fc.property(LEVELS, (levels) => {
        if (levels.some(({ negatives }) => negatives === 0)) return;
        if (levels.every(({ positives }) => positives === 0)) return;
        const total = levels.reduce((sum, { negatives }) => sum + negatives, 0);
        const found = compute(levelLikelihoodRatios, { levels }).values.levels;
        const mean = found.reduce(
          (sum, { likelihoodRatio }, at) =>
            sum + ((likelihoodRatio.value ?? Number.NaN) * (levels[at]?.negatives ?? 0)) / total,
          0,
        );
        expect(mean).toBeCloseTo(1, 10);
      }),
    );
  });

  it("are those of the fourfold table where there are two levels", () => {
    const levels = [
      { label: "reactive", positives: 96, negatives: 4 },
      { label: "non-reactive", positives: 8, negatives: 192 },
    ];
    const found = compute(levelLikelihoodRatios, { levels }).values.levels;
    const table = { truePositives: 96, falsePositives: 4, falseNegatives: 8, trueNegatives: 192 };
    const { positiveLikelihoodRatio, negativeLikelihoodRatio } = compute(fourfold, table).values;
    expect(found.map(({ likelihoodRatio }) => likelihoodRatio)).toEqual([
      positiveLikelihoodRatio,
      negativeLikelihoodRatio,
    ]);
  });
});
