import * as v from "valibot";
import { choice, level, openProportion } from "../../core/fields.ts";
import { groupRatio, groupsExact, groupsFormula, horizon, power } from "./two-kit-fields.ts";

const Input = v.strictObject({
  first: openProportion("proportion right expected of the first kit, on its own people"),
  second: openProportion("proportion right expected of the second kit, on other people"),
  ratio: groupRatio,
});
const Options = v.strictObject({
  level: level(),
  power: power(),
  test: v.optional(
    choice(["fisher", "pearson"], "the test of the comparison: Fisher's exact one, or Pearson's chi-square"),
    "fisher",
  ),
  horizon: horizon("most people in the first group that the exact search looks at", 1_000, 5_000),
});
const Values = v.strictObject({ formula: groupsFormula, exact: groupsExact });
export type PlanUnpairedInput = v.InferOutput<typeof Input>;
export type PlanUnpairedOptions = v.InferOutput<typeof Options>;
export type PlanUnpairedValues = v.InferOutput<typeof Values>;
