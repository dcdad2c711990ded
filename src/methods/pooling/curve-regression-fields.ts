import * as v from "valibot";
import { choice, estimate, level, quantity, text } from "../../core/fields.ts";
import { LineValues } from "./line-values.ts";
import { correction, studiesField } from "./study-fields.ts";

export const Input = v.strictObject({
  ...studiesField,
  correction: correction(),
  weights: choice(
    ["equal", "inverse_variance"],
    "every study counts the same, or by one over the variance of its log odds ratio",
  ),
});
export const Options = v.strictObject({ level: level() });
export const Values = v.strictObject({
  line: LineValues("S (log odds of sensitivity + log odds of 1 - specificity)", "D (log odds ratio)"),
  oddsRatio: estimate("ratio", "diagnostic odds ratio where S is 0: exp(intercept)"),
  equalPoint: estimate("proportion", "sensitivity where it equals specificity, on the curve"),
  threshold: v.pipe(
    v.strictObject({
      spearman: quantity("statistic", "rank correlation of sensitivity with 1 - specificity over studies"),
      p: quantity("probability", "two-sided p-value of none"),
      by: choice(["all_orders", "t", "none"], "how the p-value was had"),
    }),
    v.description("do studies lie apart because their cutoffs do?"),
  ),
  curve: v.pipe(
    v.array(
      v.strictObject({
        falsePositiveRate: quantity("proportion", "1 - specificity"),
        truePositiveRate: quantity("proportion", "sensitivity"),
      }),
    ),
    v.description(
      "summary curve over the false positive rates that were seen, from the lowest to the highest",
    ),
  ),
  list: v.pipe(
    v.array(
      v.strictObject({
        label: text("study"),
        truePositiveRate: quantity("proportion", "sensitivity, after the correction"),
        falsePositiveRate: quantity("proportion", "1 - specificity, after the correction"),
        difference: quantity("log ratio", "D"),
        sum: quantity("log ratio", "S"),
        weight: quantity("statistic", "weight in the regression"),
      }),
    ),
    v.description("one entry per study, in the order given"),
  ),
});
export type CurveRegressionInput = v.InferOutput<typeof Input>;
export type CurveRegressionOptions = v.InferOutput<typeof Options>;
export type CurveRegressionValues = v.InferOutput<typeof Values>;
