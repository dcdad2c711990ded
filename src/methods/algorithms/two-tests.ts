import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { jointResults, kitAccuracy, twoKitDependence } from "./two-kits-fields.ts";

const Input = v.strictObject({
  first: kitAccuracy("the first kit"),
  second: kitAccuracy("the second kit"),
  dependence: twoKitDependence(),
  prevalences: v.pipe(
    v.array(proportion("prevalence")),
    v.minLength(1, "expected one prevalence or more"),
    v.maxLength(1001, "expected at most 1001 prevalences"),
    v.description("prevalences at which predictive values are wanted"),
  ),
});
const Options = v.strictObject({});
const Rule = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "P(positive | condition present)"),
      specificity: quantity("proportion", "P(negative | condition absent)"),
      at: v.pipe(
        v.array(
          v.strictObject({
            prevalence: proportion("prevalence"),
            ppv: quantity("proportion", "P(condition present | positive)"),
            npv: quantity("proportion", "P(condition absent | negative)"),
          }),
        ),
        v.description("one entry per prevalence asked, same order"),
      ),
    }),
    v.description(meaning),
  );
const Rules = {
  serial: Rule("positive only if both are reactive"),
  parallel: Rule("positive if either is reactive"),
};
const Values = v.strictObject({
  ...Rules,
  independent: v.pipe(v.strictObject(Rules), v.description("the same if the results were independent")),
  diseased: jointResults("both results among people with the condition"),
  nondiseased: jointResults("both results among people without the condition"),
});
export type TwoTestsInput = v.InferOutput<typeof Input>;
export type TwoTestsOptions = v.InferOutput<typeof Options>;
export type TwoTestsValues = v.InferOutput<typeof Values>;
