import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { expectedDiscordance } from "../../../src/methods/algorithms/expected-discordance.ts";
import { observedDependence } from "../../../src/methods/algorithms/observed-dependence.ts";
import { patternFit } from "../../../src/methods/algorithms/pattern-fit.ts";
import { stock } from "../../../src/methods/algorithms/stock.ts";
import { twoTests } from "../../../src/methods/algorithms/two-tests.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Four = [number, number, number, number];
type Two = [number, number];
interface Opinions {
  twoTests: { kits: Four; prevalence: number; phi: Two; serial: Four; parallel: Four }[];
  patternFit: {
    counts: number[];
    probabilities: number[];
    logProbability: number;
    g2: number;
    gP: number;
    gExact: number;
    x2: number;
    xP: number;
    xExact: number;
    exact: number;
    residuals: number[];
  }[];
  dependence: {
    counts: Four;
    covariance: number;
    phi: number;
    twoSided: number;
    greater: number;
    less: number;
    phiLimits: Two;
    covarianceLimits: Two;
  }[];
  delta: { counts: Four; covarianceLimits: Two; phiLimits: Two }[];
  discordance: {
    kits: Four;
    prevalence: number;
    phi: Two;
    tested: number;
    firstReactive: number;
    secondNonreactive: number;
    first: number;
    share: number;
    diseased: number;
    twoSided: number;
    asMany: number;
    limits: Two;
    positivity: number;
  }[];
  unsure: {
    counts: Four;
    prevalence: number;
    firstReactive: number;
    secondNonreactive: number;
    asMany: number;
    asFew: number;
    limits: Two;
  }[];
  stock: {
    clients: number;
    runs: number[];
    probabilities: number[];
    risks: number[];
    ordered: number[];
    runsOut: number[];
  }[];
  largeStock: { clients: number; share: number; ordered: number; orderedRare: number }[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-algorithms-pairs.R`. */
const file = new URL("../../reference/second-opinion-algorithms-pairs.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as Opinions;

const kitsOf = ([se1, sp1, se2, sp2]: Four) => ({
  first: { sensitivity: se1, specificity: sp1 },
  second: { sensitivity: se2, specificity: sp2 },
});
const phiOf = ([diseased, nondiseased]: Two) => ({ kind: "phi" as const, diseased, nondiseased });
const countsOf = ([bothReactive, firstOnly, secondOnly, neither]: Four) => ({
  bothReactive,
  firstOnly,
  secondOnly,
  neither,
});
const known = (value: number) => ({ kind: "value" as const, value });
const counted = (right: number, total: number) => ({ kind: "counts" as const, right, total });

describe("two kits, as R has them", () => {
  // The root in R is found to about 1e-10 of the smallest cell.
  it.each(opinions.twoTests)(
    "$kits at $prevalence, phi $phi",
    ({ kits, prevalence, phi, serial, parallel }) => {
      const { values } = compute(twoTests, {
        ...kitsOf(kits),
        dependence: phiOf(phi),
        prevalences: [prevalence],
      });
      for (const [rule, expected] of [
        [values.serial, serial],
        [values.parallel, parallel],
      ] as const) {
        const found = [rule.sensitivity, rule.specificity, rule.at[0]?.ppv, rule.at[0]?.npv];
        for (const [place, one] of expected.entries()) expectClose(found[place], one, { relative: 1e-9 });
      }
    },
  );

  it.each(opinions.patternFit)("patterns $counts", (opinion) => {
    const patterns = opinion.counts.map((observed, place) => ({
      pattern: `${place}`,
      observed,
      probability: opinion.probabilities[place] ?? -1,
    }));
    const found = compute(patternFit, { patterns });
    expect(faultsOf(found)).toEqual([]);
    const { logProbability, likelihoodRatio, pearson, exact } = found.values;
    const close = { relative: 1e-10 };
    expectClose(logProbability, opinion.logProbability, close, "log probability");
    expectClose(likelihoodRatio.statistic, opinion.g2, close, "G2");
    expectClose(likelihoodRatio.p, opinion.gP, close, "p of G2");
    expectClose(likelihoodRatio.exact, opinion.gExact, close, "exact p of G2");
    expectClose(pearson.statistic, opinion.x2, close, "X2");
    expectClose(pearson.p, opinion.xP, close, "p of X2");
    expectClose(pearson.exact, opinion.xExact, close, "exact p of X2");
    expectClose(exact, opinion.exact, close, "exact p");
    for (const [place, residual] of opinion.residuals.entries()) {
      expectClose(found.values.patterns[place]?.residual, residual, close, `residual ${place}`);
    }
  });

  it.each(opinions.dependence)("dependence in $counts", (opinion) => {
    const counts = countsOf(opinion.counts);
    const options = { draws: 200_000 };
    const { nondiseased } = compute(
      observedDependence,
      { diseased: counts, nondiseased: counts },
      options,
    ).values;
    const close = { relative: 1e-9 };
    expectClose(nondiseased.phi.value, opinion.phi, close, "phi");
    expectClose(nondiseased.covariance.value, opinion.covariance, close, "covariance");
    expectClose(nondiseased.fisher.twoSided, opinion.twoSided, close, "two-sided");
    expectClose(nondiseased.fisher.greater, opinion.greater, close, "greater");
    expectClose(nondiseased.fisher.less, opinion.less, close, "less");
    // Limits are drawn on both sides: 200,000 draws leave an error of about 0.3 % of the width.
    for (const [{ lower, upper }, [low, high]] of [
      [nondiseased.phi, opinion.phiLimits],
      [nondiseased.covariance, opinion.covarianceLimits],
    ] as const) {
      const within = { absolute: 0.015 * (high - low) };
      expectClose(lower, low, within, "lower");
      expectClose(upper, high, within, "upper");
    }
  });

  it.each(opinions.delta)("delta limits of $counts", ({ counts, phiLimits, covarianceLimits }) => {
    const table = countsOf(counts);
    const { diseased } = compute(
      observedDependence,
      { diseased: table, nondiseased: table },
      { method: "delta" },
    ).values;
    // R's slopes are numerical, good to about 1e-8.
    const close = { relative: 1e-7 };
    expectClose(diseased.phi.lower, phiLimits[0], close);
    expectClose(diseased.phi.upper, phiLimits[1], close);
    expectClose(diseased.covariance.lower, covarianceLimits[0], close);
    expectClose(diseased.covariance.upper, covarianceLimits[1], close);
  });

  it.each(opinions.discordance)("discordance of $kits: $secondNonreactive of $firstReactive", (opinion) => {
    const [se1, sp1, se2, sp2] = opinion.kits;
    const { tested, firstReactive, secondNonreactive } = opinion;
    const { values } = compute(expectedDiscordance, {
      first: { sensitivity: known(se1), specificity: known(sp1) },
      second: { sensitivity: known(se2), specificity: known(sp2) },
      dependence: phiOf(opinion.phi),
      prevalence: opinion.prevalence,
      observed: { tested, firstReactive, secondNonreactive },
    });
    const close = { relative: 1e-9 };
    expectClose(values.firstReactive.value, opinion.first, close, "first");
    expectClose(values.discordant.value, opinion.share, close, "share");
    expectClose(values.diseasedAmongDiscordant, opinion.diseased, close, "diseased");
    expectClose(values.discordance?.twoSided, opinion.twoSided, close, "two-sided");
    expectClose(values.discordance?.asMany, opinion.asMany, close, "as many");
    expectClose(values.positivity?.twoSided, opinion.positivity, close, "positivity");
    expect([values.discordance?.lower, values.discordance?.upper]).toEqual(opinion.limits);
  });

  it.each(opinions.unsure)("discordance where specificities are counts: $counts", (opinion) => {
    const [right1, total1, right2, total2] = opinion.counts;
    const { firstReactive, secondNonreactive, prevalence } = opinion;
    const draws = 40_000;
    const { values } = compute(
      expectedDiscordance,
      {
        first: { sensitivity: known(1), specificity: counted(right1, total1) },
        second: { sensitivity: known(1), specificity: counted(right2, total2) },
        dependence: { kind: "independent" },
        prevalence,
        observed: { tested: firstReactive, firstReactive, secondNonreactive },
      },
      { draws },
    );
    const within = (p: number) => ({ absolute: 4.5 * Math.sqrt((p * (1 - p)) / draws) });
    expectClose(values.discordance?.asMany, opinion.asMany, within(opinion.asMany), "as many");
    expectClose(values.discordance?.asFew, opinion.asFew, within(opinion.asFew), "as few");
    const twice = Math.min(1, 2 * Math.min(opinion.asMany, opinion.asFew));
    expectClose(
      values.discordance?.twoSided,
      twice,
      { absolute: 2 * within(twice / 2).absolute },
      "two-sided",
    );
    expectClose(values.discordance?.lower, opinion.limits[0], { absolute: 1 }, "lower");
    expectClose(values.discordance?.upper, opinion.limits[1], { absolute: 1 }, "upper");
  });

  it.each(opinions.stock)("stock for $clients people", ({ clients, runs, probabilities, ...opinion }) => {
    const perPerson = runs.map((number, place) => ({
      runs: number,
      probability: probabilities[place] ?? -1,
    }));
    for (const [place, stockOutRisk] of opinion.risks.entries()) {
      const input = { clients, situations: [{ weight: 2, perPerson }], waste: 0, packSize: 1 };
      const { ordered, method } = compute(stock, input, { stockOutRisk }).values;
      expect(method).toBe("exact");
      expect(ordered).toMatchObject({
        runs: opinion.ordered[place],
        kits: opinion.ordered[place],
        packs: opinion.ordered[place],
      });
      expectClose(ordered.runsOut, opinion.runsOut[place] ?? -1, { relative: 1e-10 });
    }
  });

  it.each(opinions.largeStock)("stock for $clients people, a share of $share", (opinion) => {
    const perPerson = [
      { runs: 0, probability: 1 - opinion.share },
      { runs: 1, probability: opinion.share },
    ];
    const input = { clients: opinion.clients, situations: [{ weight: 1, perPerson }], waste: 0, packSize: 1 };
    expect(compute(stock, input).values.ordered.runs).toBe(opinion.ordered);
    expect(compute(stock, input, { stockOutRisk: 0.001 }).values.ordered.runs).toBe(opinion.orderedRare);
  });
});
