import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { betweenVariance } from "../../../src/methods/pooling/between-variance.ts";
import { inverseVariance } from "../../../src/methods/pooling/inverse-variance.ts";
import { BETWEEN_ESTIMATORS } from "../../../src/methods/pooling/random-effects-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Pair = readonly [number, number];
const effectsOf = (pairs: readonly Pair[]) =>
  pairs.map(([effect, standardError], place) => ({ label: `study ${place + 1}`, effect, standardError }));
const codes = (notes: readonly { code: string; path: string }[]) =>
  notes.map(({ code, path }) => `${code} ${path}`);

describe("effects pooled by inverse variance", () => {
  it("estimate the scatter as the sample variance does where all errors are alike", () => {
    // With equal variances v all of them are closed forms: the sample variance (its n-divided kin for ML) less v.
    const values = [1, 2.5, 4, 4.5, 7];
    const effects = values.map((effect) => ({ effect, variance: 0.5 }));
    const mean = 3.8;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    for (const estimator of ["dersimonianLaird", "pauleMandel", "reml"] as const) {
      expectClose(betweenVariance(effects, estimator), squares / 4 - 0.5, { relative: 1e-11 }, estimator);
    }
    expectClose(betweenVariance(effects, "ml"), squares / 5 - 0.5, { relative: 1e-11 }, "ml");
    const found = compute(inverseVariance, {
      effects: effectsOf(values.map((v) => [v, Math.SQRT1_2])),
      scale: "as_given",
    });
    // The error of Hartung and Knapp is then that of a mean, whatever the scatter.
    for (const name of BETWEEN_ESTIMATORS) {
      const { hartungKnappError, summary } = found.values.models[name];
      expectClose(hartungKnappError, Math.sqrt(squares / 4 / 5), { relative: 1e-10 }, name);
      expectClose(summary.value, mean, { relative: 1e-12 }, name);
    }
  });

  it("move and stretch with the effects", () => {
    const pairs: readonly Pair[] = [
      [0.2, 0.2],
      [0.9, 0.3],
      [0.35, 0.15],
      [1.6, 0.4],
    ];
    const one = compute(inverseVariance, { effects: effectsOf(pairs), scale: "as_given" }).values;
    const other = compute(inverseVariance, {
      effects: effectsOf(pairs.map(([effect, error]) => [5 + 10 * effect, 10 * error])),
      scale: "as_given",
    }).values;
    expectClose(other.heterogeneity.q, one.heterogeneity.q ?? 0, { relative: 1e-10 });
    expectClose(other.betweenSd.upper, 10 * (one.betweenSd.upper ?? 0), { relative: 1e-9 });
    for (const name of BETWEEN_ESTIMATORS) {
      const [a, b] = [one.models[name], other.models[name]];
      expectClose(b.betweenSd, 10 * (a.betweenSd ?? 0), { relative: 1e-9 }, name);
      expectClose(b.hartungKnapp.lower, 5 + 10 * (a.hartungKnapp.lower ?? 0), { relative: 1e-9 }, name);
      expectClose(b.prediction.upper, 5 + 10 * (a.prediction.upper ?? 0), { relative: 1e-9 }, name);
    }
  });

  it("are turned back from logarithms and log odds", () => {
    const effects = effectsOf([
      [0.2, 0.2],
      [0.9, 0.3],
      [0.4, 0.25],
    ]);
    const ratio = compute(inverseVariance, { effects, scale: "log" }).values;
    const share = compute(inverseVariance, { effects, scale: "logit" }).values;
    const { summary, natural } = ratio.models.reml;
    expectClose(natural.summary.upper, Math.exp(summary.upper ?? 0), { relative: 1e-14 });
    expectClose(share.fixed.natural.lower, 1 / (1 + Math.exp(-(share.fixed.summary.lower ?? 0))), {
      relative: 1e-14,
    });
  });

  it("say what is missing: one study, two, a ratio beyond all numbers", () => {
    const one = compute(inverseVariance, { effects: effectsOf([[1, 0.5]]), scale: "log" });
    expect(faultsOf(one)).toEqual([]);
    expect(one.values.models.reml.summary.value).toBeNull();
    expect(one.values.fixed.summary.value).toBe(1);
    const two = compute(inverseVariance, {
      effects: effectsOf([
        [1, 0.5],
        [3, 0.5],
      ]),
      scale: "log",
    });
    expect(faultsOf(two)).toEqual([]);
    expect(codes(two.notes)).toContain("two_studies models.reml.prediction");
    const beyond = compute(inverseVariance, {
      effects: effectsOf([
        [700, 20],
        [702, 20],
        [720, 20],
      ]),
      scale: "log",
    });
    expect(faultsOf(beyond)).toEqual([]);
    expect(codes(beyond.notes)).toContain("unbounded fixed.natural.upper");
  });

  it("warn where the limits of Hartung and Knapp are the narrower ones", () => {
    const found = compute(inverseVariance, {
      effects: effectsOf([
        [1, 1],
        [1.1, 1],
        [0.9, 1],
      ]),
      scale: "as_given",
    });
    expect(codes(found.notes)).toEqual(
      expect.arrayContaining([
        "narrower_than_plain models.reml.hartungKnapp",
        "boundary models.reml.betweenSd",
      ]),
    );
  });

  it("are plain data, the likeliest scatter no worse than any on a fine grid", () => {
    const pair = fc.tuple(
      fc.double({ min: -50, max: 50, noNaN: true }),
      fc.double({ min: 0.01, max: 20, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(pair, { minLength: 1, maxLength: 10 }), (pairs) => {
        const found = compute(inverseVariance, { effects: effectsOf(pairs), scale: "as_given" });
        expect(faultsOf(found)).toEqual([]);
        if (pairs.length < 2) return;
        const best = heightOf(pairs, found.values.models.ml.betweenVariance ?? Number.NaN);
        for (let step = 0; step <= 60; step += 1) {
          expect(heightOf(pairs, (step * 1.7) ** 2)).toBeLessThanOrEqual(best + 1e-9 * (1 + Math.abs(best)));
        }
        const { lower, value, upper } = found.values.betweenSd;
        expect(lower ?? 0).toBeLessThanOrEqual(value ?? 0);
        expect(upper ?? 0).toBeGreaterThanOrEqual(value ?? 0);
      }),
      { numRuns: 150, seed: 3 },
    );
  });

  it("refuse a standard error of 0 and a label used twice", () => {
    expect(() => compute(inverseVariance, { effects: effectsOf([[1, 0]]), scale: "log" })).toThrow(
      "input.effects.0.standardError: expected a number above 0",
    );
    const twice = [...effectsOf([[1, 1]]), ...effectsOf([[2, 1]])];
    expect(() => compute(inverseVariance, { effects: twice, scale: "log" })).toThrow("input.effects.1.label");
  });
});

/** The normal log-likelihood written out, without constants. */
function heightOf(pairs: readonly Pair[], between: number): number {
  const weights = pairs.map(([, error]) => 1 / (error * error + between));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = pairs.reduce((sum, [effect], at) => sum + effect * (weights[at] as number), 0) / all;
  return pairs.reduce((sum, [effect], at) => {
    const weight = weights[at] as number;
    return sum + 0.5 * (Math.log(weight) - weight * (effect - mean) ** 2);
  }, 0);
}
