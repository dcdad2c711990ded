import * as v from "valibot";
import { choice, count, estimate, level, quantity, seed } from "../../core/fields.ts";
import { curveRange, curveRanges, readingDirection, readingsByTruth, redraws } from "./readings-fields.ts";

const side = (meaning: string) =>
  v.pipe(v.strictObject({ ...readingsByTruth, direction: readingDirection() }), v.description(meaning));

export const CompareInput = v.strictObject({
  design: choice(
    ["paired", "independent"],
    "paired: entry i of a list is the same person in `first` and `second`; independent: different people",
  ),
  first: side("readings of the first instrument or group"),
  second: side("readings of the second instrument or group"),
});

export const CompareOptions = v.strictObject({
  level: level(),
  ranges: curveRanges(),
  replicates: redraws(2000),
  seed: seed(1),
});

const Side = (meaning: string) =>
  v.pipe(
    v.strictObject({
      positives: count("people with the condition"),
      negatives: count("people without the condition"),
      area: estimate("probability", "area under the curve with Wald limits on the logit scale"),
      standardError: quantity("probability", "standard error by placements (DeLong)"),
    }),
    v.description(meaning),
  );

export const CompareValues = v.strictObject({
  first: Side("the first curve"),
  second: Side("the second curve"),
  covariance: quantity("statistic", "covariance of the two areas; 0 where people differ"),
  correlation: quantity("statistic", "correlation of the two areas; 0 where people differ"),
  difference: estimate("probability", "first less second area, with Wald limits"),
  standardError: quantity("probability", "standard error of the difference"),
  z: quantity("statistic", "difference over its standard error"),
  p: quantity("probability", "two-sided p-value of no difference, by the normal distribution"),
  ranges: v.pipe(
    v.array(
      v.strictObject({
        range: curveRange(),
        first: quantity("probability", "partial area of the first curve"),
        second: quantity("probability", "partial area of the second curve"),
        difference: estimate("probability", "first less second, with percentile limits"),
        standardError: quantity("probability", "standard deviation of the replicates"),
        z: quantity("statistic", "difference over that standard error"),
        p: quantity("probability", "two-sided p-value of no difference, by the normal distribution"),
      }),
    ),
    v.description("one entry per range asked, same order"),
  ),
});

export type CompareInput = v.InferOutput<typeof CompareInput>;
export type CompareOptions = v.InferOutput<typeof CompareOptions>;
export type CompareValues = v.InferOutput<typeof CompareValues>;
