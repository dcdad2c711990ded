import * as v from "valibot";
import { level, openProportion } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { unpairedMethod } from "../comparison/fields.ts";
import { power } from "./fields.ts";
import { groupPlan, MOST_IN_GROUP, noGroupPlan } from "./group-plan.ts";
import { marginPower } from "./two-group-power.ts";
import { unpairedMarginExamples } from "./two-kit-examples.ts";
import { groupRatio, groupsExact, groupsFormula, margin, searchHorizon } from "./two-kit-fields.ts";

const Input = v.strictObject({
  first: openProportion("proportion right expected of the first (new) kit, on its own people"),
  second: openProportion("proportion right expected of the second (reference) kit, on other people"),
  margin,
  ratio: groupRatio(),
});
const Options = v.strictObject({
  method: unpairedMethod(),
  level: level(),
  power: power(),
  horizon: searchHorizon(MOST_IN_GROUP),
});
const Values = v.strictObject({ formula: groupsFormula, exact: groupsExact });
export type PlanUnpairedMarginInput = v.InferOutput<typeof Input>;
export type PlanUnpairedMarginOptions = v.InferOutput<typeof Options>;
export type PlanUnpairedMarginValues = v.InferOutput<typeof Values>;

/** A distance from the margin this small is none. */
const NO_ROOM = 1e-12;

/**
 * How many people in each of two groups show that the first kit is no worse than the second by a margin?
 *
 * Shown means: the lower limit of first minus second, two-sided at the level, is at least minus the margin,
 * as `comparison.noninferiority` decides. Exact: every size up to the horizon is looked at, none beyond.
 *
 * @param input   proportions right in people of one reference status, margin without a sign, size of the
 *   second group over the first
 * @param options interval, its two-sided level (one-sided error (1 - level) / 2), power, horizon
 * @returns sizes by formula and by exact power; `null` with a note where the first kit is expected to be
 *   worse by the margin or more (`beyond_margin`), the horizon is too near (`out_of_reach`), or the formula
 *   gives 0 (`no_spread`)
 * Sources: blackwelder1982 (formula), miettinen1985, newcombe1998difference (intervals)
 */
export function planUnpairedNoninferiority(
  input: PlanUnpairedMarginInput,
  options: PlanUnpairedMarginOptions,
): Finding<PlanUnpairedMarginValues> {
  const { first, second, ratio } = input;
  const room = first - second + input.margin;
  if (room <= NO_ROOM) {
    const message =
      "the first kit is expected to be worse by the margin or more: no study can show the contrary. State a wider margin, if it can be defended, or a better first kit";
    return noGroupPlan("beyond_margin", message);
  }
  const { method, level: wantedLevel } = options;
  const ofError = normalQuantile((1 - wantedLevel) / 2, "upper");
  const reach = Math.max(0, ofError + normalQuantile(options.power)) / room;
  const { values, notes } = groupPlan({
    first,
    second,
    ratio,
    wanted: options.power,
    horizon: options.horizon,
    unrounded: reach * reach * (first * (1 - first) + (second * (1 - second)) / ratio),
    least: ((1 + 1 / ratio) * ofError * ofError) / (2 * input.margin),
    powerOf: (groups) => marginPower(groups, input.margin, method, wantedLevel),
  });
  const { first: least, stays } = values.exact;
  if (method === "wald" && least !== null && least !== stays) {
    const message =
      "small groups in which all are right or all wrong give Wald's interval no width, which meets any margin: such a size means nothing";
    notes.push(note("no_width", "exact.first", message));
  }
  return { values, notes };
}

export const planningUnpairedNoninferiority = defineMethod({
  id: "planning.unpaired_noninferiority",
  version: 1,
  title: "Planning non-inferiority of two kits on different people",
  question: "How many people in each group show that the first kit is no worse by a margin?",
  formula:
    "first group n, second r n, m = margin. n = (z((1 + level)/2) + z(power))² (p1 (1 - p1) + p2 (1 - p2) / r) / (p1 - p2 + m)². Exact power = sum over all counts of both groups of their binomial probabilities, where the lower limit of the interval of p1 - p2 is -m or above",
  caution:
    "the same people tested with both kits need far fewer: planning.paired_noninferiority. Planning with two equal kits leaves nothing for a first kit that is truly a little worse. The formula is Wald's. Power rises like a saw: with `first` people one more can be worse, with `stays` not",
  sources: ["blackwelder1982", "miettinen1985", "newcombe1998difference"],
  input: Input,
  options: Options,
  values: Values,
  run: planUnpairedNoninferiority,
  examples: unpairedMarginExamples,
});
