import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { bivariate } from "../../../src/methods/pooling/bivariate.ts";
import { TWELVE } from "../../../src/methods/pooling/bivariate-examples.ts";
import type { Study } from "../../../src/methods/pooling/study-fields.ts";
import { chiSquareQuantile } from "../../../src/numeric/chi-square.ts";
import { fQuantile } from "../../../src/numeric/f-distribution.ts";
import { tQuantile } from "../../../src/numeric/student-t.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf, valueAt } from "../plain-values.ts";
import { drawnStudies, USUAL } from "./drawn-studies.ts";

const BINOMIAL = { kind: "binomial" as const };
const ML = { kind: "normal_ml" as const, correction: "zero_cells" as const };
type Likelihood = Parameters<typeof bivariate.run>[0]["likelihood"];
const LIKELIHOODS: Likelihood[] = [BINOMIAL, ML, { kind: "normal_reml", correction: "all" }];

const pooled = (studies: readonly Study[], likelihood: Likelihood = BINOMIAL, options: object = {}) =>
  compute(bivariate, { studies: [...studies], covariate: null, likelihood }, options);
const withCovariate = (studies: readonly Study[], levels: string[], likelihood: Likelihood = BINOMIAL) =>
  compute(bivariate, { studies: [...studies], covariate: { name: "site type", levels }, likelihood });
const codes = ({ notes }: { notes: readonly { code: string; path: string }[] }) =>
  notes.map(({ code, path }) => `${code} ${path}`);
/** The kit's results turned round: what was sensitivity is specificity. */
const turned = (studies: readonly Study[]): Study[] =>
  studies.map(({ label, truePositives, falsePositives, falseNegatives, trueNegatives }) => ({
    label,
    truePositives: trueNegatives,
    falsePositives: falseNegatives,
    falseNegatives: falsePositives,
    trueNegatives: truePositives,
  }));
const number = (value: unknown): number => {
  if (typeof value !== "number") throw new Error(`no number: ${value}`);
  return value;
};

describe("sensitivity and specificity together", () => {
  it.each(LIKELIHOODS)("change places when the results are turned round ($kind)", (likelihood) => {
    const [one, two] = [TWELVE, turned(TWELVE)].map((studies) => pooled(studies, likelihood).values);
    const pairs = [
      ["summary.sensitivity.proportion.value", "summary.specificity.proportion.value"],
      ["summary.sensitivity.standardError", "summary.specificity.standardError"],
      ["betweenStudies.sensitivity.lower", "betweenStudies.specificity.lower"],
      ["betweenStudies.sensitivity.upper", "betweenStudies.specificity.upper"],
      ["betweenStudies.correlation.upper", "betweenStudies.correlation.upper"],
      ["prediction.sensitivity.lower", "prediction.specificity.lower"],
      ["shrunken.3.sensitivity.upper", "shrunken.3.specificity.upper"],
      ["fit.logLikelihood", "fit.logLikelihood"],
    ] as const;
    for (const [first, second] of pairs) {
      expectClose(number(valueAt(two, second)), number(valueAt(one, first)), { relative: 1e-6 }, first);
    }
    expectClose(two?.hierarchical.shape.value ?? null, -number(one?.hierarchical.shape.value), {
      relative: 1e-6,
    });
  });

  it("do not depend on the order of the studies", () => {
    const [one, two] = [TWELVE, [...TWELVE].reverse()].map((studies) => pooled(studies).values);
    for (const path of ["summary.sensitivity.logit.value", "betweenStudies.correlation.value"]) {
      expectClose(number(valueAt(two, path)), number(valueAt(one, path)), { relative: 1e-8 }, path);
    }
  });

  it("are the same with 15 and with 45 places, sparse studies included", () => {
    const sparse = drawnStudies(12, { ...USUAL, specificity: 5 }, 3);
    for (const studies of [TWELVE, sparse]) {
      const [some, many] = [15, 45].map(
        (points) => pooled(studies, BINOMIAL, { points, spread: "none" }).values,
      );
      for (const path of [
        "fit.logLikelihood",
        "summary.specificity.logit.value",
        "betweenStudies.specificity.value",
      ]) {
        expectClose(number(valueAt(some, path)), number(valueAt(many, path)), { relative: 1e-5 }, path);
      }
    }
  });

  it("pool people as if of one study where studies do not differ", () => {
    // The same proportions everywhere: no spread, and the limits of all people together, by hand.
    const alike = [1, 2, 3, 1, 2].map((times, place) => ({
      label: `${place}`,
      truePositives: 45 * times,
      falseNegatives: 5 * times,
      falsePositives: 10 * times,
      trueNegatives: 90 * times,
    }));
    const found = pooled(alike);
    const { summary, betweenStudies } = found.values;
    expect(betweenStudies.sensitivity).toMatchObject({ value: 0, lower: 0 });
    expect(betweenStudies.specificity).toMatchObject({ value: 0, lower: 0 });
    expect(betweenStudies.correlation.value).toBeNull();
    expectClose(summary.sensitivity.proportion.value, 0.9, { relative: 1e-9 });
    expectClose(summary.sensitivity.standardError, Math.sqrt(1 / (9 * 45) + 1 / (9 * 5)), { relative: 1e-7 });
    expectClose(summary.specificity.standardError, Math.sqrt(1 / (9 * 90) + 1 / (9 * 10)), {
      relative: 1e-7,
    });
    expect(codes(found)).toEqual(
      expect.arrayContaining([
        "boundary betweenStudies.sensitivity",
        "boundary betweenStudies.specificity",
        "boundary betweenStudies.correlation",
        "boundary hierarchical",
      ]),
    );
    expect(found.values.regions.curve).toEqual([]);
    expect(faultsOf(found)).toEqual([]);
  });
});

describe("what is drawn", () => {
  const { values } = pooled(TWELVE);
  const middle = [
    number(values.summary.sensitivity.logit.value),
    number(values.summary.specificity.logit.value),
  ] as const;

  it("are ellipses at their distance, closed, the inner within the outer", () => {
    const s = values.summary;
    const between = values.betweenStudies;
    const both =
      number(between.correlation.value) *
      number(between.sensitivity.value) *
      number(between.specificity.value);
    const variances = (extra: 0 | 1) =>
      [
        number(s.sensitivity.standardError) ** 2 + extra * number(between.sensitivity.value) ** 2,
        number(s.specificity.standardError) ** 2 + extra * number(between.specificity.value) ** 2,
        number(s.covariance) + extra * both,
      ] as const;
    for (const [line, [first, second, cross]] of [
      [values.regions.confidence, variances(0)],
      [values.regions.prediction, variances(1)],
    ] as const) {
      expect(line.at(-1)).toEqual(line[0]);
      for (const point of line) {
        const x = number(point.logitSensitivity) - middle[0];
        const y = number(point.logitSpecificity) - middle[1];
        const squared =
          (second * x * x - 2 * cross * x * y + first * y * y) / (first * second - cross * cross);
        expectClose(squared, 2 * fQuantile(0.95, 2, 10), { relative: 1e-9 }, "squared distance");
      }
    }
    const normal = pooled(TWELVE, BINOMIAL, { reach: "normal", spread: "none" }).values;
    const [first, ,] = variances(0);
    const widest = Math.max(...normal.regions.confidence.map((point) => number(point.logitSensitivity)));
    expectClose(widest, middle[0] + Math.sqrt(first * chiSquareQuantile(0.95, 2)), { relative: 1e-9 });
  });

  it("is a curve through the summary point, with the slope of the two spreads", () => {
    const { curve } = values.regions;
    const [start, end] = [curve[0], curve.at(-1)];
    const slope =
      (number(end?.logitSensitivity) - number(start?.logitSensitivity)) /
      (number(end?.logitSpecificity) - number(start?.logitSpecificity));
    const { sensitivity, specificity } = values.betweenStudies;
    expectClose(slope, -number(sensitivity.value) / number(specificity.value), { relative: 1e-9 });
    const atMiddle = number(start?.logitSensitivity) + slope * (middle[1] - number(start?.logitSpecificity));
    expectClose(atMiddle, middle[0], { relative: 1e-9 }, "summary point on the curve");
    expectClose(number(start?.specificity), 79 / 80, { relative: 1e-9 }, "highest specificity seen");
    expectClose(number(end?.specificity), 88 / 100, { relative: 1e-9 }, "lowest specificity seen");
  });

  it("predicts a new study by t with ten degrees of freedom", () => {
    const wide = Math.hypot(
      number(values.summary.sensitivity.standardError),
      number(values.betweenStudies.sensitivity.value),
    );
    const logit = middle[0] - tQuantile(0.975, 10) * wide;
    expectClose(values.prediction.sensitivity.lower, 1 / (1 + Math.exp(-logit)), { relative: 1e-9 });
  });

  it("draws each study towards the middle, the smaller the more", () => {
    values.shrunken.forEach(({ sensitivity, diseased }, place) => {
      const seen = number(TWELVE[place]?.truePositives) / diseased;
      const pulled = number(sensitivity.value);
      expect(number(sensitivity.lower)).toBeLessThan(pulled);
      expect(Math.abs(pulled - 0.85)).toBeLessThan(Math.abs(seen - 0.85) + 0.03);
    });
  });
});

describe("what can't be had", () => {
  it("is said of one study, and of studies without people of a kind", () => {
    const one = pooled(TWELVE.slice(0, 1));
    expect(codes(one)).toContain("too_few_studies summary");
    expect(one.values.summary.sensitivity.proportion.value).toBeNull();
    expect(faultsOf(one)).toEqual([]);
    const without = TWELVE.map((study, place) =>
      place === 0 ? study : { ...study, truePositives: 0, falseNegatives: 0 },
    );
    expect(codes(pooled(without))).toContain("too_few_studies summary");
  });

  it("is said where no specificity is below 1: the logit is infinite", () => {
    const perfect = TWELVE.map((study) => ({ ...study, falsePositives: 0 }));
    const found = pooled(perfect);
    expect(codes(found)).toContain("no_variation summary");
    expect(found.notes[0]?.message).toContain("pooling.univariate");
    expect(faultsOf(found)).toEqual([]);
    // With 0.5 added there is an answer, and it depends on the 0.5.
    expect(pooled(perfect, ML).values.summary.specificity.proportion.value).toBeLessThan(1);
    const bare = pooled(perfect, { kind: "normal_ml", correction: "none" });
    expect(codes(bare)).toContain("zero_counts summary");
    expect(faultsOf(bare)).toEqual([]);
  });

  it("leaves out studies with nobody, and takes those with people of one kind", () => {
    const empty = {
      label: "closed",
      truePositives: 0,
      falsePositives: 0,
      falseNegatives: 0,
      trueNegatives: 0,
    };
    const half = { ...empty, label: "well people alone", falsePositives: 2, trueNegatives: 98 };
    const found = pooled([...TWELVE, empty, half]);
    expect(found.values.studies).toBe(13);
    expect(codes(found)).toContain("no_observations shrunken.12");
    expect(found.values.shrunken[12]?.sensitivity.value).toBeNull();
    expect(number(found.values.shrunken[13]?.sensitivity.value)).toBeGreaterThan(0.5);
    expect(faultsOf(found)).toEqual([]);
    const { logLikelihood } = pooled([...TWELVE, empty], ML, { spread: "none" }).values.fit;
    expectClose(logLikelihood, number(pooled(TWELVE, ML, { spread: "none" }).values.fit.logLikelihood), {
      relative: 1e-12,
    });
  });

  it("says of few studies that each proportion is better pooled by itself", () => {
    for (const likelihood of LIKELIHOODS) {
      for (const size of [2, 3, 4]) {
        const found = pooled(TWELVE.slice(0, size), likelihood);
        expect(codes(found)).toContain("few_studies betweenStudies");
        expect(faultsOf(found)).toEqual([]);
      }
    }
    expect(codes(pooled(TWELVE.slice(0, 2)))).toContain("too_few_studies prediction");
  });

  it("refuses a label given twice, levels that don't fit, and profile limits by the restricted likelihood", () => {
    const twice = TWELVE.map((study) => ({ ...study, label: "same" }));
    expect(() => pooled(twice)).toThrow(InputError);
    expect(() => pooled(twice)).toThrow("input.studies.1.label");
    expect(() => withCovariate(TWELVE, ["a", "b"])).toThrow("input.covariate.levels");
    const reml = { kind: "normal_reml" as const, correction: "all" as const };
    expect(() => pooled(TWELVE, reml, { interval: "profile" })).toThrow("options.interval");
    expect(() => pooled(TWELVE, BINOMIAL, { points: 0 })).toThrow("options.points");
  });
});

describe("a covariate", () => {
  it("finds levels that were drawn apart, in what they differ", () => {
    const near = drawnStudies(15, USUAL, 11);
    const far = drawnStudies(15, { ...USUAL, sensitivity: 0.8 }, 12).map((study) => ({
      ...study,
      label: `far ${study.label}`,
    }));
    const levels = [...near.map(() => "clinic"), ...far.map(() => "ward")];
    for (const likelihood of LIKELIHOODS) {
      const found = withCovariate([...near, ...far], levels, likelihood);
      const parts = found.values.covariate;
      expect(parts?.levels.map(({ label, studies }) => [label, studies])).toEqual([
        ["clinic", 15],
        ["ward", 15],
      ]);
      expect(parts?.both).toMatchObject({ degreesOfFreedom: 2 });
      expect(number(parts?.both.p)).toBeLessThan(1e-4);
      expect(number(parts?.sensitivityAlone.p)).toBeLessThan(1e-4);
      expect(number(parts?.specificityAlone.p)).toBeGreaterThan(0.01);
      expect(faultsOf(found)).toEqual([]);
    }
  });

  it("can't be compared with one level, a level per study, or a level that has no wrong result", () => {
    const all = (level: (place: number) => string) =>
      withCovariate(
        TWELVE,
        TWELVE.map((_, place) => level(place)),
      );
    expect(codes(all(() => "x"))).toContain("one_level covariate");
    expect(codes(all((place) => `${place}`))).toContain("too_many_levels covariate");
    const perfect = TWELVE.map((study, place) => (place < 3 ? { ...study, falsePositives: 0 } : study));
    const found = withCovariate(
      perfect,
      TWELVE.map((_, place) => (place < 3 ? "first" : "rest")),
    );
    expect(codes(found)).toContain("no_variation covariate");
    expect(number(found.values.summary.specificity.proportion.value)).toBeGreaterThan(0.9);
    for (const each of [found, all(() => "x")]) expect(faultsOf(each)).toEqual([]);
  });
});

describe("a border", () => {
  it("is named, and its limits reach inwards from it", () => {
    const along = TWELVE.map((study, place) => ({
      ...study,
      truePositives: 60 + 3 * place,
      falseNegatives: 40 - 3 * place,
      falsePositives: 3 + 3 * place,
      trueNegatives: 97 - 3 * place,
    }));
    const found = pooled(along);
    const { correlation } = found.values.betweenStudies;
    expect(correlation.value).toBe(-1);
    expect(correlation.lower).toBe(-1);
    expect(number(correlation.upper)).toBeGreaterThan(-1);
    expect(codes(found)).toContain("boundary betweenStudies.correlation");
    expect(faultsOf(found)).toEqual([]);
  });

  it("says where sensitivity and specificity rise together", () => {
    const rising = drawnStudies(30, { ...USUAL, spread: { ...USUAL.spread, correlation: 0.8 } }, 4);
    expect(codes(pooled(rising, BINOMIAL, { spread: "none" }))).toContain(
      "positive_correlation regions.curve",
    );
  });
});
