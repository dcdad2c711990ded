import * as v from "valibot";
import { choice, level } from "../../core/fields.ts";
import {
  discordanceBounds,
  discordanceRange,
  horizon,
  pairedExact,
  pairedFormula,
  pairedKits,
  power,
} from "./two-kit-fields.ts";

export const MCNEMAR_TESTS = ["mcnemar_mid_p", "mcnemar_exact", "mcnemar"] as const;
const Input = v.strictObject(pairedKits);
const Options = v.strictObject({
  level: level(),
  power: power(),
  test: v.optional(
    choice(MCNEMAR_TESTS, "the test of the comparison: mid-P, exact, or chi-square without correction"),
    "mcnemar_mid_p",
  ),
  horizon: horizon("most people the exact search looks at", 10_000, 100_000),
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
