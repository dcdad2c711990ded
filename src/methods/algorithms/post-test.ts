import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";

const LARGEST_RATIO = 1e12;

const Input = v.strictObject({
  pretest: proportion("probability of the condition before any test"),
  ratios: v.pipe(
    v.array(
      v.pipe(
        v.number(),
        v.minValue(0, "expected 0 or more"),
        v.maxValue(LARGEST_RATIO, "expected at most 1e12"),
        v.description("likelihood ratio of the result seen"),
      ),
    ),
    v.minLength(1, "expected one likelihood ratio or more"),
    v.maxLength(20, "expected at most 20 likelihood ratios"),
    v.description("likelihood ratio of each result, in the order of the tests"),
  ),
});
const Options = v.strictObject({});
const Values = v.strictObject({
  steps: v.pipe(
    v.array(
      v.strictObject({
        ratio: quantity("ratio", "likelihood ratio of the result"),
        before: quantity("probability", "probability of the condition before this result"),
        after: quantity("probability", "probability of the condition after it"),
      }),
    ),
    v.description("one entry per result, same order"),
  ),
  after: quantity("probability", "probability of the condition after all results"),
  combined: quantity("ratio", "product of all likelihood ratios"),
});
export type PostTestInput = v.InferOutput<typeof Input>;
export type PostTestOptions = v.InferOutput<typeof Options>;
export type PostTestValues = v.InferOutput<typeof Values>;
