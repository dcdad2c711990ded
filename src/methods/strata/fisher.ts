import * as v from "valibot";
import { count, estimate, level, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { conditionalOddsRatio } from "./conditional-odds-ratio.ts";
import { fisherProbabilities } from "./fisher-probabilities.ts";

const Group = v.strictObject({
  count: count("how many of them in this group"),
  total: count("of how many observed in this group"),
});
const Input = v.strictObject({
  first: v.pipe(Group, v.description("the first group")),
  second: v.pipe(Group, v.description("the second group")),
});
const Options = v.strictObject({ level: level() });
const Values = v.strictObject({
  oddsRatio: estimate("ratio", "conditional odds ratio, first group over second, with its exact interval"),
  twoSided: quantity("probability", "p-value: tables no more probable than the one seen"),
  greater: quantity("probability", "p-value: first group as high as seen, or higher"),
  less: quantity("probability", "p-value: first group as low as seen, or lower"),
});
export type FisherInput = v.InferOutput<typeof Input>;
export type FisherOptions = v.InferOutput<typeof Options>;
export type FisherValues = v.InferOutput<typeof Values>;

/**
 * Fisher's exact test of two independent proportions, with the conditional odds ratio.
 *
 * @returns p-values in 0..1; `null` with a note where a group is empty. An infinite odds ratio or limit
 *   is `null` with the note `unbounded`
 * Sources: fisher1935, agresti2002
 */
export function fisherTest({ first, second }: FisherInput, options: FisherOptions): Finding<FisherValues> {
  for (const [name, group] of Object.entries({ first, second })) {
    if (group.count > group.total) {
      throw new InputError(["input", name, "count"], `at most the total, ${group.total}`, group.count);
    }
  }
  const oddsRatio = conditionalOddsRatio(first, second, options.level);
  if (first.total === 0 || second.total === 0) {
    const values = { oddsRatio, twoSided: null, greater: null, less: null };
    const paths = ["oddsRatio", "twoSided", "greater", "less"];
    return { values, notes: notesAt("no_observations", paths, "a group is empty: nothing to compare") };
  }
  const notes: Note[] = [];
  if (oddsRatio.lower === null) {
    notes.push(note("no_variation", "oddsRatio", "all results are the same: any odds ratio fits them"));
  } else if (oddsRatio.upper === null) {
    const message =
      "the largest count the margins allow: the odds ratio is infinite, only a lower limit exists";
    notes.push(note("unbounded", "oddsRatio", message));
  }
  return { values: { oddsRatio, ...fisherProbabilities(first, second) }, notes };
}

export const fisher = defineMethod({
  id: "strata.fisher",
  version: 1,
  title: "Fisher's exact test of two groups",
  question: "Do two groups of people differ in a proportion?",
  formula:
    "with both margins fixed the first count X is hypergeometric; two-sided p = sum of P(X = k) over all k with P(X = k) <= P(X = count). Odds ratio: the one under which the expected first count is the one seen; limits: the ones under which its tail is (1 - level) / 2",
  caution:
    "for two separate groups, not for two tests on the same people. Conservative: p is too large on average. The two-sided p and the interval can disagree near the border",
  sources: ["fisher1935", "agresti2002"],
  input: Input,
  options: Options,
  values: Values,
  run: fisherTest,
  examples: [
    {
      name: "tea tasting: 3 of 4 against 1 of 4",
      input: { first: { count: 3, total: 4 }, second: { count: 1, total: 4 } },
      expect: {
        twoSided: 0.485714285714286,
        greater: 0.242857142857143,
        "oddsRatio.value": 6.40830886700579,
      },
      tolerance: { relative: 1e-5 },
      source: "agresti2002",
      recomputedBy: "R 4.2.2 fisher.test, which finds the odds ratio to about six digits",
      memory: true,
    },
    {
      name: "tea tasting, to the digits R prints",
      input: { first: { count: 3, total: 4 }, second: { count: 1, total: 4 } },
      expect: { greater: 0.2429 },
      tolerance: { decimals: 4 },
      source: "r_fisher_test",
    },
    {
      name: "convictions of twins: 2 of 17 against 10 of 13",
      input: { first: { count: 2, total: 17 }, second: { count: 10, total: 13 } },
      expect: {
        less: 0.000465180943362906,
        "oddsRatio.value": 0.04693663904968,
        "oddsRatio.lower": 0.00331716395065737,
        "oddsRatio.upper": 0.363189602356681,
      },
      tolerance: { relative: 1e-9 },
      source: "r_fisher_test",
      recomputedBy: "R 4.2.2: dhyper tilted by the odds ratio, uniroot with tol = 1e-15",
    },
    {
      name: "the same, to the digits R's fisher.test has of the limits",
      input: { first: { count: 2, total: 17 }, second: { count: 10, total: 13 } },
      expect: { "oddsRatio.value": 0.0469, "oddsRatio.lower": 0.0033, "oddsRatio.upper": 0.3632 },
      tolerance: { decimals: 4 },
      source: "r_fisher_test",
    },
    {
      name: "5 of 5 against 0 of 5: no upper limit",
      input: { first: { count: 5, total: 5 }, second: { count: 0, total: 5 } },
      expect: { "oddsRatio.value": null, "oddsRatio.upper": null, twoSided: 0.00793650793650794 },
      tolerance: { relative: 1e-8 },
      source: "fisher1935",
      recomputedBy: "R 4.2.2: 2 / choose(10, 5)",
      memory: true,
    },
  ],
});
