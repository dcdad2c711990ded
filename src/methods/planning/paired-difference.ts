import * as v from "valibot";
import { choice, level } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { discordanceOf } from "./discordance.ts";
import { power } from "./fields.ts";
import { MCNEMAR_TESTS, mcnemarPower } from "./mcnemar-power.ts";
import { noPairedPlan, pairedNotes, pairedPlan } from "./paired-plan.ts";
import { pairedDifferenceExamples } from "./two-kit-examples.ts";
import {
  discordanceBounds,
  discordanceRange,
  pairedExact,
  pairedFormula,
  pairedKits,
  searchHorizon,
} from "./two-kit-fields.ts";

const MOST_HORIZON = 100_000;
const Input = v.strictObject(pairedKits);
const Options = v.strictObject({
  level: level(),
  power: power(),
  test: v.optional(
    choice(MCNEMAR_TESTS, "the test of the comparison: mid-P, exact, or chi-square without correction"),
    "mcnemar_mid_p",
  ),
  horizon: searchHorizon(MOST_HORIZON),
});
const Values = v.strictObject({
  discordant: discordanceRange,
  formula: pairedFormula,
  exact: pairedExact,
  bounds: discordanceBounds,
});
export type PlanPairedInput = v.InferOutput<typeof Input>;
export type PlanPairedOptions = v.InferOutput<typeof Options>;
export type PlanPairedValues = v.InferOutput<typeof Values>;

/** Proportions this near to each other are alike. */
const ALIKE = 1e-12;

/**
 * How many people, each tested with both kits, show that the kits differ?
 *
 * Power: the probability that the test finds a difference (two-sided error 1 - level), in favour of the kit
 * that is truly better. Exact: every total up to the horizon is looked at, none beyond.
 *
 * @param input   proportions right in people of one reference status, and the share for whom exactly one
 *   kit is right, which matters most; people in all answers are of that reference status
 * @param options level, power, test as in `comparison.paired`, horizon
 * @returns sizes by formula and by exact power; `null` with a note where both kits are expected to be alike
 *   (`no_difference`), the horizon is too near (`out_of_reach`), or the formula gives 0 (`no_spread`)
 * @throws InputError where the two proportions do not allow the discordant share
 * Sources: connor1987 (formula), mcnemar1947, fagerland2013 (tests)
 */
export function planPairedDifference(
  input: PlanPairedInput,
  options: PlanPairedOptions,
): Finding<PlanPairedValues> {
  const range = discordanceOf(input);
  const difference = input.first - input.second;
  if (Math.abs(difference) <= ALIKE) {
    const message =
      "both kits are expected to be right equally often: there is no difference to be found. State what difference would matter, or plan for non-inferiority";
    return noPairedPlan(range, "no_difference", message);
  }
  const error = 1 - options.level;
  const [ofError, ofPower] = [normalQuantile(error / 2, "upper"), normalQuantile(options.power)];
  const plan = pairedPlan({
    difference,
    range,
    wanted: options.power,
    horizon: options.horizon,
    mostHorizon: MOST_HORIZON,
    least: 0,
    formula(discordant) {
      const spread = Math.sqrt(Math.max(0, discordant - difference * difference));
      return Math.pow(Math.max(0, ofError * Math.sqrt(discordant) + ofPower * spread) / difference, 2);
    },
    powerOf: (shares) => mcnemarPower(shares, options.test, error),
  });
  return { values: plan, notes: pairedNotes(plan, input.discordant, MOST_HORIZON) };
}

export const planningPairedDifference = defineMethod({
  id: "planning.paired_difference",
  version: 1,
  title: "Planning a comparison of two kits on the same people",
  question: "How many people, tested with both kits, show that one kit is better?",
  formula:
    "p10, p01 = share for whom only the first, only the second is right; psi = p10 + p01, d = p10 - p01. Formula: n = (z(1 - error/2) sqrt(psi) + z(power) sqrt(psi - d²))² / d². Exact power = sum over m discordant of Binomial(m; n, psi) times P(the test rejects for the better kit | m), the better kit having Binomial(m, larger share / psi) of them. psi lies between |d| and min(first + second, 2 - first - second)",
  caution:
    "the share of people judged differently is seldom known and decides the size: look at the bounds. People are those of one reference status; how many must be enrolled to find them is another question. Power rises like a saw: with `first` people one more can be worse, with `stays` not",
  sources: ["connor1987", "mcnemar1947", "fagerland2013"],
  input: Input,
  options: Options,
  values: Values,
  run: planPairedDifference,
  examples: pairedDifferenceExamples,
});
