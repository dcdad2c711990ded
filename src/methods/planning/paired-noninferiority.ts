import * as v from "valibot";
import { choice, level } from "../../core/fields.ts";
import {
  discordanceBounds,
  discordanceRange,
  horizon,
  margin,
  pairedExact,
  pairedFormula,
  pairedKits,
  power,
} from "./two-kit-fields.ts";

const Input = v.strictObject({ ...pairedKits, margin });
const Options = v.strictObject({
  method: v.optional(
    choice(["tango", "wald"], "kind of interval whose lower limit is held against the margin"),
    "tango",
  ),
  level: level(),
  power: power(),
  horizon: horizon("most people the exact search looks at", 5_000, 20_000),
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
