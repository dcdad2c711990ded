import { randomBinomial, randomNormal } from "d3-random";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { randomIntercept } from "../../../src/methods/pooling/random-intercept.ts";
import { univariate } from "../../../src/methods/pooling/univariate.ts";
import { gradientByDifferences, hessianOfGradient } from "../../../src/numeric/differences.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Pair = readonly [number, number];
const studiesOf = (pairs: readonly Pair[]) =>
  pairs.map(([count, total], place) => ({ label: `study ${place + 1}`, count, total }));
const pooled = (pairs: readonly Pair[], correction: "none" | "zero_cells" | "all" = "zero_cells") =>
  compute(univariate, { studies: studiesOf(pairs), correction });
const codes = (notes: readonly { code: string; path: string }[]) =>
  notes.map(({ code, path }) => `${code} ${path}`);

const SCATTERED: readonly Pair[] = [
  [45, 50],
  [62, 76],
  [28, 37],
  [90, 96],
  [33, 44],
  [71, 79],
];

describe("the likelihood of a random intercept", () => {
  it("has the derivatives that its differences have", () => {
    const model = randomIntercept(studiesOf(SCATTERED), 41);
    const at = Float64Array.of(1.4, 0.6);
    const { value, gradient, hessian } = model.locally(at);
    expectClose(value, model.value(at), { relative: 1e-14 });
    const slopes = gradientByDifferences(model.value, at);
    gradient.forEach((slope, k) => {
      expectClose(slope, slopes[k] as number, { relative: 1e-8, absolute: 1e-8 }, `slope ${k}`);
    });
    const bends = hessianOfGradient((there) => model.locally(there).gradient, at);
    hessian.forEach((bend, k) => {
      expectClose(bend, bends[k] as number, { relative: 1e-8, absolute: 1e-8 }, `bend ${k}`);
    });
  });

  it("adds up to 1 over all counts of a study", () => {
    for (const [mean, deviation] of [
      [0.3, 0.4],
      [-2, 1.2],
      [3, 0],
    ]) {
      const at = Float64Array.of(mean as number, deviation as number);
      const whole = Array.from({ length: 13 }, (_, count) =>
        Math.exp(randomIntercept([{ count, total: 12 }], 61).value(at)),
      ).reduce((sum, share) => sum + share, 0);
      expectClose(whole, 1, { relative: 1e-8 });
    }
  });
});

describe("one proportion over studies", () => {
  it("is symmetrical: counting the others turns everything round", () => {
    const one = pooled(SCATTERED).values;
    const other = pooled(SCATTERED.map(([count, total]) => [total - count, total] as const)).values;
    expectClose(other.binomial.logOdds.value, -(one.binomial.logOdds.value ?? 0), { relative: 1e-8 });
    expectClose(other.binomial.profile.lower, 1 - (one.binomial.profile.upper ?? 0), { relative: 1e-7 });
    expectClose(other.binomial.betweenSd.value, one.binomial.betweenSd.value ?? 0, { relative: 1e-7 });
    expectClose(other.binomial.prediction.upper, 1 - (one.binomial.prediction.lower ?? 0), {
      relative: 1e-7,
    });
  });

  it("shrinks every study towards the middle, small ones more", () => {
    const { list, binomial } = pooled([...SCATTERED, [4, 10]]).values;
    const middle = binomial.proportion.value ?? 0;
    for (const { proportion, shrunken } of list) {
      const [seen, drawn] = [(proportion.value ?? 0) - middle, (shrunken ?? 0) - middle];
      expect(Math.abs(drawn)).toBeLessThan(Math.abs(seen));
      expect(seen * drawn).toBeGreaterThanOrEqual(0);
    }
    const pull = list.map(
      ({ proportion, shrunken }) => ((shrunken ?? 0) - middle) / ((proportion.value ?? 0) - middle),
    );
    expect(pull.at(-1)).toBeLessThan(pull[3] as number);
  });

  it("is the pooled proportion where studies scatter less than chance, and says so", () => {
    const found = pooled([
      [40, 50],
      [41, 50],
      [39, 50],
      [40, 50],
      [40, 50],
      [40, 50],
    ]);
    expect(faultsOf(found)).toEqual([]);
    const { binomial, common, equality } = found.values;
    expect(binomial.betweenSd.value).toBe(0);
    expect(binomial.betweenSd.lower).toBe(0);
    expect(binomial.betweenSd.upper).toBeGreaterThan(0.05);
    expectClose(binomial.proportion.value, 0.8, { relative: 1e-9 });
    expectClose(binomial.standardError, Math.sqrt(1 / (300 * 0.8 * 0.2)), { relative: 1e-9 });
    expectClose(binomial.logLikelihood, common.logLikelihood ?? 0, { relative: 1e-12 });
    expect(equality).toEqual({ chiSquare: 0, p: 1 });
    expect(codes(found.notes)).toContain("boundary binomial.betweenSd");
  });

  it("gives the exact interval of all together where nobody differs", () => {
    const found = pooled(
      [
        [30, 30],
        [20, 20],
        [50, 50],
      ],
      "none",
    );
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.binomial.proportion.value).toBeNull();
    expect(found.values.approximate).toBeNull();
    // Clopper and Pearson: the lower limit of n of n is (1 - level) / 2 to the power 1 / n.
    expectClose(found.values.common.proportion.lower, 0.025 ** (1 / 100), { relative: 1e-12 });
    expect(codes(found.notes)).toEqual(
      expect.arrayContaining(["all_alike binomial", "unbounded common.logOdds", "zero_count approximate"]),
    );
  });

  it("names what one, two or few studies can't tell", () => {
    const one = pooled([[9, 10]]);
    expect(faultsOf(one)).toEqual([]);
    expect(codes(one.notes)).toContain("one_study binomial");
    expect(one.values.common.proportion.value).toBe(0.9);
    const two = pooled(SCATTERED.slice(0, 2));
    expect(faultsOf(two)).toEqual([]);
    expect(codes(two.notes)).toEqual(
      expect.arrayContaining(["two_studies binomial.prediction", "few_studies binomial.betweenSd"]),
    );
    const split = pooled([
      [5, 5],
      [0, 6],
      [7, 7],
    ]);
    expect(faultsOf(split)).toEqual([]);
    expect(codes(split.notes)).toContain("all_or_none binomial");
  });

  it("leaves out studies without people, in the open", () => {
    const found = pooled([[0, 0], ...SCATTERED]);
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toContain("no_observations list.0");
    expect(found.values.studies).toBe(6);
    expect(found.values.binomial).toEqual(pooled(SCATTERED).values.binomial);
  });

  it("says where few places are not enough", () => {
    const rough = compute(
      univariate,
      {
        studies: studiesOf([
          [0, 40],
          [38, 40],
          [40, 40],
          [3, 40],
          [20, 40],
        ]),
        correction: "all",
      },
      { points: 1 },
    );
    expect(faultsOf(rough)).toEqual([]);
    expect(codes(rough.notes)).toContain("rough_quadrature binomial.logLikelihood");
  });

  it("is plain data, whatever the counts", () => {
    const study = fc
      .tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 }))
      .map(([count, rest]): Pair => [count, count + rest]);
    fc.assert(
      fc.property(
        fc.array(study, { minLength: 1, maxLength: 8 }),
        fc.constantFrom("none" as const, "zero_cells" as const, "all" as const),
        (pairs, correction) => {
          const found = compute(univariate, { studies: studiesOf(pairs), correction }, { points: 15 });
          expect(faultsOf(found)).toEqual([]);
          const { proportion, profile, betweenSd } = found.values.binomial;
          if (proportion.value === null) return;
          expect(proportion.lower ?? 1).toBeLessThanOrEqual(proportion.value);
          expect(profile.lower ?? 0).toBeLessThanOrEqual(proportion.value);
          expect(profile.upper ?? 1).toBeGreaterThanOrEqual(proportion.value);
          expect(betweenSd.lower ?? 0).toBeLessThanOrEqual(betweenSd.value ?? 0);
        },
      ),
      { numRuns: 60, seed: 5 },
    );
  });

  it("finds a drawn truth, its limits as often as they say", () => {
    const [mean, deviation, sites, people, repeats] = [2, 0.7, 20, 60, 200];
    const random = randomStream(20263, 1);
    const normal = randomNormal.source(random)(mean, deviation);
    const binomial = randomBinomial.source(random);
    let [held, heldSd, sum] = [0, 0, 0];
    for (let repeat = 0; repeat < repeats; repeat += 1) {
      const pairs = Array.from({ length: sites }, (): Pair => {
        const share = 1 / (1 + Math.exp(-normal()));
        return [binomial(people, share)(), people];
      });
      const { logOdds, profile, betweenSd } = compute(
        univariate,
        { studies: studiesOf(pairs), correction: "none" },
        { points: 15 },
      ).values.binomial;
      const truth = 1 / (1 + Math.exp(-mean));
      if ((profile.lower ?? 0) <= truth && truth <= (profile.upper ?? 1)) held += 1;
      if ((betweenSd.lower ?? 0) <= deviation && deviation <= (betweenSd.upper ?? 9)) heldSd += 1;
      sum += logOdds.value ?? 0;
    }
    // Three standard errors of a share of 0.95 in 200 are 0.046; of the mean 0.041 plus a bias of about 0.02.
    expect(held / repeats).toBeGreaterThan(0.9);
    expect(heldSd / repeats).toBeGreaterThan(0.9);
    expect(Math.abs(sum / repeats - mean)).toBeLessThan(0.06);
  });

  it.each([
    [[[3, 2]], "input.studies.0.count: expected at most the total, 2, received 3"],
    [[], "input.studies: expected one study or more"],
  ])("refuses %j", (pairs, message) => {
    expect(() => pooled(pairs as unknown as readonly Pair[])).toThrow(message);
  });

  it("refuses two studies of one label", () => {
    const studies = [
      { label: "a", count: 1, total: 2 },
      { label: "a", count: 1, total: 2 },
    ];
    expect(() => compute(univariate, { studies, correction: "none" })).toThrow("input.studies.1.label");
  });
});
