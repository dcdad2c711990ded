import * as v from "valibot";
import { estimate, level, quantity, text } from "../../core/fields.ts";
import { LineValues } from "./line-values.ts";
import { correction, studiesField } from "./study-fields.ts";

export const Input = v.strictObject({ ...studiesField, correction: correction() });
export const Options = v.strictObject({ level: level() });
export const Values = v.strictObject({
  line: LineValues("1 / sqrt(effective people)", "log odds ratio"),
  points: v.pipe(
    v.array(
      v.strictObject({
        inverseRootSize: quantity("statistic", "1 / sqrt(effective people)"),
        logOddsRatio: estimate("log ratio", "height of the line with limits, t distribution"),
      }),
    ),
    v.description("the line over the sizes seen, from the largest study to the smallest"),
  ),
  list: v.pipe(
    v.array(
      v.strictObject({
        label: text("study"),
        logOddsRatio: quantity("log ratio", "logarithm of the diagnostic odds ratio, after the correction"),
        standardError: quantity("log ratio", "its standard error"),
        effectivePeople: quantity(
          "people",
          "4 × people with × people without the condition / all: as many as an even study would need; the weight",
        ),
        inverseRootSize: quantity("statistic", "1 / sqrt(effective people)"),
      }),
    ),
    v.description("one entry per study, in the order given"),
  ),
});
export type SmallStudyInput = v.InferOutput<typeof Input>;
export type SmallStudyOptions = v.InferOutput<typeof Options>;
export type SmallStudyValues = v.InferOutput<typeof Values>;
