import * as v from "valibot";
import { choice, estimate, level, proportionEstimate, quantity, seed } from "../../core/fields.ts";
import { reading, readingDirection, redraws } from "./readings-fields.ts";

const group = (meaning: string) =>
  v.pipe(
    v.array(
      v.strictObject({
        reactive: v.pipe(v.boolean(), v.description("what the eye called the device")),
        reading: reading("what the instrument measured on the same device"),
      }),
    ),
    v.maxLength(20_000, "expected at most 20,000 people"),
    v.description(meaning),
  );

export const EyeInput = v.strictObject({
  positives: group("one entry for each person with the condition"),
  negatives: group("one entry for each person without the condition"),
  direction: readingDirection(),
  atSteps: choice(
    ["middle", "best"],
    "where the curve rises at just the eye's specificity: the middle of the rise, or its best end, which flatters the instrument",
  ),
});

export const EyeOptions = v.strictObject({ level: level(), replicates: redraws(2000), seed: seed(1) });

export const EyeValues = v.strictObject({
  eye: v.strictObject({
    sensitivity: proportionEstimate("the eye's sensitivity, exact limits"),
    specificity: proportionEstimate("the eye's specificity, exact limits"),
  }),
  atEyeSpecificity: v.pipe(
    v.strictObject({
      sensitivity: estimate("proportion", "the instrument's sensitivity where its specificity is the eye's"),
      difference: estimate("proportion", "the instrument's sensitivity less the eye's"),
      cutoff: estimate("statistic", "the reading at which the instrument has the eye's specificity"),
    }),
    v.description("at equal specificity; percentile limits, people drawn with both their results"),
  ),
  atEyeSensitivity: v.pipe(
    v.strictObject({
      specificity: estimate("proportion", "the instrument's specificity where its sensitivity is the eye's"),
      difference: estimate("proportion", "the instrument's specificity less the eye's"),
      cutoff: estimate("statistic", "the reading at which the instrument has the eye's sensitivity"),
    }),
    v.description("at equal sensitivity; percentile limits, people drawn with both their results"),
  ),
  area: quantity("probability", "area under the instrument's curve"),
});

export type EyeInput = v.InferOutput<typeof EyeInput>;
export type EyeOptions = v.InferOutput<typeof EyeOptions>;
export type EyeValues = v.InferOutput<typeof EyeValues>;
