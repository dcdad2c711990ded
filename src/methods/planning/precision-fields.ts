import * as v from "valibot";
import { level, openProportion, proportion, quantity } from "../../core/fields.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { horizon } from "./fields.ts";

export const PrecisionInput = v.strictObject({
  expected: proportion("the proportion expected"),
  halfWidth: v.pipe(
    openProportion("half the length that the interval may have"),
    v.maxValue(0.5, "expected a proportion above 0, at most 0.5"),
  ),
});
export const PrecisionOptions = v.strictObject({
  method: intervalMethod(),
  level: level(),
  assurance: v.optional(openProportion("probability wanted that the interval is short enough"), 0.9),
  horizon: horizon(),
});
export const PrecisionValues = v.strictObject({
  expectedWidth: v.pipe(
    v.strictObject({
      first: quantity("people", "fewest people with whom the interval is short enough on average"),
      stays: quantity("people", "people from which on it stays so, up to the horizon"),
      halfWidth: quantity("proportion", "mean half-width with so many"),
    }),
    v.description("judged by the mean length over all results"),
  ),
  assured: v.pipe(
    v.strictObject({
      first: quantity("people", "fewest people with whom the assurance is reached"),
      stays: quantity("people", "people from which on it stays so, up to the horizon"),
      probability: quantity("probability", "probability that the interval is short enough with so many"),
    }),
    v.description("judged by how probable a result with a short enough interval is"),
  ),
  normal: v.pipe(
    v.strictObject({
      unrounded: quantity("people", "z² p (1 - p) / halfWidth²"),
      total: quantity("people", "the same, rounded up"),
    }),
    v.description("the textbook formula, from the interval of Wald"),
  ),
});
export type PrecisionInput = v.InferOutput<typeof PrecisionInput>;
export type PrecisionOptions = v.InferOutput<typeof PrecisionOptions>;
export type PrecisionValues = v.InferOutput<typeof PrecisionValues>;
