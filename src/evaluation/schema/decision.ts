import * as v from "valibot";
import { Cell, Count, Estimate, Notes, Proportion, Real, Share, Verdict } from "./parts.ts";

/** All criteria together, as the study file says they are to be judged. */
export const DecisionSchema = v.strictObject({
  control: v.picklist(["each", "all_must_pass", "holm", "fixed_sequence"]),
  /** Primary criteria in the order in which they were judged. */
  criteria: v.array(
    v.strictObject({
      criterion: v.string(),
      pValue: Real,
      adjustedPValue: Real,
      verdict: Verdict,
    }),
  ),
  overall: Verdict,
  /** Probability that all primary criteria are truly reached: independent, and the bounds without that. */
  joint: v.strictObject({ independent: Real, lowest: Real, highest: Real }),
  notes: Notes,
});

/** What a further number of people would do to an undecided criterion. */
export const AssuranceSchema = v.strictObject({
  criterion: v.string(),
  further: Count,
  /** If the estimate held, and by what the data so far predict (Jeffreys posterior). */
  ifEstimateHolds: v.strictObject({ met: Real, notMet: Real, undecided: Real }),
  predicted: v.strictObject({ met: Real, notMet: Real, undecided: Real }),
  /** Fewest further people from which on the predicted chance of meeting it stays at or above this. */
  needed: v.array(v.strictObject({ chance: Share, further: v.nullable(Count) })),
  notes: Notes,
});

/** What apparent positivity says of true prevalence, given this study's sensitivity and specificity. */
export const TruePrevalenceSchema = v.strictObject({
  ...Cell,
  population: v.string(),
  title: v.string(),
  apparent: Proportion,
  /** Rogan–Gladen with the Lang–Reiczigel interval: sensitivity and specificity estimated. */
  estimated: Estimate,
  /** Sensitivity and specificity taken as known exactly. */
  known: Estimate,
  notes: Notes,
});
