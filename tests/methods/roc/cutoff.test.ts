import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { rocCutoff } from "../../../src/methods/roc/cutoff.ts";
import type { Rule } from "../../../src/methods/roc/cutoff-fields.ts";
import { normalCdf } from "../../../src/numeric/normal.ts";
import { faultsOf } from "../plain-values.ts";
import { normals, readings } from "./drawn-people.ts";

const some = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 1, maxLength: 15 });
const FEW = { replicates: 100, repeats: 1 };
const RULES: readonly Rule[] = [
  { kind: "youden" },
  { kind: "cost", prevalence: 0.2, falsePositiveCost: 1, falseNegativeCost: 3 },
  { kind: "specificity_at_least", least: 0.8 },
  { kind: "sensitivity_at_least", least: 0.8 },
];

describe("a chosen cutoff", () => {
  it.each(RULES)("is beaten by no other: $kind", (rule) => {
    fc.assert(
      fc.property(some, some, (positives, negatives) => {
        const input = { positives, negatives, rule, direction: "higher" as const };
        const found = compute(rocCutoff, input, FEW);
        expect(faultsOf(found)).toEqual([]);
        const all = [...new Set([...positives, ...negatives]), Number.POSITIVE_INFINITY].map((cutoff) => {
          const se = positives.filter((reading) => reading >= cutoff).length / positives.length;
          const sp = negatives.filter((reading) => reading < cutoff).length / negatives.length;
          return { se, sp };
        });
        const near = 1e-9;
        const objective = found.values.objective as number;
        const [se, sp] = [found.values.sensitivity.value as number, found.values.specificity.value as number];
        for (const other of all) {
          if (rule.kind === "youden") expect(other.se + other.sp - 1).toBeLessThanOrEqual(objective + near);
          if (rule.kind === "cost") {
            const harm = 0.2 * (1 - other.se) * 3 + 0.8 * (1 - other.sp);
            expect(harm).toBeGreaterThanOrEqual(objective - near);
          }
          if (rule.kind === "specificity_at_least" && other.sp >= 0.8 - near) {
            expect(other.se).toBeLessThanOrEqual(se + near);
            if (other.se > se - near) expect(other.sp).toBeLessThanOrEqual(sp + near);
          }
          if (rule.kind === "sensitivity_at_least" && other.se >= 0.8 - near) {
            expect(other.sp).toBeLessThanOrEqual(sp + near);
            if (other.sp > sp - near) expect(other.se).toBeLessThanOrEqual(se + near);
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it("is null with a note where nobody had better be called reactive", () => {
    const input = { positives: [1, 2], negatives: [3, 4], direction: "higher" as const };
    const found = compute(rocCutoff, { ...input, rule: { kind: "specificity_at_least", least: 1 } }, FEW);
    expect(found.values.cutoff.value).toBeNull();
    expect(found.values.sensitivity.count).toBe(0);
    expect(found.notes.map(({ code }) => code)).toContain("nobody_reactive");
    expect(faultsOf(found)).toEqual([]);
  });

  it("says that others are as good, and which it took", () => {
    const input = { positives: [1, 3], negatives: [0, 2], direction: "higher" as const };
    const found = compute(rocCutoff, { ...input, rule: { kind: "youden" } }, FEW);
    expect(found.values.cutoff.value).toBe(3);
    expect(found.values.equallyGood).toBe(1);
    expect(found.notes.map(({ code }) => code)).toContain("several_best");
  });

  it("takes two people in each group to be corrected", () => {
    for (const [positives, negatives] of [
      [[3], [1, 2]],
      [[], [1]],
      [[1], []],
    ]) {
      const input = { positives: positives ?? [], negatives: negatives ?? [], direction: "higher" as const };
      const found = compute(rocCutoff, { ...input, rule: { kind: "youden" } }, FEW);
      expect(found.values.corrected.youden).toBeNull();
      expect(faultsOf(found)).toEqual([]);
    }
  });
});

describe("the correction, in 200 drawn studies of 25 and 25 people", () => {
  const studies = 200;
  const means = { seen: 0, crossValidated: 0, bootstrap: 0, truth: 0 };
  for (let study = 0; study < studies; study += 1) {
    const normal = normals(31, study);
    const input = {
      positives: readings(normal, 25, 1),
      negatives: readings(normal, 25, 0),
      direction: "higher" as const,
      rule: { kind: "youden" as const },
    };
    const validated = compute(rocCutoff, input, { replicates: 100, repeats: 4 }).values;
    const drawn = compute(rocCutoff, input, { replicates: 100, correction: "bootstrap" }).values;
    const cutoff = validated.cutoff.value as number;
    means.seen += (validated.youden as number) / studies;
    means.crossValidated += (validated.corrected.youden as number) / studies;
    means.bootstrap += (drawn.corrected.youden as number) / studies;
    means.truth += (normalCdf(cutoff) - normalCdf(cutoff - 1)) / studies;
  }

  it("finds choosing and judging in the same people flattering by a tenth of Youden's index and more", () => {
    expect(means.seen - means.truth).toBeGreaterThan(0.1);
  });

  it("by cross-validation leaves next to nothing of it", () => {
    // A study's standard deviation is about 0.15: four standard errors of the mean of 200.
    expect(Math.abs(means.crossValidated - means.truth)).toBeLessThan(0.042);
  });

  it("by the bootstrap leaves part of it, as its note says", () => {
    const left = (means.bootstrap - means.truth) / (means.seen - means.truth);
    expect(left).toBeGreaterThan(0.15);
    expect(left).toBeLessThan(0.55);
  });
});
