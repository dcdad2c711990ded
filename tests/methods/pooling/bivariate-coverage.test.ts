import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { bivariate } from "../../../src/methods/pooling/bivariate.ts";
import { drawnStudies, USUAL } from "./drawn-studies.ts";

const TRIALS = 200;

/**
 * Data sets of 20 studies drawn from the model itself, seed stated. By Wilks' theorem profile limits cover with
 * their level as studies grow; with 200 trials and a true coverage of 0.93 or more, fewer than 0.88 are seen once
 * in hundreds of runs (binomial distribution).
 */
describe(`${TRIALS} times 20 studies drawn from the model`, () => {
  const found = Array.from({ length: TRIALS }, (_, task) => {
    const studies = drawnStudies(20, USUAL, 2026, task);
    return compute(
      bivariate,
      { studies, covariate: null, likelihood: { kind: "binomial" } },
      { spread: "none", points: 9 },
    ).values;
  });

  it("converge, all of them", () => {
    expect(found.filter(({ fit }) => !fit.converged)).toEqual([]);
  });

  it.each(["sensitivity", "specificity"] as const)(
    "hold the true %s within limits at their level",
    (measure) => {
      const truth = USUAL[measure];
      const within = found.filter(({ summary }) => {
        const { lower, upper } = summary[measure].logit;
        return (lower ?? 9) <= truth && truth <= (upper ?? -9);
      });
      expect(within.length / TRIALS).toBeGreaterThan(0.88);
      expect(within.length / TRIALS).toBeLessThan(0.985);
    },
  );

  it("are right on average, the spread a little small as maximum likelihood makes it", () => {
    const mean = (numbers: (number | null)[]) =>
      numbers.reduce<number>((sum, value) => sum + (value ?? Number.NaN), 0) / numbers.length;
    const middles = found.map(({ summary }) => summary);
    expect(Math.abs(mean(middles.map((one) => one.sensitivity.logit.value)) - 2)).toBeLessThan(0.04);
    expect(Math.abs(mean(middles.map((one) => one.specificity.logit.value)) - 3)).toBeLessThan(0.05);
    const spread = found.map(({ betweenStudies }) => betweenStudies);
    const first = mean(spread.map(({ sensitivity }) => sensitivity.value));
    expect(first).toBeGreaterThan(0.42);
    expect(first).toBeLessThan(0.52);
    const together = mean(spread.map(({ correlation }) => correlation.value));
    expect(Math.abs(together - -0.5)).toBeLessThan(0.08);
  });
});
