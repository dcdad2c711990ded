import * as v from "valibot";
import { openProportion, proportion, quantity, text } from "../../core/fields.ts";
import { criterionOptions, direction, horizon, power, Size } from "./fields.ts";

const Input = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion, e.g. the analyte"),
        expected: proportion("the proportion that is expected in truth"),
        threshold: openProportion("the proportion demanded"),
        direction: direction(),
      }),
    ),
    v.minLength(2, "expected two criteria or more"),
    v.maxLength(8, "expected at most 8 criteria"),
    v.description("criteria that must all be met"),
  ),
});
const Options = v.strictObject({
  ...criterionOptions,
  power: power(),
  horizon: horizon(),
});
const Sizes = (meaning: string, together: string) =>
  v.pipe(
    v.strictObject({
      eachPower: quantity("probability", "power that each criterion must have"),
      sizes: v.pipe(
        v.array(
          v.strictObject({
            label: text("name of the criterion"),
            size: Size("total from which on the criterion keeps that power, up to the horizon"),
          }),
        ),
        v.description("one entry for each criterion, in the order given"),
      ),
      together: quantity("probability", together),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  independent: Sizes(
    "if the criteria are met independently of each other",
    "probability that all are met, being independent",
  ),
  guaranteed: Sizes(
    "however the criteria hang together",
    "the least that the probability of all being met can be",
  ),
});
export type JointSizeInput = v.InferOutput<typeof Input>;
export type JointSizeOptions = v.InferOutput<typeof Options>;
export type JointSizeValues = v.InferOutput<typeof Values>;
