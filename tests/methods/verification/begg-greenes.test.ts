import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { fourfold } from "../../../src/methods/accuracy/fourfold.ts";
import { beggGreenes } from "../../../src/methods/verification/begg-greenes.ts";
import { drawnMeasures } from "../../../src/methods/verification/drawn-measures.ts";
import { cellsOf, MEASURES } from "../../../src/methods/verification/fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { strataOf } from "./tables.ts";

const counts = (length: number) =>
  fc.array(fc.integer({ min: 0, max: 60 }), { minLength: length, maxLength: length });

describe("accuracy where only some were verified", () => {
  it("is the plain fourfold table's where everybody was verified", () => {
    const { values, notes } = compute(beggGreenes, { strata: strataOf([45, 3, 0, 5, 147, 0]) });
    const plain = compute(fourfold, {
      truePositives: 45,
      falsePositives: 3,
      falseNegatives: 5,
      trueNegatives: 147,
    }).values;
    expectClose(values.sensitivity.value, plain.sensitivity.value as number, { relative: 1e-14 });
    expectClose(values.npv.value, plain.apparentNpv.value as number, { relative: 1e-14 });
    // The binomial error, by arithmetic: sqrt(.9 × .1 / 50).
    expectClose(values.standardErrors.sensitivity, Math.sqrt(0.0018), { relative: 1e-13 });
    expectClose(values.standardErrors.ppv, Math.sqrt((45 * 3) / 48 ** 3), { relative: 1e-13 });
    expect(notes.map(({ code }) => code)).toContain("all_verified");
  });

  it("is what a table with every unverified person written out gives", () => {
    // 1 in 4 of the reactive and 1 in 10 of the nonreactive verified: everyone stands for 4, or 10.
    const { values } = compute(beggGreenes, { strata: strataOf([30, 10, 120, 6, 94, 900]) });
    const written = compute(fourfold, {
      truePositives: 120,
      falsePositives: 40,
      falseNegatives: 60,
      trueNegatives: 940,
    }).values;
    const pairs = [
      ["sensitivity", written.sensitivity],
      ["specificity", written.specificity],
      ["ppv", written.apparentPpv],
      ["npv", written.apparentNpv],
    ] as const;
    for (const [measure, { value, total }] of pairs) {
      const share = value as number;
      expectClose(values[measure].value, share, { relative: 1e-14 }, measure);
      // Less is known than if everybody had been verified.
      expect(values.standardErrors[measure]).toBeGreaterThan(Math.sqrt((share * (1 - share)) / total));
    }
  });

  it("adds strata up: two like one, and one without unverified people unlike the other", () => {
    const one = compute(beggGreenes, { strata: strataOf([30, 10, 120, 6, 94, 900]) }).values;
    const two = compute(beggGreenes, {
      strata: strataOf([15, 5, 60, 3, 47, 450, 15, 5, 60, 3, 47, 450]),
    }).values;
    for (const measure of MEASURES) {
      expectClose(two[measure].value, one[measure].value as number, { relative: 1e-13 }, measure);
      const error = one.standardErrors[measure] as number;
      expectClose(two.standardErrors[measure], error, { relative: 1e-13 }, measure);
    }
  });

  it("is not to be had where nobody nonreactive was verified: bounds and the PPV remain", () => {
    const found = compute(beggGreenes, { strata: strataOf([90, 10, 0, 0, 0, 900]) });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.sensitivity.value).toBeNull();
    expect(found.values.specificity.value).toBeNull();
    expect(found.values.prevalence.value).toBeNull();
    expect(found.values.npv.value).toBeNull();
    expect(found.values.ppv.value).toBe(0.9);
    // 90 / (90 + 900) and 900 / (900 + 10), or 0 / 10: by arithmetic.
    expect(found.values.bounds).toEqual({
      sensitivity: { lowest: 90 / 990, highest: 1 },
      specificity: { lowest: 0, highest: 900 / 910 },
    });
    const note = found.notes.find(({ path }) => path === "sensitivity");
    expect(note?.code).toBe("nobody_verified");
    expect(note?.message).toContain("not one of the 900 nonreactive people");
  });

  it("has limits at an estimate of 1 by simulation alone", () => {
    const strata = strataOf([50, 2, 10, 0, 80, 320]);
    for (const interval of ["logit", "delta"] as const) {
      const found = compute(beggGreenes, { strata }, { interval });
      expect(faultsOf(found)).toEqual([]);
      expect(found.values.sensitivity).toEqual({ value: 1, lower: null, upper: null });
    }
    const found = compute(beggGreenes, { strata }, { interval: "simulated", draws: 4000 });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.sensitivity.lower).toBeGreaterThan(0.8);
    expect(found.values.sensitivity.lower).toBeLessThan(0.99);
  });

  it("cuts limits of the delta method that leave 0 to 1, and says so", () => {
    const found = compute(beggGreenes, { strata: strataOf([50, 2, 10, 1, 80, 3]) }, { interval: "delta" });
    expect(found.values.sensitivity.upper).toBe(1);
    expect(found.notes).toContainEqual(
      expect.objectContaining({ code: "truncated", path: "sensitivity.upper" }),
    );
  });

  it("draws the same whatever is drawn beside, and about the delta method's limits in a large study", () => {
    const strata = strataOf([2310, 320, 1660, 270, 540, 1400]);
    const cells = cellsOf(strata);
    const few = drawnMeasures(cells, 100, 7).sensitivity as Float64Array;
    const many = drawnMeasures(cells, 500, 7).sensitivity as Float64Array;
    expect([...many.subarray(0, 100)]).toEqual([...few]);
    const logit = compute(beggGreenes, { strata }).values;
    const drawn = compute(beggGreenes, { strata }, { interval: "simulated", draws: 20_000 }).values;
    for (const measure of MEASURES) {
      const error = logit.standardErrors[measure] as number;
      for (const side of ["lower", "upper"] as const) {
        // A percentile of 20,000 draws has an error of about 0.02 standard errors.
        expectClose(
          drawn[measure][side],
          logit[measure][side] as number,
          { absolute: 0.12 * error },
          measure,
        );
      }
    }
  });

  it("keeps within the bounds and is plain data, whatever the counts", () => {
    fc.assert(
      fc.property(counts(12), fc.constantFrom("logit" as const, "delta" as const), (numbers, interval) => {
        fc.pre(numbers.some((people) => people > 0));
        const found = compute(beggGreenes, { strata: strataOf(numbers) }, { interval });
        expect(faultsOf(found)).toEqual([]);
        for (const measure of ["sensitivity", "specificity"] as const) {
          const { value, lower, upper } = found.values[measure];
          if (value === null) continue;
          const { lowest, highest } = found.values.bounds[measure];
          expect(value).toBeGreaterThanOrEqual((lowest ?? 0) - 1e-12);
          expect(value).toBeLessThanOrEqual((highest ?? 1) + 1e-12);
          if (lower === null || upper === null) continue;
          expect(lower).toBeLessThanOrEqual(value);
          expect(upper).toBeGreaterThanOrEqual(value);
        }
      }),
      { numRuns: 300, seed: 11 },
    );
  });

  it.each([
    [[0, 0, 0, 0, 0, 0], "input.strata: expected at least one person"],
    [[1.5, 0, 0, 0, 0, 0], "input.strata.0.reactive.diseased: expected a whole number"],
    [[-1, 0, 0, 0, 0, 0], "input.strata.0.reactive.diseased: expected 0 or more"],
    [[1, 0, 2e9, 0, 0, 0], "input.strata.0.reactive.unverified: expected at most 1,000,000,000"],
  ])("refuses %o", (numbers, message) => {
    expect(() => compute(beggGreenes, { strata: strataOf(numbers) })).toThrow(InputError);
    expect(() => compute(beggGreenes, { strata: strataOf(numbers) })).toThrow(message);
  });

  it("refuses two strata of one name", () => {
    const [stratum] = strataOf([1, 1, 1, 1, 1, 1]);
    const twice = [stratum, stratum].flatMap((one) => one ?? []);
    expect(() => compute(beggGreenes, { strata: twice })).toThrow("input.strata.1.label");
  });
});
