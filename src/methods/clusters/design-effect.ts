import * as v from "valibot";
import { count, proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { notesAt } from "../notes-at.ts";

const Input = v.strictObject({
  clusterSize: v.pipe(
    v.number(),
    v.finite("expected a finite number"),
    v.minValue(1, "expected 1 or more"),
    v.description("mean number of observations in a cluster"),
  ),
  icc: proportion("intra-cluster correlation expected"),
  cv: v.optional(
    v.pipe(
      v.number(),
      v.finite("expected a finite number"),
      v.minValue(0, "expected 0 or more"),
      v.description("coefficient of variation of the cluster sizes: standard deviation over mean"),
    ),
    0,
  ),
  total: v.optional(v.nullable(count("observations that would be needed if they were independent")), null),
});
const Options = v.strictObject({});
const Plan = (sizes: string) =>
  v.pipe(
    v.strictObject({
      designEffect: quantity("ratio", "how many times the observations needed if they were independent"),
      total: quantity("people", "observations needed"),
      clusters: quantity("count", "clusters needed"),
    }),
    v.description(sizes),
  );
const Values = v.strictObject({
  equal: Plan("clusters of equal size"),
  unequal: Plan("clusters whose sizes vary"),
});
export type DesignEffectInput = v.InferOutput<typeof Input>;
export type DesignEffectValues = v.InferOutput<typeof Values>;

/**
 * How many times more observations a study in clusters needs, and how many clusters.
 *
 * @param input cluster size (mean), correlation 0..1, variation of sizes, and the total that independent
 *   observations would need (`null`: only the design effects are given)
 * @returns totals and clusters rounded up; `null` with a note where no total was given
 * Source: donner2000
 */
export function planDesignEffect(
  { clusterSize, icc, cv, total }: DesignEffectInput,
  _options: v.InferOutput<typeof Options>,
): Finding<DesignEffectValues> {
  const planned = (designEffect: number) => {
    if (total === null) return { designEffect, total: null, clusters: null };
    const needed = roundUp(total * designEffect);
    if (needed > Number.MAX_SAFE_INTEGER) {
      throw new InputError(["input", "total"], "a total that clusters can be counted for", total);
    }
    return { designEffect, total: needed, clusters: roundUp(needed / clusterSize) };
  };
  const values = {
    equal: planned(1 + (clusterSize - 1) * icc),
    unequal: planned(1 + ((cv * cv + 1) * clusterSize - 1) * icc),
  };
  if (total !== null) return { values, notes: [] };
  const paths = ["equal.total", "equal.clusters", "unequal.total", "unequal.clusters"];
  return { values, notes: notesAt("no_total", paths, "no total for independent observations was given") };
}

/** Rounded up, the last places of a product not counting as one more. */
function roundUp(value: number): number {
  const nearest = Math.round(value);
  return Math.abs(value - nearest) <= 1e-12 * nearest ? nearest : Math.ceil(value);
}

export const clustersDesignEffect = defineMethod({
  id: "clusters.design_effect",
  version: 1,
  title: "Planning a study in clusters",
  question: "How many more people does a study need because they come in clusters?",
  formula:
    "design effect = 1 + (m - 1) icc for clusters of m; with sizes of mean m and coefficient of variation cv: 1 + ((cv² + 1) m - 1) icc. Total = independent total times design effect; clusters = total / m; both rounded up",
  caution:
    "more people in the same clusters help little: k clusters never say more than k / icc independent people. The correlation must come from other studies",
  sources: ["donner2000"],
  input: Input,
  options: Options,
  values: Values,
  run: planDesignEffect,
  examples: [
    {
      name: "384 needed, clusters of 20, correlation 0.05",
      input: { clusterSize: 20, icc: 0.05, cv: 0.4, total: 384 },
      expect: {
        "equal.designEffect": 1.95,
        "equal.total": 749,
        "equal.clusters": 38,
        "unequal.designEffect": 2.11,
      },
      tolerance: { relative: 1e-8 },
      source: "donner2000",
      recomputedBy: "R 4.2.2: 1 + (m - 1) icc; 1 + ((cv^2 + 1) m - 1) icc",
      memory: true,
    },
    {
      name: "80 positives, clusters of 50, correlation 0.02",
      input: { clusterSize: 50, icc: 0.02, total: 80 },
      expect: { "equal.designEffect": 1.98, "equal.total": 159, "unequal.total": 159 },
      tolerance: { relative: 1e-8 },
      source: "donner2000",
      recomputedBy: "R 4.2.2: ceiling(80 * (1 + 49 * .02))",
      memory: true,
    },
    {
      name: "no total given",
      input: { clusterSize: 2, icc: 1 },
      expect: { "equal.designEffect": 2, "equal.total": null },
      tolerance: { relative: 1e-12 },
      source: "no publication: by definition",
    },
  ],
});
