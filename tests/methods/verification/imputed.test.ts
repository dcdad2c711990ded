import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { cellsOf, MEASURES } from "../../../src/methods/verification/fields.ts";
import { imputed } from "../../../src/methods/verification/imputed.ts";
import { imputation, imputations } from "../../../src/methods/verification/imputed-draws.ts";
import { combinedScore } from "../../../src/methods/verification/rubin.ts";
import { plainLogBeta } from "../../../src/numeric/gamma-function.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { strataOf } from "./tables.ts";

/** Beta-binomial probabilities of 0..people, by the textbook formula. */
function betaBinomial(people: number, a: number, b: number): number[] {
  let ways = 1;
  return Array.from({ length: people + 1 }, (_, at) => {
    if (at > 0) ways = (ways * (people - at + 1)) / at;
    return ways * Math.exp(plainLogBeta(at + a, people - at + b) - plainLogBeta(a, b));
  });
}

/** Mean and variance of the completed sensitivity over every pair of diseased among the unverified. */
function enumerated([a = 0, c = 0, u = 0, b = 0, d = 0, w = 0]: readonly number[]) {
  const among = betaBinomial(u, a + 0.5, c + 0.5);
  const other = betaBinomial(w, b + 0.5, d + 0.5);
  let mean = 0;
  let square = 0;
  for (const [i, one] of among.entries()) {
    for (const [j, two] of other.entries()) {
      const share = (a + i) / (a + i + b + j);
      mean += one * two * share;
      square += one * two * share * share;
    }
  }
  return { mean, variance: square - mean * mean };
}

describe("tables completed at random", () => {
  it.each([[[20, 4, 15, 3, 30, 40]], [[8, 1, 0, 0, 12, 60]], [[3, 3, 30, 2, 9, 5]]])(
    "have the mean and variance of every completed table weighed: %o",
    (numbers) => {
      const tables = 20_000;
      const { values } = compute(imputed, { strata: strataOf(numbers) }, { imputations: tables });
      const { mean, variance } = enumerated(numbers);
      expectClose(values.sensitivity.value, mean, { absolute: 4.5 * Math.sqrt(variance / tables) });
      expectClose(values.sensitivity.between, variance, { relative: 0.06 });
      expectClose(values.sensitivity.simulationError, Math.sqrt(variance / tables), { relative: 0.03 });
    },
  );

  it("are the same, table by table, however many are asked for", () => {
    const cells = cellsOf(strataOf([20, 4, 15, 3, 30, 40]));
    const all = imputations(cells, 50, 9);
    expect(imputation(cells, 9, 37).sensitivity).toEqual(all.sensitivity[37]);
    const again = compute(imputed, { strata: strataOf([20, 4, 15, 3, 30, 40]) }, { seed: 9 });
    expect(compute(imputed, { strata: strataOf([20, 4, 15, 3, 30, 40]) }, { seed: 9 })).toEqual(again);
    expect(compute(imputed, { strata: strataOf([20, 4, 15, 3, 30, 40]) }, { seed: 10 }).values).not.toEqual(
      again.values,
    );
  });

  it("have limits where nothing was missed among the verified", () => {
    const found = compute(imputed, { strata: strataOf([50, 2, 10, 0, 80, 320]) });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.sensitivity.lower).toBeGreaterThan(0.7);
    expect(found.values.sensitivity.upper).toBeLessThanOrEqual(1);
    const logit = compute(imputed, { strata: strataOf([50, 2, 10, 0, 80, 320]) }, { interval: "logit" });
    expect(faultsOf(logit)).toEqual([]);
    expect(logit.values.sensitivity.value).toBeNull();
    expect(logit.notes.find(({ path }) => path === "sensitivity")).toBeDefined();
  });

  it("can't be had where nobody nonreactive was verified", () => {
    const found = compute(imputed, { strata: strataOf([90, 10, 0, 0, 0, 900]) });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.sensitivity.value).toBeNull();
    expectClose(found.values.ppv.value, 0.9, { relative: 1e-13 });
    expect(found.notes.find(({ path }) => path === "npv")?.code).toBe("nobody_verified");
  });

  it("say nothing where they say now 0, now 1", () => {
    const parts = [0, 1, 1].map((count) => ({ count, total: 1 }));
    expect(combinedScore(parts, 0.95)).toMatchObject({ lower: 0, upper: 1 });
  });

  it("are plain data, whatever the counts", () => {
    const counts = fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(counts, fc.constantFrom("score" as const, "logit" as const), (numbers, interval) => {
        fc.pre(numbers.some((people) => people > 0));
        const found = compute(imputed, { strata: strataOf(numbers) }, { interval, imputations: 100 });
        expect(faultsOf(found)).toEqual([]);
        for (const measure of MEASURES) {
          const { value, lower, upper } = found.values[measure];
          if (value === null || lower === null || upper === null) continue;
          expect(lower).toBeGreaterThanOrEqual(0);
          expect(lower).toBeLessThanOrEqual(value + 1e-12);
          expect(upper).toBeGreaterThanOrEqual(value - 1e-12);
          expect(upper).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 150, seed: 6 },
    );
  });
});
