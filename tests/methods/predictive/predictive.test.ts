import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { atPrevalence } from "../../../src/methods/predictive/at-prevalence.ts";
import { expectedCounts } from "../../../src/methods/predictive/expected-counts.ts";
import { lowestPrevalence } from "../../../src/methods/predictive/lowest-prevalence.ts";
import { overPrevalences } from "../../../src/methods/predictive/over-prevalences.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const group = fc
  .oneof(fc.constant(0), fc.integer({ min: 1, max: 400 }))
  .chain((total) => fc.record({ total: fc.constant(total), right: fc.integer({ min: 0, max: total }) }));
const STUDIES = fc.record({ sick: group, well: group }).map(({ sick, well }) => ({
  truePositives: sick.right,
  positives: sick.total,
  trueNegatives: well.right,
  negatives: well.total,
}));
const PREVALENCES = fc.oneof(fc.constantFrom(0, 1), fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }));
const METHODS = fc.constantFrom("logit" as const, "adjusted_logit" as const, "standard" as const);

describe("predictive values at a prevalence", () => {
  it("are finite and ordered in 0..1, or explained, for every study and prevalence", () => {
    fc.assert(
      fc.property(STUDIES, PREVALENCES, METHODS, (study, prevalence, method) => {
        const found = compute(atPrevalence, { ...study, prevalence }, { method });
        expect(faultsOf(found)).toEqual([]);
        for (const { value, lower, upper } of [found.values.ppv, found.values.npv]) {
          if (value === null || lower === null || upper === null) continue;
          expect(0 <= lower && lower <= value && value <= upper && upper <= 1).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it("agree with counting a population of people", () => {
    const parts = fc.record({
      sick: fc.integer({ min: 1, max: 50 }),
      well: fc.integer({ min: 1, max: 50 }),
      study: STUDIES,
    });
    fc.assert(
      fc.property(parts, ({ sick, well, study }) => {
        if (study.positives === 0 || study.negatives === 0) return;
        // A population in which every share is a whole number of people.
        const base = BigInt(study.positives) * BigInt(study.negatives);
        const [present, absent] = [base * BigInt(sick), base * BigInt(well)];
        const truePositives = (present / BigInt(study.positives)) * BigInt(study.truePositives);
        const trueNegatives = (absent / BigInt(study.negatives)) * BigInt(study.trueNegatives);
        const [reactive, nonreactive] = [
          truePositives + absent - trueNegatives,
          trueNegatives + present - truePositives,
        ];
        const prevalence = sick / (sick + well);
        const { ppv, npv } = compute(atPrevalence, { ...study, prevalence }).values;
        const share = (part: bigint, whole: bigint) => Number(part) / Number(whole);
        if (reactive > 0n) expectClose(ppv.value, share(truePositives, reactive), { relative: 1e-12 }, "ppv");
        else expect(ppv.value).toBeNull();
        if (nonreactive > 0n)
          expectClose(npv.value, share(trueNegatives, nonreactive), { relative: 1e-12 }, "npv");
        else expect(npv.value).toBeNull();
      }),
      { numRuns: 500 },
    );
  });

  it("rise (PPV) and fall (NPV) with prevalence, with their limits", () => {
    const prevalences = Array.from({ length: 99 }, (_, step) => (step + 1) / 100);
    const study = { truePositives: 96, positives: 104, trueNegatives: 192, negatives: 196 };
    const { points } = compute(overPrevalences, { ...study, prevalences }).values;
    points.slice(1).forEach(({ ppv, npv }, at) => {
      const before = points[at];
      for (const side of ["value", "lower", "upper"] as const) {
        expect(ppv[side]).toBeGreaterThan(before?.ppv[side] as number);
        expect(npv[side]).toBeLessThan(before?.npv[side] as number);
      }
    });
  });

  it("fall back to the adjusted interval where no false positive was seen, and say so", () => {
    const study = { truePositives: 90, positives: 100, trueNegatives: 100, negatives: 100, prevalence: 0.02 };
    const { values, notes } = compute(atPrevalence, study);
    expect(values.ppv.value).toBe(1);
    expect(values.ppv.lower).toBeGreaterThan(0);
    expect(values.ppv.lower).toBeLessThan(1);
    expect(notes.map(({ code }) => code)).toContain("adjusted_logit");
  });

  it("say a repeated note once for all points", () => {
    const study = { truePositives: 9, positives: 9, trueNegatives: 100, negatives: 100 };
    const found = compute(overPrevalences, { ...study, prevalences: [0, 0.1, 0.2, 0.3] });
    expect(faultsOf(found)).toEqual([]);
    expect(found.notes.length).toBeLessThan(10);
  });

  it("refuse more true positives than positives", () => {
    const study = { truePositives: 3, positives: 2, trueNegatives: 1, negatives: 1, prevalence: 0.1 };
    expect(() => compute(atPrevalence, study)).toThrow(InputError);
  });
});

describe("the lowest prevalence", () => {
  it("gives the target back at that prevalence, for estimate and lower limit", () => {
    const targets = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    const methods = fc.constantFrom("logit" as const, "adjusted_logit" as const);
    fc.assert(
      fc.property(STUDIES, targets, methods, (study, target, method) => {
        const found = compute(lowestPrevalence, { ...study, target }, { method });
        expect(faultsOf(found)).toEqual([]);
        const { atEstimate, atLowerLimit } = found.values;
        if (atEstimate === null || atLowerLimit === null) return;
        if (atEstimate > 0 && atEstimate < 1) {
          const there = compute(atPrevalence, { ...study, prevalence: atEstimate }).values;
          expectClose(there.ppv.value, target, { relative: 1e-9 }, "estimate");
        }
        if (atLowerLimit > 1e-9 && atLowerLimit < 1 - 1e-9) {
          const there = compute(atPrevalence, { ...study, prevalence: atLowerLimit }, { method }).values;
          // Where the limit was drawn out to an observed value it is not the formula's.
          if (there.ppv.lower !== there.ppv.value) {
            expectClose(there.ppv.lower, target, { relative: 1e-6 }, "limit");
          }
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe("expected counts", () => {
  it("are finite, or explained, and every sum adds up, rounded or not", () => {
    const tested = fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 1_000_000 }));
    fc.assert(
      fc.property(STUDIES, PREVALENCES, tested, (study, prevalence, people) => {
        const found = compute(expectedCounts, { ...study, prevalence, tested: people });
        expect(faultsOf(found)).toEqual([]);
        const { values } = found;
        const { rounded } = values;
        if (rounded === null) return;
        const sum = (...parts: (number | null)[]) =>
          parts.reduce<number>((total, part) => total + (part ?? 0), 0);
        const { truePositives, falsePositives, falseNegatives, trueNegatives } = values;
        const reactive = sum(truePositives.value, falsePositives.value);
        expectClose(values.reactive.value, reactive, { relative: 1e-12 }, "reactive");
        expectClose(
          sum(reactive, falseNegatives.value, trueNegatives.value),
          people,
          { relative: 1e-9 },
          "everybody",
        );
        expect(rounded.truePositives + rounded.falsePositives).toBe(rounded.reactive);
        expect(rounded.falseNegatives + rounded.trueNegatives).toBe(rounded.nonreactive);
        expect(rounded.truePositives + rounded.falseNegatives).toBe(rounded.withCondition);
        expect(rounded.withCondition + rounded.withoutCondition).toBe(people);
        expect(rounded.reactive + rounded.nonreactive).toBe(people);
        for (const name of ["truePositives", "falsePositives", "falseNegatives", "trueNegatives"] as const) {
          expect(Math.abs(rounded[name] - (values[name].value ?? 0))).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 500 },
    );
  });
});
