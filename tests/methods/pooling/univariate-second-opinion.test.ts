import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { curveRegression } from "../../../src/methods/pooling/curve-regression.ts";
import { inverseVariance } from "../../../src/methods/pooling/inverse-variance.ts";
import { heightAt, type LineValues } from "../../../src/methods/pooling/line-values.ts";
import { BETWEEN_ESTIMATORS } from "../../../src/methods/pooling/random-effects-fields.ts";
import { smallStudy } from "../../../src/methods/pooling/small-study.ts";
import { univariate } from "../../../src/methods/pooling/univariate.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Numbers = readonly number[];
type Pair = readonly [number, number];
interface Opinion {
  readonly intercept: readonly {
    count: Numbers;
    total: Numbers;
    mean: number;
    sd: number;
    error: number;
    logLikelihood: number;
    meanLimits: Pair;
    sdLimits: Pair;
    average: number;
    laplace: Numbers;
    agq: Numbers;
    likeliest: Numbers;
  }[];
  readonly effects: readonly ({
    effects: Numbers;
    errors: Numbers;
    q: number;
    p: number;
    sdLimits: Pair;
  } & Readonly<Record<(typeof BETWEEN_ESTIMATORS)[number], Numbers>>)[];
  readonly lines: readonly {
    tp: Numbers;
    fn: Numbers;
    fp: Numbers;
    tn: Numbers;
    how: "all" | "zero_cells";
    equal: Numbers;
    inverse: Numbers;
    curve: Pair;
    spearman: number;
    p: number;
    funnel: Numbers;
    funnelEnd: Numbers;
  }[];
}

/** R 4.2.2; see tests/reference/README.md. */
const opinion = JSON.parse(
  readFileSync(new URL("../../reference/second-opinion-pooling-univariate.json", import.meta.url), "utf8"),
) as Opinion;

const proportionAt = (logOdds: number) => 1 / (1 + Math.exp(-logOdds));

describe("one proportion over studies", () => {
  it.each(opinion.intercept)("agrees with integrate() and optim: $count of $total", (row) => {
    const studies = row.count.map((count, at) => ({ label: `${at}`, count, total: row.total[at] as number }));
    const ask = (points: number) => compute(univariate, { studies, correction: "all" }, { points });
    const found = ask(101);
    expect(faultsOf(found)).toEqual([]);
    const { binomial, list } = found.values;
    // Limited by R's optimisers and differences, not by the quadrature.
    const near = { relative: 2e-6 };
    expectClose(binomial.logLikelihood, row.logLikelihood, { relative: 1e-10 }, "log-likelihood");
    expectClose(binomial.logOdds.value, row.mean, near, "mean");
    expectClose(binomial.betweenSd.value, row.sd, near, "between");
    expectClose(binomial.standardError, row.error, { relative: 2e-5 }, "error");
    expectClose(binomial.profile.lower, proportionAt(row.meanLimits[0]), near, "lower profile");
    expectClose(binomial.profile.upper, proportionAt(row.meanLimits[1]), near, "upper profile");
    expectClose(
      binomial.betweenSd.lower,
      row.sdLimits[0],
      { relative: 1e-5, absolute: 1e-6 },
      "between, lower",
    );
    expectClose(binomial.betweenSd.upper, row.sdLimits[1], { relative: 1e-5 }, "between, upper");
    expectClose(binomial.average, row.average, { relative: 2e-6 }, "average");
    for (const [at, entry] of list.entries()) {
      // lme4 stops its search earlier.
      const likeliest = proportionAt(row.likeliest[at] as number);
      expectClose(entry.shrunken, likeliest, { relative: 2e-4 }, `shrunken ${at}`);
    }
    expectClose(
      ask(25).values.binomial.logOdds.value,
      row.agq[0] as number,
      { relative: 2e-5 },
      "lme4, 25 points",
    );
    expectClose(
      ask(25).values.binomial.betweenSd.value,
      row.agq[1] as number,
      { relative: 2e-5 },
      "lme4, between",
    );
    const usual = compute(univariate, { studies, correction: "all" }).values.binomial;
    expectClose(
      usual.profile.lower,
      proportionAt(row.meanLimits[0]),
      { relative: 1e-4 },
      "by default, lower",
    );
    expectClose(
      usual.profile.upper,
      proportionAt(row.meanLimits[1]),
      { relative: 1e-4 },
      "by default, upper",
    );
    const laplace = ask(1).values.binomial;
    expectClose(
      laplace.logLikelihood,
      row.laplace[2] as number,
      { relative: 1e-8 },
      "Laplace, log-likelihood",
    );
    expectClose(laplace.logOdds.value, row.laplace[0] as number, { relative: 1e-4 }, "Laplace, mean");
    expectClose(laplace.betweenSd.value, row.laplace[1] as number, { relative: 1e-4 }, "Laplace, between");
  });
});

describe("effects pooled by inverse variance", () => {
  it.each(opinion.effects)("agrees with definitions in R: $effects", (row) => {
    const effects = row.effects.map((effect, at) => ({
      label: `${at}`,
      effect,
      standardError: row.errors[at] as number,
    }));
    const found = compute(inverseVariance, { effects, scale: "as_given" });
    expect(faultsOf(found)).toEqual([]);
    const { values } = found;
    expectClose(values.heterogeneity.q, row.q, { relative: 1e-11 }, "Q");
    expectClose(values.heterogeneity.p, row.p, { relative: 1e-9 }, "p");
    expectClose(values.betweenSd.lower, row.sdLimits[0], { relative: 1e-9 }, "between, lower");
    expectClose(values.betweenSd.upper, row.sdLimits[1], { relative: 1e-9 }, "between, upper");
    for (const name of BETWEEN_ESTIMATORS) {
      const { betweenVariance, summary, standardError, hartungKnappError, hartungKnapp, prediction } =
        values.models[name];
      const told = [
        betweenVariance,
        summary.value,
        standardError,
        hartungKnappError,
        hartungKnapp.lower,
        hartungKnapp.upper,
        prediction.lower,
        prediction.upper,
      ];
      // optimize() ends at about the root of the machine's accuracy.
      const relative = name === "ml" || name === "reml" ? 3e-7 : 1e-10;
      for (const [at, value] of told.entries()) {
        // A limit near 0 is as wrong as its mean.
        expectClose(value, row[name][at] as number, { relative, absolute: relative }, `${name} ${at}`);
      }
    }
  });
});

describe("lines through studies", () => {
  const told = ({
    intercept,
    slope,
    interceptError,
    slopeError,
    slopeP,
    residualSd,
    explained,
  }: LineValues) => [
    intercept.value,
    slope.value,
    interceptError,
    slopeError,
    slopeP,
    residualSd,
    explained,
    slope.lower,
    slope.upper,
  ];
  const near = { relative: 1e-9, absolute: 1e-12 };

  it.each(opinion.lines)("agree with lm(): $how, $tp", ({ tp, fn, fp, tn, how, ...row }) => {
    const studies = tp.map((truePositives, at) => ({
      label: `${at}`,
      truePositives,
      falsePositives: fp[at] as number,
      falseNegatives: fn[at] as number,
      trueNegatives: tn[at] as number,
    }));
    const equal = compute(curveRegression, { studies, correction: how, weights: "equal" });
    const inverse = compute(curveRegression, { studies, correction: how, weights: "inverse_variance" });
    const funnel = compute(smallStudy, { studies, correction: how });
    for (const found of [equal, inverse, funnel]) expect(faultsOf(found)).toEqual([]);
    told(equal.values.line).forEach((value, at) => {
      expectClose(value, row.equal[at] as number, near, `equal ${at}`);
    });
    told(inverse.values.line).forEach((value, at) => {
      expectClose(value, row.inverse[at] as number, near, `inverse ${at}`);
    });
    told(funnel.values.line).forEach((value, at) => {
      expectClose(value, row.funnel[at] as number, near, `funnel ${at}`);
    });
    expectClose(equal.values.threshold.spearman, row.spearman, { relative: 1e-12 }, "spearman");
    expectClose(equal.values.threshold.p, row.p, { relative: 1e-9 }, "spearman p");
    expectClose(equal.values.curve[17]?.falsePositiveRate, row.curve[0], { relative: 1e-12 }, "curve");
    expectClose(equal.values.curve[17]?.truePositiveRate, row.curve[1], { relative: 1e-10 }, "curve");
    const end = funnel.values.points.at(-1)?.logOddsRatio;
    [end?.value, end?.lower, end?.upper].forEach((value, at) => {
      expectClose(value, row.funnelEnd[at] as number, near, `end of the funnel ${at}`);
    });
  });

  it("know the error of their height", () => {
    // y = x with residuals 1, -2, 1 at x = 0, 1, 2: residual variance 6 on one degree of freedom.
    const line = {
      intercept: 0,
      slope: 1,
      interceptError: Math.sqrt(6 * (1 / 3 + 1 / 2)),
      slopeError: Math.sqrt(3),
      covariance: -3,
      residualVariance: 6,
      degreesOfFreedom: 1,
      explained: 0.25,
    };
    expectClose(heightAt(line, 1).error, Math.sqrt(2), { relative: 1e-14 });
  });
});
