import * as v from "valibot";
import { count, openProportion, proportion, quantity, text } from "../../core/fields.ts";
import { criterionOptions, direction } from "./fields.ts";

const Input = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion, e.g. the analyte"),
        expected: proportion("the proportion that is expected in truth"),
        threshold: openProportion("the proportion demanded"),
        direction: direction(),
        total: v.pipe(
          count("people observed for this criterion"),
          v.minValue(1, "expected 1 or more"),
          v.maxValue(100_000, "expected at most 100,000"),
        ),
      }),
    ),
    v.length(2, "expected two criteria"),
    v.description("two criteria that must both be met"),
  ),
  shared: count("people who are counted in both totals"),
  correlation: v.optional(
    v.pipe(
      v.number(),
      v.minValue(-1, "expected -1 to 1"),
      v.maxValue(1, "expected -1 to 1"),
      v.description(
        "correlation (phi), in a shared person, of the two results each speaking for its criterion",
      ),
    ),
    0,
  ),
});
const Options = v.strictObject({ ...criterionOptions });
const Values = v.strictObject({
  each: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion"),
        power: quantity("probability", "probability that this criterion is met"),
      }),
    ),
    v.description("each criterion alone, in the order given"),
  ),
  together: v.pipe(
    v.strictObject({
      stated: quantity("probability", "with the correlation stated"),
      independent: quantity("probability", "if the two results of a shared person are independent"),
      lowest: quantity("probability", "the least it can be, whatever the correlation"),
      highest: quantity("probability", "the most it can be, whatever the correlation"),
    }),
    v.description("probability that both criteria are met"),
  ),
  correlation: v.pipe(
    v.strictObject({
      least: quantity("ratio", "the lowest correlation that the two expected proportions allow"),
      most: quantity("ratio", "the highest correlation that they allow"),
    }),
    v.description("what the correlation can be; both 0 where an expected proportion is 0 or 1"),
  ),
});
export type JointPowerInput = v.InferOutput<typeof Input>;
export type JointPowerOptions = v.InferOutput<typeof Options>;
export type JointPowerValues = v.InferOutput<typeof Values>;
