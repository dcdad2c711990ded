import * as v from "valibot";
import { choice, level, openProportion } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { power } from "./fields.ts";
import { fisherPower } from "./fisher-power.ts";
import { groupPlan, MOST_IN_GROUP, noGroupPlan } from "./group-plan.ts";
import { type PlannedGroups, pearsonPower } from "./two-group-power.ts";
import { unpairedDifferenceExamples } from "./two-kit-examples.ts";
import { groupRatio, groupsExact, groupsFormula, searchHorizon } from "./two-kit-fields.ts";

const Input = v.strictObject({
  first: openProportion("proportion right expected of the first kit, on its own people"),
  second: openProportion("proportion right expected of the second kit, on other people"),
  ratio: groupRatio(),
});
const Options = v.strictObject({
  level: level(),
  power: power(),
  test: v.optional(
    choice(["fisher", "pearson"], "the test of the comparison: Fisher's exact one, or Pearson's chi-square"),
    "fisher",
  ),
  horizon: searchHorizon(MOST_IN_GROUP),
});
const Values = v.strictObject({ formula: groupsFormula, exact: groupsExact });
export type PlanUnpairedInput = v.InferOutput<typeof Input>;
export type PlanUnpairedOptions = v.InferOutput<typeof Options>;
export type PlanUnpairedValues = v.InferOutput<typeof Values>;

/** Proportions this near to each other are alike. */
const ALIKE = 1e-12;

/**
 * How many people in each of two groups, each group tested with its own kit, show that the kits differ?
 *
 * Power: the probability that the test finds a difference (two-sided error 1 - level), in favour of the kit
 * that is truly better. Exact: every size up to the horizon is looked at, none beyond.
 *
 * @param input   proportions right in people of one reference status; size of the second group over the first
 * @param options level, power, test (both as in `comparison.unpaired`), horizon
 * @returns sizes by formula and by exact power; `null` with a note where both kits are expected to be alike
 *   (`no_difference`), the horizon is too near (`out_of_reach`), or the formula gives 0 (`no_spread`)
 * Sources: r_power_prop_test (formula), fleiss1980 (unequal groups), fisher1935
 */
export function planUnpairedDifference(
  { first, second, ratio }: PlanUnpairedInput,
  options: PlanUnpairedOptions,
): Finding<PlanUnpairedValues> {
  const difference = first - second;
  if (Math.abs(difference) <= ALIKE) {
    const message =
      "both kits are expected to be right equally often: there is no difference to be found. State what difference would matter, or plan for non-inferiority";
    return noGroupPlan("no_difference", message);
  }
  const error = 1 - options.level;
  const common = (first + ratio * second) / (1 + ratio);
  const ifAlike = Math.sqrt(common * (1 - common) * (1 + 1 / ratio));
  const ifNot = Math.sqrt(first * (1 - first) + (second * (1 - second)) / ratio);
  const reach = normalQuantile(error / 2, "upper") * ifAlike + normalQuantile(options.power) * ifNot;
  const powerOf = options.test === "fisher" ? fisherPower : pearsonPower;
  return groupPlan({
    first,
    second,
    ratio,
    wanted: options.power,
    horizon: options.horizon,
    unrounded: Math.pow(Math.max(0, reach) / difference, 2),
    least: 0,
    powerOf: (groups) => powerOf(difference > 0 ? groups : exchanged(groups), error),
  });
}

function exchanged({ first, second }: PlannedGroups): PlannedGroups {
  return { first: second, second: first };
}

export const planningUnpairedDifference = defineMethod({
  id: "planning.unpaired_difference",
  version: 1,
  title: "Planning a comparison of two kits on different people",
  question: "How many people in each group show that one kit is better?",
  formula:
    "first group n, second r n. p = (p1 + r p2) / (1 + r). n = (z(1 - error/2) sqrt(p (1 - p) (1 + 1/r)) + z(power) sqrt(p1 (1 - p1) + p2 (1 - p2) / r))² / (p1 - p2)². Exact power = sum over all counts of both groups of their binomial probabilities, where the test rejects for the better kit",
  caution:
    "the same people tested with both kits need far fewer: planning.paired_difference. Fisher's test is cautious and needs more than the formula says, which leaves out any correction; Pearson's can err a little more often than stated. Power rises like a saw: with `first` people one more can be worse, with `stays` not",
  sources: ["r_power_prop_test", "fleiss1980", "fisher1935"],
  input: Input,
  options: Options,
  values: Values,
  run: planUnpairedDifference,
  examples: unpairedDifferenceExamples,
});
