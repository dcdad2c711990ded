import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { beggGreenes } from "../../../src/methods/verification/begg-greenes.ts";
import { verificationBounds } from "../../../src/methods/verification/bounds.ts";
import { MEASURES, type Stratum } from "../../../src/methods/verification/fields.ts";
import { imputed } from "../../../src/methods/verification/imputed.ts";
import { sensitivity } from "../../../src/methods/verification/sensitivity.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { strataOf } from "./tables.ts";

const small = fc.array(fc.integer({ min: 0, max: 7 }), { minLength: 6, maxLength: 6 });
const tableOf = (numbers: readonly number[]) => {
  const { reactive, nonreactive } = strataOf(numbers)[0] as Stratum;
  return { reactive, nonreactive };
};

/** Every way in which the unverified may be diseased, one after the other. */
function everyCase(numbers: readonly number[]) {
  const [a = 0, c = 0, u = 0, b = 0, d = 0, w = 0] = numbers;
  const cases: Record<(typeof MEASURES)[number], [number, number]>[] = [];
  for (let among = 0; among <= u; among += 1) {
    for (let other = 0; other <= w; other += 1) {
      const [found, missed] = [a + among, b + other];
      const [wrong, cleared] = [c + u - among, d + w - other];
      cases.push({
        sensitivity: [found, found + missed],
        specificity: [cleared, cleared + wrong],
        prevalence: [found + missed, found + missed + wrong + cleared],
        ppv: [found, found + wrong],
        npv: [cleared, cleared + missed],
      });
    }
  }
  return cases;
}

describe("best and worst case of the unverified", () => {
  it("are the lowest and highest of every case written out, and their limits hold every case's", () => {
    fc.assert(
      fc.property(small, (numbers) => {
        fc.pre(numbers.some((people) => people > 0));
        const found = compute(verificationBounds, tableOf(numbers));
        expect(faultsOf(found)).toEqual([]);
        for (const measure of MEASURES) {
          const { lowest, highest } = found.values[measure];
          if (lowest.value === null || highest.value === null) continue;
          const shares = everyCase(numbers)
            .map((one) => one[measure])
            .filter(([, total]) => total > 0);
          const values = shares.map(([count, total]) => count / total);
          expect(lowest.value).toBe(Math.min(...values));
          expect(highest.value).toBe(Math.max(...values));
          for (const [count, total] of shares) {
            const { lower, upper } = proportionInterval(count, total);
            expect(lowest.lower).toBeLessThanOrEqual(lower + 1e-12);
            expect(highest.upper).toBeGreaterThanOrEqual(upper - 1e-12);
          }
        }
      }),
      { numRuns: 80, seed: 3 },
    );
  });

  it("hold the estimates of every other method", () => {
    const positive = fc.array(fc.integer({ min: 1, max: 80 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(positive, fc.double({ min: 0.05, max: 20, noNaN: true }), (numbers, ratio) => {
        const bounds = compute(verificationBounds, tableOf(numbers)).values;
        const strata = strataOf(numbers);
        const corrected = compute(beggGreenes, { strata }).values;
        const filled = compute(imputed, { strata }, { imputations: 100 }).values;
        for (const measure of MEASURES) {
          const criterion = { measure, threshold: 0.5, direction: "at_least" as const };
          const range = { lowest: Math.min(1, ratio), highest: Math.max(1, ratio), points: 2 };
          const supposed = compute(sensitivity, { strata, criterion }, range).values.map;
          const all = [
            corrected[measure].value,
            filled[measure].value,
            ...supposed.map(({ estimate }) => estimate.value),
          ];
          for (const value of all) {
            expect(value).toBeGreaterThanOrEqual((bounds[measure].lowest.value ?? 0) - 1e-12);
            expect(value).toBeLessThanOrEqual((bounds[measure].highest.value ?? 1) + 1e-12);
          }
        }
      }),
      { numRuns: 60, seed: 4 },
    );
  });

  it("narrow to the share stated, rounded outwards to whole people", () => {
    const table = tableOf([80, 10, 30, 4, 60, 101]);
    const { values } = compute(verificationBounds, table, {
      unverifiedReactive: { lowest: 0.5, highest: 0.9 },
      unverifiedNonreactive: { lowest: 0, highest: 0.02 },
    });
    // 2 % of 101 is 2.02, so 3 people; half of 30 is 15, nine tenths 27: by arithmetic.
    expect(values.sensitivity.lowest).toMatchObject({ count: 95, total: 102 });
    expect(values.sensitivity.highest).toMatchObject({ count: 107, total: 111 });
    expect(values.specificity.lowest).toMatchObject({ count: 158, total: 183 });
    expectClose(values.sensitivity.width, 107 / 111 - 95 / 102, { relative: 1e-12 });
  });

  it("have no width where everybody was verified", () => {
    const { values } = compute(verificationBounds, tableOf([45, 3, 0, 5, 147, 0]));
    expect(values.sensitivity.lowest).toEqual(values.sensitivity.highest);
    expect(values.sensitivity.width).toBe(0);
  });

  it("refuses a lowest share above the highest, and an empty table", () => {
    const share = { unverifiedReactive: { lowest: 0.5, highest: 0.4 } };
    expect(() => compute(verificationBounds, tableOf([1, 1, 1, 1, 1, 1]), share)).toThrow(
      "options.unverifiedReactive.lowest: expected at most the highest, 0.4",
    );
    expect(() => compute(verificationBounds, tableOf([0, 0, 0, 0, 0, 0]))).toThrow("at least one person");
  });
});
