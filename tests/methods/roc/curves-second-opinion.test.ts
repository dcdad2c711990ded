import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { rocCompare } from "../../../src/methods/roc/compare.ts";
import { rocCurve } from "../../../src/methods/roc/curve.ts";
import { rocCutoff } from "../../../src/methods/roc/cutoff.ts";
import type { Rule } from "../../../src/methods/roc/cutoff-fields.ts";
import { rocEyeAgainstInstrument } from "../../../src/methods/roc/eye-against-instrument.ts";
import { rocIntensity } from "../../../src/methods/roc/intensity.ts";
import { rocOrdinal } from "../../../src/methods/roc/ordinal.ts";
import type { CurveRange } from "../../../src/methods/roc/readings-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Direction = "higher" | "lower";
interface Opinions {
  readonly curves: readonly {
    readonly name: string;
    readonly positives: number[];
    readonly negatives: number[];
    readonly direction: Direction;
    readonly u: number;
    readonly p: number;
    readonly area: number;
    readonly standardError: number;
    readonly score: readonly [number, number];
    readonly highSpecificity: number;
    readonly middle: number;
    readonly highSensitivity: number;
    readonly gap: number;
    readonly quantiles: readonly number[];
    readonly bars: readonly number[];
  }[];
  readonly compared: readonly {
    readonly name: string;
    readonly firstPositives: number[];
    readonly firstNegatives: number[];
    readonly secondPositives: number[];
    readonly secondNegatives: number[];
    readonly secondDirection: Direction;
    readonly difference: number;
    readonly covariance: number;
    readonly correlation: number;
    /** Standard error, lower, upper, z, p. */
    readonly paired: readonly number[];
    readonly independent: readonly number[];
  }[];
  readonly ordinal: readonly {
    readonly name: string;
    readonly positives: readonly number[];
    readonly negatives: readonly number[];
    readonly logLikelihood: number;
    readonly a: readonly [number, number];
    readonly b: readonly [number, number];
    readonly covariance: number;
    /** Value, lower, upper, standard error. */
    readonly area: readonly number[];
    readonly borders: readonly number[];
    readonly borderErrors: readonly number[];
    readonly deviance: number;
    readonly pearson: number;
    readonly p: number | null;
    /** Sensitivity at a specificity of 0.9: value, lower, upper. */
    readonly at90: readonly number[];
  }[];
  readonly cutoffs: readonly {
    readonly name: string;
    readonly positives: number[];
    readonly negatives: number[];
    readonly direction: Direction;
    readonly rule: Rule;
    readonly cutoff: number | null;
    readonly sensitivity: number;
    readonly specificity: number;
  }[];
  readonly ideal: readonly {
    readonly rule: Rule;
    readonly positives: number[];
    readonly negatives: number[];
    /** Of sensitivity and specificity, over all resamples; standard deviations; both when left out. */
    readonly optimism: readonly [number, number];
    readonly sd: readonly [number, number];
    readonly leftOut: readonly [number, number];
  }[];
  readonly idealArea: {
    readonly positives: number[];
    readonly negatives: number[];
    readonly area: number;
    readonly standardError: number;
  };
  readonly eyes: readonly {
    readonly name: string;
    readonly positives: readonly number[];
    readonly eyePositives: readonly number[];
    readonly negatives: readonly number[];
    readonly eyeNegatives: readonly number[];
    /** By the middle of steps, by their best end. */
    readonly sensitivity: readonly [number, number];
    readonly specificity: readonly [number, number];
  }[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-roc.R`. */
const file = new URL("../../reference/second-opinion-roc.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as Opinions;
const EXACT = { relative: 1e-12, absolute: 1e-14 };

describe("curves against wilcox.test, placements over every pair, approx and uniroot in R", () => {
  const ranges: CurveRange[] = [
    { of: "specificity", from: 0.8, to: 1 },
    { of: "specificity", from: 0.33, to: 0.777 },
    { of: "sensitivity", from: 0.85, to: 0.99 },
  ];
  it.each(opinions.curves.map((one) => [one.name, one] as const))("%s", (_, one) => {
    const { positives, negatives, direction } = one;
    const found = compute(rocCurve, { positives, negatives, direction }, { ranges });
    const { area, rankSum, ranges: parts } = found.values;
    expect(faultsOf(found)).toEqual([]);
    expect(rankSum.u).toBe(one.u);
    expectClose(rankSum.p, one.p, { relative: 1e-11 }, "p");
    expectClose(area.value, one.area, EXACT, "area");
    expectClose(area.standardError, one.standardError, { relative: 1e-11, absolute: 1e-15 }, "error");
    expectClose(area.score.lower, one.score[0], { relative: 1e-9 }, "score lower");
    expectClose(area.score.upper, one.score[1], { relative: 1e-9 }, "score upper");
    const areas = [one.highSpecificity, one.middle, one.highSensitivity];
    for (const [place, part] of parts.entries()) {
      expectClose(part.area, areas[place] as number, { relative: 1e-10, absolute: 1e-14 }, `part ${place}`);
    }
  });
});

describe("readings by truth against quantile, ks.test and hist in R", () => {
  it.each(opinions.curves.map((one) => [one.name, one] as const))("%s", (_, one) => {
    const { positives, negatives } = one;
    const { values } = compute(rocIntensity, { positives, negatives, minutes: null }, { bins: 7 });
    const first = values.groups[0];
    const quantiles = [first?.p05, first?.p25, first?.median, first?.p75, first?.p95];
    for (const [place, expected] of one.quantiles.entries()) {
      expectClose(quantiles[place], expected, { relative: 1e-12, absolute: 1e-14 }, `quantile ${place}`);
    }
    expectClose(values.largestGap, one.gap, EXACT, "gap");
    expect(values.histogram.map((bar) => bar.negatives)).toEqual(one.bars);
  });
});

describe("two curves against covariances of placements over every pair in R", () => {
  it.each(opinions.compared.map((one) => [one.name, one] as const))("%s", (_, one) => {
    const sides = {
      first: {
        positives: one.firstPositives,
        negatives: one.firstNegatives,
        direction: "higher" as const,
      },
      second: {
        positives: one.secondPositives,
        negatives: one.secondNegatives,
        direction: one.secondDirection,
      },
    };
    for (const design of ["paired", "independent"] as const) {
      const { values } = compute(rocCompare, { design, ...sides });
      const { difference, standardError, z, p, covariance, correlation } = values;
      const ours = [standardError, difference.lower, difference.upper, z, p];
      for (const [place, expected] of one[design].entries()) {
        expectClose(ours[place], expected, { relative: 1e-10 }, `${design} ${place}`);
      }
      expectClose(difference.value, one.difference, { relative: 1e-12 }, "difference");
      expectClose(covariance, design === "paired" ? one.covariance : 0, { relative: 1e-11 }, "covariance");
      expectClose(correlation, design === "paired" ? one.correlation : 0, { relative: 1e-11 }, "correlation");
    }
  });
});

/** R's maximum is as exact as its numeric slopes. */
const FITTED = { relative: 2e-5, absolute: 2e-5 };

describe("two normal distributions behind categories against nlminb and optim in R", () => {
  it.each(opinions.ordinal.map((one) => [one.name, one] as const))("%s", (_, one) => {
    const categories = one.positives.map((positives, place) => ({
      label: `category ${place}`,
      positives,
      negatives: one.negatives[place] ?? -1,
    }));
    const found = compute(rocOrdinal, { categories });
    expect(faultsOf(found)).toEqual([]);
    const binormal = found.values.binormal;
    if (binormal === null) throw new Error("expected a fit");
    const { a, b, area, fit, borders, covariance, standardError, curve } = binormal;
    expectClose(fit.logLikelihood, one.logLikelihood, { relative: 1e-11 }, "log-likelihood");
    const at90 = curve.find(({ specificity }) => specificity === 0.9)?.sensitivity;
    const pairs: [number | null | undefined, number][] = [
      [a.estimate.value, one.a[0]],
      [a.standardError, one.a[1]],
      [b.estimate.value, one.b[0]],
      [b.standardError, one.b[1]],
      [covariance, one.covariance],
      [area.value, one.area[0] as number],
      [area.lower, one.area[1] as number],
      [area.upper, one.area[2] as number],
      [standardError, one.area[3] as number],
      ...borders.map(({ place }, at): [number | null, number] => [place.value, one.borders[at] as number]),
      ...borders.map((border, at): [number | null, number] => [
        border.standardError,
        one.borderErrors[at] as number,
      ]),
      [at90?.value, one.at90[0] as number],
      [at90?.lower, one.at90[1] as number],
      [at90?.upper, one.at90[2] as number],
      [fit.deviance, one.deviance],
      [fit.pearson, one.pearson],
    ];
    for (const [place, [ours, theirs]] of pairs.entries()) expectClose(ours, theirs, FITTED, `${place}`);
    if (one.p === null) expect(fit.p).toBeNull();
    else expectClose(fit.p, one.p, FITTED, "p");
  });
});

describe("cutoffs against every reading tried in R", () => {
  it.each(opinions.cutoffs.map((one) => [one.name, one] as const))("%s", (_, one) => {
    const { positives, negatives, direction, rule } = one;
    const found = compute(rocCutoff, { positives, negatives, direction, rule }, { replicates: 100 });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.cutoff.value).toBe(one.cutoff);
    expectClose(found.values.sensitivity.value, one.sensitivity, EXACT, "sensitivity");
    expectClose(found.values.specificity.value, one.specificity, EXACT, "specificity");
  });
});

describe("drawing against the list of all resamples in R", () => {
  const replicates = 40_000;

  it.each(opinions.ideal.map((one) => [one.rule.kind, one] as const))("optimism of %s", (_, one) => {
    const { positives, negatives, rule } = one;
    const input = { positives, negatives, rule, direction: "higher" as const };
    const { optimism, corrected, sensitivity } = compute(rocCutoff, input, {
      correction: "bootstrap",
      replicates,
      seed: 5,
    }).values;
    for (const [place, key] of (["sensitivity", "specificity"] as const).entries()) {
      const slack = (4 * (one.sd[place] as number)) / Math.sqrt(replicates);
      expectClose(optimism[key], one.optimism[place] as number, { absolute: slack }, key);
    }
    expectClose(
      corrected.sensitivity,
      (sensitivity.value as number) - (optimism.sensitivity as number),
      EXACT,
      "corrected",
    );
  });

  it.each(opinions.ideal.map((one) => [one.rule.kind, one] as const))(
    "leaving one of each group out: %s",
    (_, one) => {
      const { positives, negatives, rule } = one;
      const input = { positives, negatives, rule, direction: "higher" as const };
      const options = { correction: "cross_validation" as const, folds: 4, repeats: 1000, replicates: 100 };
      const { corrected } = compute(rocCutoff, input, options).values;
      expectClose(corrected.sensitivity, one.leftOut[0], { absolute: 0.02 }, "sensitivity");
      expectClose(corrected.specificity, one.leftOut[1], { absolute: 0.02 }, "specificity");
    },
  );

  it("the standard error of an area", () => {
    const { positives, negatives, area, standardError } = opinions.idealArea;
    const input = { positives, negatives, direction: "higher" as const };
    const { drawn } = compute(rocCurve, input, { replicates }).values;
    expect(drawn?.area.value).toBe(area);
    expectClose(drawn?.standardError, standardError, { relative: 0.015 }, "standard error");
  });
});

describe("the eye against an instrument, against approx in R", () => {
  const people = (readings: readonly number[], eye: readonly number[]) =>
    readings.map((reading, place) => ({ reading, reactive: eye[place] === 1 }));
  it.each(opinions.eyes.map((one) => [one.name, one] as const))("%s", (_, one) => {
    for (const [place, atSteps] of (["middle", "best"] as const).entries()) {
      const found = compute(
        rocEyeAgainstInstrument,
        {
          positives: people(one.positives, one.eyePositives),
          negatives: people(one.negatives, one.eyeNegatives),
          direction: "higher",
          atSteps,
        },
        { replicates: 200 },
      );
      expect(faultsOf(found)).toEqual([]);
      const { atEyeSpecificity, atEyeSensitivity } = found.values;
      // R's places on the curve were rounded to 12 digits, so that repeats are seen as such.
      const close = { absolute: 1e-10 };
      expectClose(atEyeSpecificity.sensitivity.value, one.sensitivity[place] as number, close, atSteps);
      expectClose(atEyeSensitivity.specificity.value, one.specificity[place] as number, close, atSteps);
    }
  });
});
