import * as v from "valibot";
import { choice, count, openProportion, proportion, quantity } from "../../core/fields.ts";
import { errorAllowed, lookFields, MOST_PEOPLE, powerWanted, singleLook } from "./looks.ts";

export const Input = v.strictObject({
  unacceptable: openProportion("proportion right that is too low: a kit like this should rarely pass"),
  expected: proportion("proportion right that is hoped for: a kit like this should pass"),
  fractions: v.pipe(
    v.array(v.pipe(proportion("share of the final total"), v.gtValue(0, "expected a proportion above 0"))),
    v.minLength(1, "expected one look or more"),
    v.maxLength(20, "expected at most 20 looks"),
    v.description("when to look: shares of the final total, increasing, the last one 1"),
  ),
});
export const Options = v.strictObject({
  error: errorAllowed(),
  power: powerWanted(),
  spending: v.optional(
    choice(["obrien_fleming", "pocock"], "how the error is spent: hardly any early, or evenly"),
    "obrien_fleming",
  ),
  failure: v.optional(
    v.pipe(
      v.boolean(),
      v.description("stop also where the kit does badly, by spending 1 - power the same way"),
    ),
    true,
  ),
  total: v.optional(
    v.nullable(
      v.pipe(
        count("final total; null: the smallest that reaches the power"),
        v.minValue(1, "expected 1 or more"),
        v.maxValue(MOST_PEOPLE, "expected at most 20,000"),
      ),
    ),
    null,
  ),
  horizon: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(1, "expected 1 or more"),
      v.maxValue(5_000, "expected at most 5,000"),
      v.description("largest final total looked at"),
    ),
    2_000,
  ),
});
export const Values = v.strictObject({
  total: quantity("people", "final total: that given, or the smallest that reaches the power"),
  looks: v.pipe(
    v.array(
      v.strictObject({
        ...lookFields,
        errorAllowed: quantity("probability", "error that may be spent by this look"),
        errorSpent: quantity(
          "probability",
          "probability of having passed by this look if unacceptable, no stop for failure being obeyed",
        ),
        passIfExpected: quantity("probability", "probability of having passed by this look if as expected"),
        stopIfUnacceptable: quantity(
          "probability",
          "probability of having stopped by this look if unacceptable",
        ),
      }),
    ),
    v.description("one entry for each fraction; empty where there is no total"),
  ),
  error: quantity("probability", "probability of passing if unacceptable, all stops obeyed"),
  power: quantity("probability", "probability of passing if as expected, all stops obeyed"),
  expectedTotal: v.pipe(
    v.strictObject({
      unacceptable: quantity("people", "mean number of people if the kit is unacceptable"),
      expected: quantity("people", "mean number of people if the kit is as expected"),
    }),
    v.description("people needed on average"),
  ),
  single: singleLook("one look at the end, to compare with; searched up to the horizon"),
});
export type GroupSequentialInput = v.InferOutput<typeof Input>;
export type GroupSequentialOptions = v.InferOutput<typeof Options>;
export type GroupSequentialValues = v.InferOutput<typeof Values>;
