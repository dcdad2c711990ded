import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { fourfold } from "../../../src/methods/accuracy/fourfold.ts";
import { invalidTreatments } from "../../../src/methods/accuracy/invalid-treatments.ts";
import { faultsOf } from "../plain-values.ts";

const cell = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 300 }));
const COUNTS = fc.record({
  truePositives: cell,
  falsePositives: cell,
  falseNegatives: cell,
  trueNegatives: cell,
  invalidPositives: cell,
  invalidNegatives: cell,
});

describe("invalid results", () => {
  it("give finite numbers, and a note for whatever can't be had", () => {
    fc.assert(
      fc.property(COUNTS, (counts) => {
        expect(faultsOf(compute(invalidTreatments, counts))).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  it("give the same as a fourfold table filled in by hand, under each treatment", () => {
    fc.assert(
      fc.property(COUNTS, (counts) => {
        const { invalidPositives: sick, invalidNegatives: well, ...four } = counts;
        const { treatments } = compute(invalidTreatments, counts).values;
        const byHand = {
          set_aside: four,
          failure: {
            ...four,
            falseNegatives: four.falseNegatives + sick,
            falsePositives: four.falsePositives + well,
          },
          reactive: {
            ...four,
            truePositives: four.truePositives + sick,
            falsePositives: four.falsePositives + well,
          },
          nonreactive: {
            ...four,
            falseNegatives: four.falseNegatives + sick,
            trueNegatives: four.trueNegatives + well,
          },
        };
        for (const { treatment, sensitivity, specificity } of treatments) {
          const expected = compute(fourfold, byHand[treatment]).values;
          expect(sensitivity).toEqual(expected.sensitivity);
          expect(specificity).toEqual(expected.specificity);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("count everybody once: yield and invalid rate make the whole", () => {
    fc.assert(
      fc.property(COUNTS, (counts) => {
        const { values } = compute(invalidTreatments, counts);
        const everybody = Object.values(counts).reduce((sum, count) => sum + count, 0);
        expect(values.yield.count + values.invalidRate.count).toBe(everybody);
        expect(values.invalidRatePositives.count + values.invalidRateNegatives.count).toBe(
          values.invalidRate.count,
        );
      }),
    );
  });
});
