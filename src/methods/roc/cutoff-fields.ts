import * as v from "valibot";
import {
  choice,
  count,
  estimate,
  level,
  openProportion,
  proportion,
  proportionEstimate,
  quantity,
  seed,
} from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";
import { readingDirection, readingsByTruth, redraws } from "./readings-fields.ts";

const cost = (meaning: string) =>
  v.pipe(v.number(), v.finite(), v.gtValue(0, "expected a cost above 0"), v.description(meaning));

const Rule = v.pipe(
  v.variant("kind", [
    v.strictObject({ kind: v.literal("youden") }),
    v.strictObject({
      kind: v.literal("cost"),
      prevalence: openProportion("prevalence among the people to be tested"),
      falsePositiveCost: cost("harm of one false positive, in any unit"),
      falseNegativeCost: cost("harm of one false negative, in the same unit"),
    }),
    v.strictObject({
      kind: v.literal("specificity_at_least"),
      least: proportion("specificity that the cutoff must have in these data"),
    }),
    v.strictObject({
      kind: v.literal("sensitivity_at_least"),
      least: proportion("sensitivity that the cutoff must have in these data"),
    }),
  ]),
  v.description(
    "youden: highest sensitivity + specificity; cost: lowest expected harm; else the highest of the other measure",
  ),
);

export const CutoffInput = v.strictObject({
  ...readingsByTruth,
  direction: readingDirection(),
  rule: Rule,
});

export const CutoffOptions = v.strictObject({
  level: level(),
  correction: v.optional(
    choice(
      ["cross_validation", "bootstrap"],
      "cross_validation: cutoffs judged in people they were not chosen in; bootstrap: mean optimism taken off, which leaves some",
    ),
    "cross_validation",
  ),
  replicates: redraws(2000),
  folds: v.optional(whole(2, 50, "parts that each group is split into for cross-validation"), 10),
  repeats: v.optional(whole(1, 1000, "times that the groups are split for cross-validation"), 50),
  seed: seed(1),
});

export const CutoffValues = v.strictObject({
  positives: count("people with the condition"),
  negatives: count("people without the condition"),
  cutoff: estimate(
    "statistic",
    "reactive is a reading here or beyond; limits are percentiles of the cutoffs chosen when people are drawn anew",
  ),
  equallyGood: count("cutoffs among these readings that the rule likes as much"),
  sensitivity: proportionEstimate(
    "in the people the cutoff was chosen in; exact limits as for a cutoff fixed beforehand",
  ),
  specificity: proportionEstimate(
    "in the people the cutoff was chosen in; exact limits as for a cutoff fixed beforehand",
  ),
  youden: quantity("proportion", "sensitivity + specificity - 1 in these people"),
  objective: quantity(
    "statistic",
    "what the rule makes best: Youden's index, harm a person, sensitivity or specificity",
  ),
  corrected: v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "sensitivity to expect in other people"),
      specificity: quantity("proportion", "specificity to expect in other people"),
      youden: quantity("proportion", "Youden's index to expect in other people"),
      objective: quantity("statistic", "what the rule makes best, to expect in other people"),
    }),
    v.description("with the optimism of choosing and judging in the same people taken off"),
  ),
  optimism: v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "in these people less corrected"),
      specificity: quantity("proportion", "in these people less corrected"),
      youden: quantity("proportion", "in these people less corrected"),
      objective: quantity("statistic", "in these people less corrected"),
    }),
    v.description("what choosing in the same people flatters by"),
  ),
});

export type Rule = v.InferOutput<typeof Rule>;
export type CutoffInput = v.InferOutput<typeof CutoffInput>;
export type CutoffOptions = v.InferOutput<typeof CutoffOptions>;
export type CutoffValues = v.InferOutput<typeof CutoffValues>;
