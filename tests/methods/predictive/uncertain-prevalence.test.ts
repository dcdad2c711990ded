import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { atPrevalence } from "../../../src/methods/predictive/at-prevalence.ts";
import { betaFromInterval } from "../../../src/methods/predictive/beta-from-interval.ts";
import { uncertainPrevalence } from "../../../src/methods/predictive/uncertain-prevalence.ts";
import { incompleteBeta } from "../../../src/numeric/incomplete-beta.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const STUDY = { truePositives: 96, positives: 104, trueNegatives: 192, negatives: 196 };
const INPUT = { ...STUDY, prevalence: { count: 30, total: 1000 } };

describe("predictive values at an uncertain prevalence", () => {
  it("are the same for the same seed, and within the Monte Carlo error for another", () => {
    const first = compute(uncertainPrevalence, INPUT, { seed: 7 });
    expect(compute(uncertainPrevalence, INPUT, { seed: 7 })).toEqual(first);
    const other = compute(uncertainPrevalence, INPUT, { seed: 8 });
    expect(other.values.ppv.interval).not.toEqual(first.values.ppv.interval);
    const pairs = { value: "median", lower: "lower", upper: "upper" } as const;
    for (const [side, error] of Object.entries(pairs)) {
      const place = side as keyof typeof pairs;
      const distance = Math.abs(
        (first.values.ppv.interval[place] ?? 0) - (other.values.ppv.interval[place] ?? 0),
      );
      expect(distance).toBeLessThan(5 * (first.values.ppv.monteCarloError[error] ?? 0));
    }
  });

  it("have a Monte Carlo error that agrees with the spread over 60 seeds", () => {
    const runs = Array.from({ length: 60 }, (_, seed) =>
      compute(uncertainPrevalence, INPUT, { seed, draws: 2000 }),
    );
    for (const [side, error] of [
      ["value", "median"],
      ["lower", "lower"],
      ["upper", "upper"],
    ] as const) {
      const found = runs.map(({ values }) => values.ppv.interval[side] ?? 0);
      const mean = found.reduce((sum, next) => sum + next, 0) / found.length;
      const spread = Math.sqrt(found.reduce((sum, next) => sum + (next - mean) ** 2, 0) / (found.length - 1));
      const claimed =
        runs.reduce((sum, { values }) => sum + (values.ppv.monteCarloError[error] ?? 0), 0) / 60;
      expect(spread / claimed).toBeGreaterThan(0.7);
      expect(spread / claimed).toBeLessThan(1.4);
    }
  });

  it("come near the closed form where the prevalence is all but known", () => {
    const large = { truePositives: 960, positives: 1040, trueNegatives: 1920, negatives: 1960 };
    const stated = { mean: 0.1, lower: 0.09999, upper: 0.10001 };
    const drawn = compute(uncertainPrevalence, { ...large, prevalence: stated }).values;
    const closed = compute(atPrevalence, { ...large, prevalence: 0.1 }).values;
    expectClose(drawn.ppv.interval.lower, closed.ppv.lower as number, { absolute: 0.01 }, "lower");
    expectClose(drawn.ppv.interval.upper, closed.ppv.upper as number, { absolute: 0.01 }, "upper");
  });

  it("are explained where nothing is known, and never NaN", () => {
    const nothing = { truePositives: 0, positives: 0, trueNegatives: 0, negatives: 0 };
    const found = compute(uncertainPrevalence, { ...nothing, prevalence: { count: 0, total: 0 } });
    expect(faultsOf(found)).toEqual([]);
    expect(found.notes.filter(({ code }) => code === "prior_only")).toHaveLength(6);
  });

  it("refuse limits that don't enclose the mean", () => {
    const prevalence = { mean: 0.2, lower: 0.3, upper: 0.4 };
    expect(() => compute(uncertainPrevalence, { ...STUDY, prevalence })).toThrow(InputError);
  });
});

describe("the beta distribution of a stated proportion", () => {
  it.each([
    { mean: 0.03, lower: 0.02, upper: 0.045, level: 0.95 },
    { mean: 0.5, lower: 0.1, upper: 0.9, level: 0.9 },
    { mean: 0.001, lower: 0.0005, upper: 0.003, level: 0.99 },
  ])("has the mean $mean and the probability between $lower and $upper", (stated) => {
    const { a, b } = betaFromInterval(stated);
    expectClose(a / (a + b), stated.mean, { relative: 1e-12 }, "mean");
    const inside =
      1 - incompleteBeta(stated.lower, a, b, "lower") - incompleteBeta(stated.upper, a, b, "upper");
    expectClose(inside, stated.level, { relative: 1e-9 }, "probability");
  });
});
