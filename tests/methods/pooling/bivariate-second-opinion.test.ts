import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { bivariate } from "../../../src/methods/pooling/bivariate.ts";
import { predictedScore } from "../../../src/methods/pooling/predicted-score.ts";
import { expectClose } from "../../tolerance.ts";

/** Made by R 4.2.2 and lme4 1.1-31 with `tests/reference/scripts/second-opinion-pooling-bivariate.R`. */
interface Opinion {
  readonly name: string;
  readonly kind: "binomial" | "normal_ml" | "normal_reml";
  /** True positives, false negatives, false positives, true negatives. */
  readonly rows: readonly Four[];
  readonly levels?: readonly number[];
  readonly means: readonly [number, number];
  readonly spread: readonly [number, number, number];
  readonly logLikelihood: number;
  /** Variances of the two means, and their covariance. */
  readonly covariance: readonly [number, number, number];
  readonly sensitivityLimits?: Pair;
  readonly specificityLimits?: Pair;
  readonly spreadLimits: readonly [Pair, Pair, Pair];
  /** Both, sensitivity alone, specificity alone: likelihood ratio statistics. */
  readonly tests?: readonly [number, number, number];
  readonly posterior?: readonly Four[];
}
interface Laplace {
  readonly name: string;
  readonly rows: readonly Four[];
  readonly means: readonly [number, number];
  readonly spread: readonly [number, number, number];
  readonly logLikelihood: number;
  readonly standardErrors: readonly [number, number];
  /** Offsets of the first twelve studies' likeliest logits from the means. */
  readonly modes: readonly [number, number][];
}
type Four = readonly [number, number, number, number];
type Pair = readonly [number | null, number | null];

const file = new URL("../../reference/second-opinion-pooling-bivariate.json", import.meta.url);
const { fits, laplace, scores } = JSON.parse(readFileSync(file, "utf8")) as {
  readonly fits: readonly Opinion[];
  readonly laplace: readonly Laplace[];
  readonly scores: readonly (readonly [number, number, number, number, number])[];
};

const studiesOf = (rows: readonly Four[]) =>
  rows.map(([truePositives, falseNegatives, falsePositives, trueNegatives], place) => ({
    label: `${place + 1}`,
    truePositives,
    falsePositives,
    falseNegatives,
    trueNegatives,
  }));
const logit = (share: number | null | undefined) => (share == null ? null : Math.log(share / (1 - share)));

/** Limits of R's optimisers, which stop at about 1e-8 of the likelihood. */
function expectLimits(
  { lower, upper }: { lower: number | null; upper: number | null },
  pair: Pair,
  border: Pair,
) {
  // R gives no limit where the likelihood is never low enough on the way to the border.
  expectClose(lower, pair[0] ?? border[0] ?? Number.NaN, { relative: 2e-5 }, "lower");
  expectClose(upper, pair[1] ?? border[1] ?? Number.NaN, { relative: 2e-5 }, "upper");
}

describe.each(fits)("$name, $kind", (opinion) => {
  const { kind, rows, levels } = opinion;
  const likelihood = kind === "binomial" ? { kind } : { kind, correction: "zero_cells" as const };
  const covariate = levels === undefined ? null : { name: "half", levels: levels.map(String) };
  const found = compute(
    bivariate,
    { studies: studiesOf(rows), covariate, likelihood },
    { interval: kind === "normal_reml" ? "wald" : "profile", points: 45 },
  ).values;

  it("has the same likelihood, summary point and spread", () => {
    const { summary, betweenStudies, fit } = found;
    expectClose(fit.logLikelihood, opinion.logLikelihood, { relative: 1e-9 }, "log-likelihood");
    expectClose(summary.sensitivity.logit.value, opinion.means[0], { relative: 1e-6 }, "sensitivity");
    expectClose(summary.specificity.logit.value, opinion.means[1], { relative: 1e-6 }, "specificity");
    const { sensitivity, specificity, correlation } = betweenStudies;
    [sensitivity, specificity, correlation].forEach(({ value }, k) => {
      expectClose(value, opinion.spread[k] ?? Number.NaN, { relative: 2e-5 }, `spread ${k}`);
    });
    // Second derivatives by differences of R, in other unknowns than here.
    const [first, second, both] = opinion.covariance;
    expectClose(summary.sensitivity.standardError, Math.sqrt(first), { relative: 1e-4 }, "error");
    expectClose(summary.specificity.standardError, Math.sqrt(second), { relative: 1e-4 }, "error");
    expectClose(summary.covariance, both, { relative: 5e-4 }, "covariance");
  });

  it("has the same profile limits", () => {
    const { sensitivity, specificity, correlation } = found.betweenStudies;
    expectLimits(sensitivity, opinion.spreadLimits[0], [0, null]);
    expectLimits(specificity, opinion.spreadLimits[1], [0, null]);
    expectLimits(correlation, opinion.spreadLimits[2], [-1, 1]);
    if (opinion.sensitivityLimits === undefined || opinion.specificityLimits === undefined) return;
    expectLimits(found.summary.sensitivity.logit, opinion.sensitivityLimits, [null, null]);
    expectLimits(found.summary.specificity.logit, opinion.specificityLimits, [null, null]);
  });

  if (opinion.tests !== undefined) {
    it("has the same likelihood ratio tests and empirical Bayes estimates", () => {
      const parts = found.covariate;
      [parts?.both, parts?.sensitivityAlone, parts?.specificityAlone].forEach((test, k) => {
        expectClose(
          test?.chiSquare,
          opinion.tests?.[k] ?? Number.NaN,
          { relative: 1e-5, absolute: 1e-6 },
          `${k}`,
        );
      });
      opinion.posterior?.forEach(([mean, deviation, secondMean, secondDeviation], place) => {
        const { sensitivity, specificity } = found.shrunken[place] ?? {};
        const reach = 1.959963984540054;
        expectClose(logit(sensitivity?.value), mean, { relative: 2e-5 }, "mean");
        expectClose(logit(sensitivity?.upper), mean + reach * deviation, { relative: 2e-5 }, "limit");
        expectClose(logit(specificity?.value), secondMean, { relative: 2e-5 }, "mean");
        expectClose(
          logit(specificity?.lower),
          secondMean - reach * secondDeviation,
          { relative: 2e-5 },
          "limit",
        );
      });
    });
  }
});

describe.each(laplace)("Laplace's approximation of $name studies, by lme4", (opinion) => {
  const found = compute(
    bivariate,
    { studies: studiesOf(opinion.rows), covariate: null, likelihood: { kind: "binomial" } },
    { points: 1, spread: "none" },
  ).values;

  it("has the same likelihood and estimates", () => {
    expectClose(found.fit.logLikelihood, opinion.logLikelihood, { relative: 1e-8 }, "log-likelihood");
    const { sensitivity, specificity } = found.summary;
    [sensitivity, specificity].forEach((one, k) => {
      expectClose(one.logit.value, opinion.means[k] ?? Number.NaN, { relative: 1e-6 }, "mean");
      // lme4's second derivatives are differences with a step of 1e-4.
      expectClose(one.standardError, opinion.standardErrors[k] ?? Number.NaN, { relative: 1e-3 }, "error");
    });
    const { sensitivity: one, specificity: two, correlation } = found.betweenStudies;
    [one, two, correlation].forEach(({ value }, k) => {
      expectClose(value, opinion.spread[k] ?? Number.NaN, { relative: 1e-5 }, `spread ${k}`);
    });
    opinion.modes.forEach(([first, second], place) => {
      const { sensitivity: here, specificity: there } = found.shrunken[place] ?? {};
      expectClose(logit(here?.value), opinion.means[0] + first, { relative: 1e-5 }, "mode");
      expectClose(logit(there?.value), opinion.means[1] + second, { relative: 1e-5 }, "mode");
    });
  });
});

describe("the place of a count in its prediction", () => {
  it.each(scores)("%d of %d, logit %d, deviation %d", (right, total, mean, deviation, score) => {
    // R's `integrate` stops at about 1e-10.
    expectClose(predictedScore(right, total, mean, deviation), score, { relative: 1e-7 });
    expect(predictedScore(total - right, total, -mean, deviation)).toBeCloseTo(-score, 6);
  });
});
