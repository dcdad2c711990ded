import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { type FourfoldInput, fourfold } from "../../../src/methods/accuracy/fourfold.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const cell = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 5000 }));
const TABLES: fc.Arbitrary<FourfoldInput> = fc.record({
  truePositives: cell,
  falsePositives: cell,
  falseNegatives: cell,
  trueNegatives: cell,
});
const OPTIONS = fc.record({
  method: fc.constantFrom("clopper_pearson", "wilson", "jeffreys"),
  ratioInterval: fc.constantFrom("log", "score"),
  differenceInterval: fc.constantFrom("newcombe", "wald"),
  zeroCells: fc.constantFrom("none", "add_half"),
});
const NEAR = { relative: 1e-9 };

describe("a fourfold table", () => {
  it("gives finite numbers, and a note for whatever it can't give, for every table", () => {
    fc.assert(
      fc.property(TABLES, OPTIONS, (table, options) => {
        expect(faultsOf(compute(fourfold, table, options))).toEqual([]);
      }),
      { numRuns: 1000 },
    );
  });

  it("has ordered limits around each estimate", () => {
    fc.assert(
      fc.property(TABLES, OPTIONS, (table, options) => {
        const { values } = compute(fourfold, table, options);
        const { positiveLikelihoodRatio, negativeLikelihoodRatio, diagnosticOddsRatio, youden } = values;
        for (const estimate of [
          positiveLikelihoodRatio,
          negativeLikelihoodRatio,
          diagnosticOddsRatio,
          youden,
          values.sensitivity,
        ]) {
          if (estimate.value === null || estimate.lower === null || estimate.upper === null) continue;
          const slack = 1e-9 * Math.abs(estimate.value);
          expect(estimate.lower).toBeLessThanOrEqual(estimate.value + slack);
          expect(estimate.upper).toBeGreaterThanOrEqual(estimate.value - slack);
        }
      }),
      { numRuns: 500 },
    );
  });

  it("changes sensitivity with apparent PPV when test and reference change places", () => {
    fc.assert(
      fc.property(TABLES, (table) => {
        const here = compute(fourfold, table).values;
        const there = compute(fourfold, {
          ...table,
          falsePositives: table.falseNegatives,
          falseNegatives: table.falsePositives,
        }).values;
        expect(there.sensitivity).toEqual(here.apparentPpv);
        expect(there.specificity).toEqual(here.apparentNpv);
        expect(there.referencePrevalence).toEqual(here.apparentPrevalence);
        expect(there.overallAccuracy).toEqual(here.overallAccuracy);
      }),
    );
  });

  it("changes sensitivity with specificity when the two states change their names", () => {
    fc.assert(
      fc.property(TABLES, OPTIONS, (table, options) => {
        const here = compute(fourfold, table, options).values;
        const there = compute(
          fourfold,
          {
            truePositives: table.trueNegatives,
            falsePositives: table.falseNegatives,
            falseNegatives: table.falsePositives,
            trueNegatives: table.truePositives,
          },
          options,
        ).values;
        expect(there.sensitivity).toEqual(here.specificity);
        // The ratio of the positives becomes one over that of the negatives.
        const { value, lower, upper } = here.negativeLikelihoodRatio;
        if (value === null || value === 0 || !lower || upper === null) return;
        expectClose(there.positiveLikelihoodRatio.value, 1 / value, NEAR, "ratio");
        expectClose(there.positiveLikelihoodRatio.lower, 1 / upper, { relative: 1e-7 }, "lower");
        expectClose(there.positiveLikelihoodRatio.upper, 1 / lower, { relative: 1e-7 }, "upper");
      }),
      { numRuns: 300 },
    );
  });

  it("has an odds ratio that is the quotient of the likelihood ratios", () => {
    fc.assert(
      fc.property(TABLES, (table) => {
        const { positiveLikelihoodRatio, negativeLikelihoodRatio, diagnosticOddsRatio } = compute(
          fourfold,
          table,
        ).values;
        const [positive, negative] = [positiveLikelihoodRatio.value, negativeLikelihoodRatio.value];
        if (positive === null || !negative || Object.values(table).includes(0)) return;
        expectClose(diagnosticOddsRatio.value, positive / negative, NEAR, "odds ratio");
      }),
    );
  });

  it("narrows when every count is doubled", () => {
    fc.assert(
      fc.property(TABLES, (table) => {
        if (Object.values(table).includes(0)) return;
        const twice = Object.fromEntries(Object.entries(table).map(([name, count]) => [name, 2 * count]));
        const here = compute(fourfold, table).values;
        const there = compute(fourfold, twice as FourfoldInput).values;
        for (const name of ["sensitivity", "specificity", "youden", "positiveLikelihoodRatio"] as const) {
          const width = (values: typeof here) => (values[name].upper ?? 0) - (values[name].lower ?? 0);
          expect(width(there)).toBeLessThan(width(here));
        }
      }),
    );
  });
});
