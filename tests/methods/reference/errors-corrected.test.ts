import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/core/check.ts";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { referenceCorrected } from "../../../src/methods/reference/corrected.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { counted, expectedTable, NONE, TABLE, TRUTHS, value } from "./errors-cases.ts";

const few = { draws: 500 };

describe("reference.corrected", () => {
  it.each(TRUTHS)("gives back what reference.apparent was told (%#)", (truth) => {
    const cells = expectedTable(truth);
    const found = compute(
      referenceCorrected,
      {
        counts: {
          bothReactive: 500 * cells.bothReactive,
          kitOnly: 500 * cells.kitOnly,
          referenceOnly: 500 * cells.referenceOnly,
          neither: 500 * cells.neither,
        },
        reference: {
          sensitivity: value(truth.reference.sensitivity),
          specificity: value(truth.reference.specificity),
        },
        covariance: truth.covariance,
      },
      few,
    );
    const { corrected, prevalence } = found.values;
    expectClose(corrected.sensitivity.value, truth.kit.sensitivity, { relative: 1e-12 });
    expectClose(corrected.specificity.value, truth.kit.specificity, { relative: 1e-12 });
    expectClose(prevalence.value, truth.prevalence, { relative: 1e-12 });
    expect(faultsOf(found)).toEqual([]);
  });

  it("with a perfect reference is the plain proportion with its likelihood ratio interval", () => {
    for (const counts of [TABLE, { bothReactive: 50, kitOnly: 0, referenceOnly: 0, neither: 7 }]) {
      const { values } = compute(
        referenceCorrected,
        { counts, reference: { sensitivity: value(1), specificity: value(1) }, covariance: NONE },
        few,
      );
      const settings = { method: "likelihood_ratio", level: 0.95 } as const;
      const { bothReactive, kitOnly, referenceOnly, neither } = counts;
      const plain = proportionInterval(bothReactive, bothReactive + referenceOnly, settings);
      expectClose(values.corrected.sensitivity.lower, plain.lower as number, { relative: 1e-10 });
      expectClose(values.corrected.sensitivity.upper, plain.upper as number, { relative: 1e-10 });
      const other = proportionInterval(neither, neither + kitOnly, settings);
      expectClose(values.corrected.specificity.lower, other.lower as number, { relative: 1e-10 });
      expectClose(values.corrected.specificity.upper, other.upper as number, { relative: 1e-10 });
    }
  });

  it("exchanging positive and negative exchanges sensitivity and specificity", () => {
    const one = compute(
      referenceCorrected,
      {
        counts: TABLE,
        reference: { sensitivity: value(0.97), specificity: value(0.995) },
        covariance: { diseased: 0.01, nondiseased: 0.001 },
      },
      few,
    ).values;
    const other = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 789, kitOnly: 9, referenceOnly: 14, neither: 188 },
        reference: { sensitivity: value(0.995), specificity: value(0.97) },
        covariance: { diseased: 0.001, nondiseased: 0.01 },
      },
      few,
    ).values;
    expectClose(other.formula.specificity, one.formula.sensitivity as number, { relative: 1e-12 });
    expectClose(other.likelihood.specificity.lower, one.likelihood.sensitivity.lower as number, {
      relative: 1e-9,
    });
    expectClose(other.delta.sensitivityError, one.delta.specificityError as number, { relative: 1e-12 });
  });

  it("says null, why, and what would fit where the formula leaves 0..1", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 190, kitOnly: 10, referenceOnly: 3, neither: 797 },
        reference: { sensitivity: value(0.99), specificity: value(0.995) },
        covariance: NONE,
      },
      few,
    );
    expect(found.values.formula.sensitivity).toBeGreaterThan(1);
    expect(found.values.corrected.sensitivity).toMatchObject({ value: null, upper: 1 });
    expect(found.values.corrected.sensitivity.lower).toBeGreaterThan(0.9);
    expect(found.notes.map(({ code }) => code)).toContain("above_one");
    expect(found.values.admissible.referenceSpecificity).toBeCloseTo(797 / 800, 12);
    expect(faultsOf(found)).toEqual([]);
  });

  it("says null of everything where nothing within 0..1 fits the table", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 190, kitOnly: 10, referenceOnly: 3, neither: 797 },
        reference: { sensitivity: value(0.99), specificity: value(0.98) },
        covariance: NONE,
      },
      few,
    );
    expect(found.values.corrected.sensitivity).toEqual({ value: null, lower: null, upper: null });
    expect(found.notes.find(({ code }) => code === "above_one")?.message).toMatch(/hardly explains/);
    expect(faultsOf(found)).toEqual([]);
  });

  it("takes a table of less than one person, without score limits", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 0.188, kitOnly: 0.014, referenceOnly: 0.009, neither: 0.789 },
        reference: { sensitivity: value(1), specificity: value(1) },
        covariance: NONE,
      },
      few,
    );
    expectClose(found.values.corrected.sensitivity.value, 188 / 197, { relative: 1e-12 });
    expect(faultsOf(found)).toEqual([]);
  });

  it("the worst admissible reference is where a corrected number of people becomes 0", () => {
    const { admissible } = compute(
      referenceCorrected,
      { counts: TABLE, reference: { sensitivity: value(1), specificity: value(1) }, covariance: NONE },
      few,
    ).values;
    const at = (sensitivity: number, specificity: number) =>
      compute(
        referenceCorrected,
        {
          counts: TABLE,
          reference: { sensitivity: value(sensitivity), specificity: value(specificity) },
          covariance: NONE,
        },
        few,
      ).values.formula;
    const [sensitivity, specificity] = [
      admissible.referenceSensitivity as number,
      admissible.referenceSpecificity as number,
    ];
    expectClose(at(1, specificity).sensitivity, 1, { absolute: 1e-12 });
    expectClose(at(sensitivity, 1).specificity, 1, { absolute: 1e-12 });
  });

  it.each([
    ["a reference that says nothing", value(0.5), value(0.5), "uninformative_reference"],
    ["false positives alone", value(0.9), value(0.7), "incompatible"],
  ])("%s: null with a note", (_, sensitivity, specificity, code) => {
    const found = compute(
      referenceCorrected,
      { counts: TABLE, reference: { sensitivity, specificity }, covariance: NONE },
      few,
    );
    expect(found.values.corrected.sensitivity.value).toBeNull();
    expect(found.notes.map((one) => one.code)).toContain(code);
    expect(faultsOf(found)).toEqual([]);
  });

  it("says of a covariance that can't be which could be", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: TABLE,
        reference: { sensitivity: value(0.98), specificity: value(0.998) },
        covariance: { diseased: 0.2, nondiseased: 0 },
      },
      few,
    );
    expect(found.notes.find(({ code }) => code === "impossible_covariance")?.message).toMatch(/could be/);
    expect(faultsOf(found)).toEqual([]);
  });

  it("draws the same for the same seed, others for another; a wider reference widens", () => {
    const asked = (sensitivity: ReturnType<typeof counted>, seed: number) =>
      compute(
        referenceCorrected,
        {
          counts: TABLE,
          reference: { sensitivity, specificity: counted(398, 400) },
          covariance: NONE,
        },
        { draws: 5000, seed },
      ).values.simulated;
    expect(asked(counted(98, 100), 3)).toEqual(asked(counted(98, 100), 3));
    expect(asked(counted(98, 100), 3)).not.toEqual(asked(counted(98, 100), 4));
    const width = ({ specificity }: ReturnType<typeof asked>) =>
      (specificity.upper ?? 0) - (specificity.lower ?? 0);
    expect(width(asked(counted(18, 20), 3))).toBeGreaterThan(width(asked(counted(1800, 2000), 3)));
  });

  it("refuses a part larger than its whole, and a range that runs backwards", () => {
    const refused = (
      sensitivity: ReturnType<typeof counted> | { kind: "range"; low: number; high: number },
    ) =>
      compute(
        referenceCorrected,
        { counts: TABLE, reference: { sensitivity, specificity: value(1) }, covariance: NONE },
        few,
      );
    expect(() => refused(counted(5, 4))).toThrow(InputError);
    expect(() => refused({ kind: "range", low: 0.9, high: 0.8 })).toThrow(InputError);
  });

  it("gives plain values, ordered limits and a reason for every null, whatever the table", () => {
    const people = fc.oneof(fc.constantFrom(0, 1, 0.3, 1e-9, 1e9), fc.nat({ max: 300 }));
    const share = fc.oneof(fc.constantFrom(0, 0.5, 0.99, 1), fc.double({ min: 0, max: 1, noNaN: true }));
    const stated = fc.oneof(
      share.map(value),
      fc.nat({ max: 40 }).map((total) => counted(Math.floor(total * 0.9), total)),
      fc.constantFrom(
        { kind: "range" as const, low: 0.8, high: 1 },
        { kind: "beta" as const, a: 30, b: 0.5 },
      ),
    );
    const covariance = fc.constantFrom(0, 0, 0.01, -0.001, 0.25, -0.25);
    const asked = fc.record({
      counts: fc.record({ bothReactive: people, kitOnly: people, referenceOnly: people, neither: people }),
      reference: fc.record({ sensitivity: stated, specificity: stated }),
      covariance: fc.record({ diseased: covariance, nondiseased: covariance }),
    });
    fc.assert(
      fc.property(asked, (input) => {
        const found = compute(referenceCorrected, input, { draws: 100 });
        expect(faultsOf(found)).toEqual([]);
        expect(check(referenceCorrected.values, found.values)).toMatchObject({ ok: true });
        for (const { lower, upper } of Object.values(found.values.likelihood)) {
          expect(lower ?? 0).toBeLessThanOrEqual(upper ?? 0);
        }
      }),
      { numRuns: 400, seed: 5 },
    );
  });
});
