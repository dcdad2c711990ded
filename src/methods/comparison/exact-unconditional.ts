import * as v from "valibot";
import { estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { notesAt } from "../notes-at.ts";
import type { Share } from "../proportion/difference-interval.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { differenceScore } from "../proportion/score-difference.ts";
import { exactDifferenceLimits } from "./exact-difference.ts";
import { exactExamples } from "./exact-examples.ts";
import { exactProbabilities } from "./exact-probabilities.ts";
import { requireGroups, twoGroups } from "./fields.ts";

const Input = v.strictObject(twoGroups);
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  restriction: v.optional(
    v.pipe(
      v.number(),
      v.minValue(0, "expected a probability from 0 to 0.1"),
      v.maxValue(0.1, "expected a probability from 0 to 0.1"),
      v.description(
        "0: every common proportion is tried; above: only those in its exact interval at this error, which is added to p (e.g. 0.001)",
      ),
    ),
    0,
  ),
});
const Values = v.strictObject({
  first: proportionEstimate("proportion in the first group"),
  second: proportionEstimate("proportion in the second group"),
  difference: estimate("proportion", "first minus second proportion, exact limits"),
  statistic: quantity("statistic", "score statistic of no difference, pooled variance"),
  twoSided: quantity("probability", "p-value: results as far from no difference as the one seen"),
  greater: quantity("probability", "p-value: first group as high as seen, or higher, by the statistic"),
  less: quantity("probability", "p-value: first group as low as seen, or lower, by the statistic"),
  commonProportion: quantity("proportion", "common proportion at which the two-sided p-value is largest"),
});
export type ExactUnconditionalInput = v.InferOutput<typeof Input>;
export type ExactUnconditionalOptions = v.InferOutput<typeof Options>;
export type ExactUnconditionalValues = v.InferOutput<typeof Values>;

/** Groups larger than this take too long, and need it least. */
const LARGEST_GROUP = 2_000;

/**
 * Exact unconditional test of two independent proportions, and exact limits of their difference.
 *
 * Unlike Fisher's test it does not hold the number of events fixed, and is less conservative. The p-value
 * is the largest over all common proportions (or over those in their exact interval, `restriction`). The
 * limits invert two one-sided tests, each at (1 - level) / 2, whose statistic is computed anew at every
 * supposed difference; so they can disagree with the two-sided p-value near the border.
 *
 * @param input counts of independent people, at most 2,000 in a group
 * @returns p-values in 0..1, never too small on any true common proportion; `null` with the note `no_observations`
 *   where a group is empty. Limits are found to 1e-9, the error on the outer side
 * @throws InputError where a count is larger than its total, or a group larger than 2,000
 * Sources: barnard1947, chan1999, berger1994
 */
export function exactUnconditionalTest(
  input: ExactUnconditionalInput,
  options: ExactUnconditionalOptions,
): Finding<ExactUnconditionalValues> {
  const { first, second } = input;
  requireGroups({ first, second }, ["input"]);
  for (const [name, { total }] of Object.entries({ first, second })) {
    if (total > LARGEST_GROUP)
      throw new InputError(["input", name, "total"], `at most ${LARGEST_GROUP}`, total);
  }
  const shares = {
    first: estimateProportion(first.count, first.total, options),
    second: estimateProportion(second.count, second.total, options),
  };
  if (first.total === 0 || second.total === 0) {
    return { values: { ...shares, ...NOTHING }, notes: emptyNotes(first, second) };
  }
  const probabilities = exactProbabilities(first, second, options.restriction);
  const limits = exactDifferenceLimits(first, second, options.level);
  const values = {
    ...shares,
    difference: { value: first.count / first.total - second.count / second.total, ...limits },
    statistic: differenceScore(first.count, first.total, second.count, second.total, 0),
    ...probabilities,
  };
  return { values, notes: [] };
}

const NOTHING: Omit<ExactUnconditionalValues, "first" | "second"> = {
  difference: { value: null, lower: null, upper: null },
  statistic: null,
  twoSided: null,
  greater: null,
  less: null,
  commonProportion: null,
};

function emptyNotes(first: Share, second: Share) {
  const empty = [...(first.total === 0 ? ["first"] : []), ...(second.total === 0 ? ["second"] : [])];
  const paths = [...empty, ...Object.keys(NOTHING)];
  return notesAt("no_observations", paths, "a group is empty: nothing to compare");
}

export const exactUnconditional = defineMethod({
  id: "comparison.exact_unconditional",
  version: 1,
  title: "Exact unconditional comparison of two groups",
  question: "Do two groups of people differ, beyond doubt about the approximation?",
  formula:
    "p = max over the common proportion of the sum of P(X = x) P(Y = y) over all (x, y) whose score statistic (x/m - y/n) / sqrt(p (1 - p) (1/m + 1/n)), p = (x + y)/(m + n), is as extreme as the one seen; ties count. Restricted: the maximum over the exact interval of p at error b, plus b. Limits: the lowest and highest difference d at which the one-sided sum, with the score statistic of d and maximised over the second proportion, reaches (1 - level)/2",
  caution:
    "for two groups of different people, at most 2,000 each. Exact means never too small a p-value, not the smallest possible one. The limits come from two one-sided tests and are a little wider than those from a two-sided one",
  sources: ["barnard1947", "chan1999", "berger1994"],
  input: Input,
  options: Options,
  values: Values,
  run: exactUnconditionalTest,
  examples: exactExamples,
});
