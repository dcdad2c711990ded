import * as v from "valibot";
import { level } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { discordanceOf } from "./discordance.ts";
import { power } from "./fields.ts";
import { pairedMarginPower } from "./paired-margin-power.ts";
import { noPairedPlan, pairedNotes, pairedPlan } from "./paired-plan.ts";
import { pairedMarginExamples } from "./two-kit-examples.ts";
import {
  discordanceBounds,
  discordanceRange,
  margin,
  pairedExact,
  pairedFormula,
  pairedKits,
  searchHorizon,
} from "./two-kit-fields.ts";

const MOST_HORIZON = 20_000;
const Input = v.strictObject({ ...pairedKits, margin });
const Options = v.strictObject({
  level: level(),
  power: power(),
  horizon: searchHorizon(MOST_HORIZON),
});
const Values = v.strictObject({
  discordant: discordanceRange,
  formula: pairedFormula,
  exact: pairedExact,
  bounds: discordanceBounds,
});
export type PlanPairedMarginInput = v.InferOutput<typeof Input>;
export type PlanPairedMarginOptions = v.InferOutput<typeof Options>;
export type PlanPairedMarginValues = v.InferOutput<typeof Values>;

/** A distance from the margin this small is none. */
const NO_ROOM = 1e-12;

/**
 * How many people, each tested with both kits, show that the first kit is no worse than the second by a
 * margin?
 *
 * Shown means: the lower limit of the score interval (Tango) of first minus second, two-sided at the level,
 * is at least minus the margin, as `comparison.noninferiority` decides by default. Exact: every total up to
 * the horizon is looked at, none beyond.
 *
 * @param input   proportions right in people of one reference status, the share for whom exactly one kit is
 *   right, and the margin without a sign
 * @param options level of the two-sided interval (its one-sided error is (1 - level) / 2), power, horizon
 * @returns sizes by formula and by exact power; `null` with a note where the first kit is expected to be
 *   worse by the margin or more (`beyond_margin`), the horizon is too near (`out_of_reach`), or the formula
 *   gives 0 (`no_spread`)
 * @throws InputError where the two proportions do not allow the discordant share
 * Sources: tango1998 (interval), liu2002 (formula)
 */
export function planPairedNoninferiority(
  input: PlanPairedMarginInput,
  options: PlanPairedMarginOptions,
): Finding<PlanPairedMarginValues> {
  const range = discordanceOf(input);
  const difference = input.first - input.second;
  const room = difference + input.margin;
  if (room <= NO_ROOM) {
    const message =
      "the first kit is expected to be worse by the margin or more: no study can show the contrary. State a wider margin, if it can be defended, or a better first kit";
    return noPairedPlan(range, "beyond_margin", message);
  }
  const ofError = normalQuantile((1 - options.level) / 2, "upper");
  const reach = Math.max(0, ofError + normalQuantile(options.power));
  const plan = pairedPlan({
    difference,
    range,
    wanted: options.power,
    horizon: options.horizon,
    mostHorizon: MOST_HORIZON,
    least: (ofError * ofError) / input.margin,
    formula: (discordant) =>
      (reach / room) * (reach / room) * Math.max(0, discordant - difference * difference),
    powerOf: (shares) => pairedMarginPower(shares, input.margin, options.level),
  });
  return { values: plan, notes: pairedNotes(plan, input.discordant, MOST_HORIZON) };
}

export const planningPairedNoninferiority = defineMethod({
  id: "planning.paired_noninferiority",
  version: 1,
  title: "Planning non-inferiority of two kits on the same people",
  question: "How many people, tested with both kits, show that the first is no worse by a margin?",
  formula:
    "d = first - second, psi = share for whom exactly one kit is right, m = margin. Formula: n = (z((1 + level)/2) + z(power))² (psi - d²) / (d + m)². Exact power = sum over all numbers right only on the first and only on the second of their multinomial probability, where Tango's lower limit of d is -m or above",
  caution:
    "the share of people judged differently is seldom known and decides the size: look at the bounds. Planning with two equal kits leaves nothing for a first kit that is truly a little worse. People are those of one reference status. The formula is Wald's and can be far off where few are judged differently",
  sources: ["tango1998", "liu2002"],
  input: Input,
  options: Options,
  values: Values,
  run: planPairedNoninferiority,
  examples: pairedMarginExamples,
});
