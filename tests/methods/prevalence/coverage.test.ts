import { describe, expect, it } from "vitest";
import { langReiczigel, type Survey } from "../../../src/methods/prevalence/corrected.ts";
import { asKnown } from "../../../src/methods/prevalence/intervals.ts";
import { binomialMasses } from "../enumeration.ts";

/** Results so improbable that all of them together weigh less than 1e-6. */
const NEGLIGIBLE = 1e-10;

function likely(total: number, share: number): { count: number; mass: number }[] {
  return binomialMasses(total, share)
    .map((mass, count) => ({ count, mass }))
    .filter(({ mass }) => mass > NEGLIGIBLE);
}

interface Truth {
  readonly prevalence: number;
  readonly sensitivity: number;
  readonly specificity: number;
  readonly people: number;
  readonly positives: number;
  readonly negatives: number;
}

/** The exact coverage of two intervals: every survey with every study of the test, by its probability. */
function coverage(truth: Truth): { adjusted: number; takenAsKnown: number; total: number } {
  const { prevalence, sensitivity, specificity, people, positives, negatives } = truth;
  const apparent = prevalence * sensitivity + (1 - prevalence) * (1 - specificity);
  const covered = { adjusted: 0, takenAsKnown: 0, total: 0 };
  const surveys = likely(people, apparent);
  for (const found of likely(positives, sensitivity)) {
    for (const cleared of likely(negatives, specificity)) {
      for (const { count, mass } of surveys) {
        const weight = mass * found.mass * cleared.mass;
        const survey: Survey = {
          count,
          total: people,
          sensitivity: { value: found.count / positives, people: positives },
          specificity: { value: cleared.count / negatives, people: negatives },
        };
        covered.total += weight;
        const inside = langReiczigel(survey, 0.95)?.interval;
        if (inside && (inside.lower ?? 2) <= prevalence && prevalence <= (inside.upper ?? -1)) {
          covered.adjusted += weight;
        }
        if (coveredAsKnown(survey, prevalence)) covered.takenAsKnown += weight;
      }
    }
  }
  return covered;
}

/** The normal interval of the known case is near enough to show what is lost. */
function coveredAsKnown(survey: Survey, prevalence: number): boolean {
  const { sensitivity, specificity, count, total } = survey;
  const youden = sensitivity.value + specificity.value - 1;
  const apparent = count / total;
  const value = (apparent + specificity.value - 1) / youden;
  const reach = (1.96 * Math.sqrt((apparent * (1 - apparent)) / total)) / youden;
  return youden > 0 && Math.abs(value - prevalence) <= reach;
}

describe("coverage by listing every result", () => {
  it.each<[string, Truth]>([
    [
      "prevalence 5 %",
      { prevalence: 0.05, sensitivity: 0.9, specificity: 0.95, people: 120, positives: 30, negatives: 40 },
    ],
    [
      "prevalence 20 %",
      { prevalence: 0.2, sensitivity: 0.9, specificity: 0.95, people: 120, positives: 30, negatives: 40 },
    ],
    [
      "prevalence 50 %",
      { prevalence: 0.5, sensitivity: 0.8, specificity: 0.9, people: 80, positives: 30, negatives: 30 },
    ],
    [
      "prevalence 1 %",
      { prevalence: 0.01, sensitivity: 0.98, specificity: 0.99, people: 150, positives: 40, negatives: 60 },
    ],
  ])("Lang and Reiczigel, %s", (_, truth) => {
    const { adjusted, takenAsKnown, total } = coverage(truth);
    expect(total).toBeGreaterThan(1 - 1e-6);
    // Measured .975 .962 .954 .998, and .783 .874 .866 .806 with the accuracies taken as known.
    expect(adjusted).toBeGreaterThan(0.95);
    expect(takenAsKnown).toBeLessThan(0.9);
  });

  it("never below the level for the exact interval of known accuracies", () => {
    const [sensitivity, specificity] = [
      { value: 0.9, people: null },
      { value: 0.95, people: null },
    ];
    for (const prevalence of [0, 0.01, 0.1, 0.37, 0.9, 1]) {
      const apparent = prevalence * 0.9 + (1 - prevalence) * 0.05;
      const covered = { exact: 0, blaker: 0 };
      for (const [count, mass] of binomialMasses(60, apparent).entries()) {
        const known = asKnown({ count, total: 60, sensitivity, specificity }, 0, 0.95);
        for (const name of ["exact", "blaker"] as const) {
          const { lower, upper } = known[name];
          if ((lower ?? 2) <= prevalence + 1e-12 && prevalence - 1e-12 <= (upper ?? -1))
            covered[name] += mass;
        }
      }
      expect(covered.exact).toBeGreaterThanOrEqual(0.95 - 1e-12);
      expect(covered.blaker).toBeGreaterThanOrEqual(0.95 - 1e-12);
    }
  });
});
