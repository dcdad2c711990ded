import * as v from "valibot";
import { level, openProportion } from "../../core/fields.ts";
import { unpairedMethod } from "../comparison/fields.ts";
import { groupRatio, groupsExact, groupsFormula, horizon, margin, power } from "./two-kit-fields.ts";

const Input = v.strictObject({
  first: openProportion("proportion right expected of the first (new) kit, on its own people"),
  second: openProportion("proportion right expected of the second (reference) kit, on other people"),
  margin,
  ratio: groupRatio,
});
const Options = v.strictObject({
  method: unpairedMethod(),
  level: level(),
  power: power(),
  horizon: horizon("most people in the first group that the exact search looks at", 2_000, 5_000),
});
const Values = v.strictObject({ formula: groupsFormula, exact: groupsExact });
export type PlanUnpairedMarginInput = v.InferOutput<typeof Input>;
export type PlanUnpairedMarginOptions = v.InferOutput<typeof Options>;
export type PlanUnpairedMarginValues = v.InferOutput<typeof Values>;
