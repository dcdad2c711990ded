import * as v from "valibot";
import { level, text } from "../../core/fields.ts";
import { RandomEffects, scale } from "./random-effects-fields.ts";

const LARGEST = 1e40;

export const Input = v.strictObject({
  effects: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the site or study"),
        effect: v.pipe(
          v.number(),
          v.minValue(-LARGEST, "expected a number of -1e40 or more"),
          v.maxValue(LARGEST, "expected a number of at most 1e40"),
          v.description("effect seen in this study"),
        ),
        standardError: v.pipe(
          v.number(),
          v.minValue(1 / LARGEST, "expected a number above 0"),
          v.maxValue(LARGEST, "expected a number of at most 1e40"),
          v.description("its standard error, above 0"),
        ),
      }),
    ),
    v.minLength(1, "expected one study or more"),
    v.maxLength(500, "expected at most 500 studies"),
    v.description("one entry per site or study, each of other people"),
  ),
  scale: scale(),
});
export const Options = v.strictObject({ level: level() });
export const Values = RandomEffects;
export type InverseVarianceInput = v.InferOutput<typeof Input>;
export type InverseVarianceOptions = v.InferOutput<typeof Options>;
