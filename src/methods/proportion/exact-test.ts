import * as v from "valibot";
import { count, level, proportion, proportionEstimate, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";
import { notesAt } from "../notes-at.ts";
import { intervalMethod } from "./intervals/fields.ts";
import { noMoreProbable } from "./no-more-probable.ts";
import { estimateProportion } from "./proportion-interval.ts";

const Input = v.strictObject({
  count: count("how many of them"),
  total: count("of how many observed"),
  hypothesis: proportion("the true proportion supposed"),
});
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const Values = v.strictObject({
  proportion: proportionEstimate("proportion observed, with its interval"),
  twoSided: quantity("probability", "p-value: results no more probable than the one seen"),
  greater: quantity("probability", "p-value: results as large as the one seen, or larger"),
  less: quantity("probability", "p-value: results as small as the one seen, or smaller"),
});
export type ExactTestInput = v.InferOutput<typeof Input>;
export type ExactTestOptions = v.InferOutput<typeof Options>;
export type ExactTestValues = v.InferOutput<typeof Values>;

/**
 * Exact binomial test of a supposed proportion. The two-sided p-value adds up all results that are
 * no more probable than the one seen (method of small p-values).
 *
 * @returns p-values in 0..1; `null` with the note `no_observations` when the total is 0
 * Source: conover1971
 */
export function testProportion(input: ExactTestInput, options: ExactTestOptions): Finding<ExactTestValues> {
  const { count: seen, total, hypothesis } = input;
  if (seen > total) throw new InputError(["input", "count"], `at most the total, ${total}`, seen);
  const observed = estimateProportion(seen, total, options);
  if (total === 0) {
    const values = { proportion: observed, twoSided: null, greater: null, less: null };
    const paths = ["proportion", "twoSided", "greater", "less"];
    return { values, notes: notesAt("no_observations", paths, "nothing was observed") };
  }
  const less = binomialCdf(seen, total, hypothesis, "lower");
  const greater = binomialCdf(seen - 1, total, hypothesis, "upper");
  const twoSided = twoSidedBinomial(seen, total, hypothesis);
  return { values: { proportion: observed, twoSided, greater, less }, notes: [] };
}

/** Two-sided p-value of the exact binomial test. */
export function twoSidedBinomial(seen: number, total: number, hypothesis: number): number {
  if (hypothesis === 0) return seen === 0 ? 1 : 0;
  if (hypothesis === 1) return seen === total ? 1 : 0;
  return noMoreProbable(seen, {
    least: 0,
    most: total,
    mode: Math.min(total, Math.floor((total + 1) * hypothesis)),
    mass: (result) => binomialMass(result, total, hypothesis),
    atMost: (result) => binomialCdf(result, total, hypothesis, "lower"),
    atLeast: (result) => binomialCdf(result - 1, total, hypothesis, "upper"),
  });
}

export const exactTest = defineMethod({
  id: "proportion.exact_test",
  version: 1,
  title: "Exact test of a proportion",
  question: "Does this proportion agree with the one supposed?",
  formula:
    "two-sided p = sum of P(X = k | total, hypothesis) over all k with P(X = k) <= P(X = count); one-sided p = P(X >= count) or P(X <= count)",
  caution:
    "a large p-value does not show that the hypothesis is true: read the interval. The two-sided p-value and the interval of Clopper and Pearson can disagree near the border",
  sources: ["conover1971"],
  input: Input,
  options: Options,
  values: Values,
  run: testProportion,
  examples: [
    {
      name: "682 giant plants of 925 against 3 in 4",
      input: { count: 682, total: 925, hypothesis: 0.75 },
      expect: {
        "proportion.value": 0.737297297297297,
        twoSided: 0.382491559574852,
        "proportion.lower": 0.707668264079039,
        "proportion.upper": 0.765406558241525,
      },
      tolerance: { relative: 1e-8 },
      source: "conover1971",
      recomputedBy: "R 4.2.2 binom.test(682, 925, p = 0.75)",
      memory: true,
    },
    {
      name: "the same, to the digits R prints",
      input: { count: 682, total: 925, hypothesis: 0.75 },
      expect: { twoSided: 0.3825 },
      tolerance: { decimals: 4 },
      source: "r_binom_test",
    },
    {
      name: "nothing observed",
      input: { count: 0, total: 0, hypothesis: 0.5 },
      expect: { twoSided: null, "proportion.value": null },
      tolerance: { relative: 1e-8 },
      source: "no publication: by definition",
    },
  ],
});
