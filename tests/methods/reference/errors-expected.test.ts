import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { referenceApparent } from "../../../src/methods/reference/apparent.ts";
import { referenceComposite } from "../../../src/methods/reference/composite.ts";
import { referenceDiscrepant } from "../../../src/methods/reference/discrepant.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { INDEPENDENT } from "./errors-cases.ts";

describe("reference.apparent", () => {
  it("is the truth against a reference that never errs", () => {
    const { at } = compute(referenceApparent, {
      kit: { sensitivity: 0.95, specificity: 0.99 },
      reference: { sensitivity: 1, specificity: 1 },
      dependence: INDEPENDENT,
      prevalences: [0.02, 0.5],
    }).values;
    for (const entry of at) {
      expectClose(entry.sensitivity, 0.95, { relative: 1e-12 });
      expectClose(entry.specificity, 0.99, { relative: 1e-12 });
      expectClose(entry.presentAmongPositive, 1, { relative: 1e-12 });
    }
  });

  it("says null with a note where the reference calls nobody positive", () => {
    const found = compute(referenceApparent, {
      kit: { sensitivity: 0.95, specificity: 0.99 },
      reference: { sensitivity: 0.9, specificity: 1 },
      dependence: INDEPENDENT,
      prevalences: [0],
    });
    expect(found.values.at[0]?.sensitivity).toBeNull();
    expect(faultsOf(found)).toEqual([]);
  });

  it("refuses a covariance beyond the bounds", () => {
    const dependence = { kind: "covariance" as const, diseased: 0.07, nondiseased: 0 };
    const kit = { sensitivity: 0.92, specificity: 0.96 };
    const reference = { sensitivity: 0.8, specificity: 0.99 };
    const ask = () => compute(referenceApparent, { kit, reference, dependence, prevalences: [0.1] });
    expect(ask).toThrow(/0\.063999/);
  });
});

describe("reference.composite", () => {
  it("says null with a note where both are never positive", () => {
    const found = compute(referenceComposite, {
      kit: { sensitivity: 0.9, specificity: 0.9 },
      first: { sensitivity: 0.5, specificity: 1 },
      second: { sensitivity: 0, specificity: 1 },
      dependence: INDEPENDENT,
      prevalence: 0.3,
    });
    expect(found.values.bothPositive.apparentSensitivity).toBeNull();
    expect(faultsOf(found)).toEqual([]);
  });

  it("two copies of one test that always agree are that test", () => {
    const test = { sensitivity: 0.8, specificity: 0.95 };
    const { anyPositive, firstAlone } = compute(referenceComposite, {
      kit: { sensitivity: 0.9, specificity: 0.9 },
      first: test,
      second: test,
      dependence: { kind: "phi", diseased: 1, nondiseased: 1 },
      prevalence: 0.3,
    }).values;
    expectClose(anyPositive.sensitivity, 0.8, { relative: 1e-12 });
    expectClose(anyPositive.apparentSpecificity, firstAlone.apparentSpecificity as number, {
      relative: 1e-12,
    });
  });
});

describe("reference.discrepant", () => {
  it("says in title, caution and notes that it is no analysis", () => {
    expect(referenceDiscrepant.title).toMatch(/never an analysis/);
    expect(referenceDiscrepant.caution).toMatch(/never report/);
    const found = compute(referenceDiscrepant, {
      kit: { sensitivity: 0.9, specificity: 0.97 },
      comparator: { sensitivity: 0.8, specificity: 0.99 },
      resolver: { sensitivity: 1, specificity: 1 },
      prevalence: 0,
    });
    expect(found.notes.map(({ code }) => code)).toContain("teaching_only");
    expect(faultsOf(found)).toEqual([]);
  });

  it("never takes from the kit with a resolver that never errs", () => {
    for (const prevalence of [0.01, 0.1, 0.5, 0.9]) {
      for (const sensitivity of [0.6, 0.8, 0.95]) {
        for (const specificity of [0.9, 0.99]) {
          const { gain } = compute(referenceDiscrepant, {
            kit: { sensitivity, specificity },
            comparator: { sensitivity: 0.85, specificity: 0.98 },
            resolver: { sensitivity: 1, specificity: 1 },
            prevalence,
          }).values;
          expect(gain.sensitivity).toBeGreaterThan(-1e-12);
          expect(gain.specificity).toBeGreaterThan(-1e-12);
        }
      }
    }
  });
});
