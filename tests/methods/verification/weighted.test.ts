import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { beggGreenes } from "../../../src/methods/verification/begg-greenes.ts";
import { MEASURES, RESULTS, type Stratum } from "../../../src/methods/verification/fields.ts";
import { weighted } from "../../../src/methods/verification/weighted.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { strataOf } from "./tables.ts";

const groupsOf = (strata: readonly Stratum[]) =>
  strata.flatMap((stratum) =>
    RESULTS.map((result) => ({ label: `${stratum.label} ${result}`, result, ...stratum[result] })),
  );

const counts = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 12, maxLength: 12 });

describe("verified people standing for others", () => {
  it("is the correction of Begg and Greenes, with its errors and limits, where groups are by result", () => {
    fc.assert(
      fc.property(counts, (numbers) => {
        fc.pre(numbers.some((people) => people > 0));
        const strata = strataOf(numbers);
        const one = compute(weighted, { groups: groupsOf(strata) });
        expect(faultsOf(one)).toEqual([]);
        const other = compute(beggGreenes, { strata }).values;
        for (const measure of MEASURES) {
          const expected = other[measure];
          for (const part of ["value", "lower", "upper"] as const) {
            const number = expected[part];
            if (number === null) expect(one.values[measure][part]).toBeNull();
            else
              expectClose(one.values[measure][part], number, { relative: 1e-10, absolute: 1e-15 }, measure);
          }
          const error = other.standardErrors[measure];
          if (error === null) expect(one.values.standardErrors[measure]).toBeNull();
          else expectClose(one.values.standardErrors[measure], error, { relative: 1e-10 }, measure);
        }
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  it("is less precise with the design's probabilities than with the shares seen", () => {
    const groups = [
      {
        label: "r",
        result: "reactive" as const,
        diseased: 90,
        nondiseased: 10,
        unverified: 100,
        probability: 0.5,
      },
      {
        label: "n",
        result: "nonreactive" as const,
        diseased: 5,
        nondiseased: 95,
        unverified: 900,
        probability: 0.1,
      },
    ];
    const seen = compute(weighted, { groups }).values;
    const designed = compute(weighted, { groups }, { probabilities: "design" }).values;
    for (const measure of MEASURES) {
      expectClose(designed[measure].value, seen[measure].value as number, { relative: 1e-13 }, measure);
      expect(designed.standardErrors[measure]).toBeGreaterThanOrEqual(
        (seen.standardErrors[measure] as number) * (1 - 1e-12),
      );
    }
    // (100 × 2 + 100 × 10)² / (100 × 4 + 100 × 100), by arithmetic.
    expectClose(designed.effectivePeople, 1200 ** 2 / 10_400, { relative: 1e-13 });
  });

  it("says where the design was hardly kept, and where chance verified nobody", () => {
    const groups = [
      {
        label: "r",
        result: "reactive" as const,
        diseased: 90,
        nondiseased: 10,
        unverified: 0,
        probability: 1,
      },
      {
        label: "n",
        result: "nonreactive" as const,
        diseased: 5,
        nondiseased: 195,
        unverified: 800,
        probability: 0.1,
      },
      {
        label: "few",
        result: "nonreactive" as const,
        diseased: 0,
        nondiseased: 0,
        unverified: 4,
        probability: 0.1,
      },
    ];
    const found = compute(weighted, { groups }, { probabilities: "design" });
    expect(faultsOf(found)).toEqual([]);
    const coded = found.notes.map(({ code, path }) => `${code} ${path}`);
    expect(coded).toContain("design_not_kept weights.1.probability");
    expect(coded).toContain("nobody_verified weights.2.weight");
    expect(coded).not.toContain("design_not_kept weights.2.probability");
  });

  it("can't be had where a group has nobody to stand for it", () => {
    const found = compute(weighted, { groups: groupsOf(strataOf([90, 10, 0, 0, 0, 900])) });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.sensitivity.value).toBeNull();
    expect(found.values.ppv.value).toBe(0.9);
    expect(found.values.weights[1]?.weight).toBeNull();
  });

  it("refuses a design without probabilities, one not kept at 1, an empty table, two groups of one name", () => {
    const group = { label: "r", result: "reactive" as const, diseased: 1, nondiseased: 1, unverified: 1 };
    const design = { probabilities: "design" as const };
    expect(() => compute(weighted, { groups: [group] }, design)).toThrow("input.groups.0.probability");
    expect(() => compute(weighted, { groups: [{ ...group, probability: 1 }] }, design)).toThrow(
      "input.groups.0.unverified: expected 0, as the design verifies everybody, received 1",
    );
    expect(() => compute(weighted, { groups: [{ ...group, probability: 0 }] })).toThrow(
      "input.groups.0.probability",
    );
    expect(() => compute(weighted, { groups: [group, group] })).toThrow("input.groups.1.label");
    const nobody = { ...group, diseased: 0, nondiseased: 0, unverified: 0 };
    expect(() => compute(weighted, { groups: [nobody] })).toThrow("at least one person");
  });
});
