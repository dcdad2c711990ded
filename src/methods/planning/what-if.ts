import * as v from "valibot";
import { choice, openProportion, proportion, quantity } from "../../core/fields.ts";
import { criterionOptions, direction, horizon, power } from "./fields.ts";

const upTo = (least: number, meaning: string) =>
  v.pipe(
    v.array(openProportion(meaning)),
    v.minLength(least, `expected ${least} or more`),
    v.maxLength(12, "expected at most 12"),
    v.description(`${meaning}: ${least} to 12 of them`),
  );
const Input = v.strictObject({
  expected: v.pipe(
    v.array(proportion("a proportion expected in truth")),
    v.minLength(1, "expected 1 or more"),
    v.maxLength(12, "expected at most 12"),
    v.description("proportions expected in truth: 1 to 12 of them"),
  ),
  thresholds: upTo(1, "proportions demanded"),
  prevalences: v.optional(upTo(0, "shares of reference-positive people among those enrolled"), []),
  direction: direction(),
  of: v.optional(
    choice(["positives", "negatives"], "whom the proportion is of, by the reference"),
    "positives",
  ),
});
const Options = v.strictObject({
  ...criterionOptions,
  power: power(),
  assurance: v.optional(openProportion("probability wanted that enough people are enrolled"), 0.9),
  usable: v.optional(
    v.pipe(
      proportion("share of the people enrolled with a usable pair of results"),
      v.gtValue(0, "expected a proportion above 0"),
    ),
    1,
  ),
  horizon: horizon(),
});
const Values = v.strictObject({
  cells: v.pipe(
    v.array(
      v.strictObject({
        expected: quantity("proportion", "the proportion expected in truth"),
        threshold: quantity("proportion", "the proportion demanded"),
        first: quantity("people", "fewest positives (or negatives) that reach the power"),
        stays: quantity("people", "number from which on the power stays reached, up to the horizon"),
        enrol: v.pipe(
          v.array(
            v.strictObject({
              prevalence: quantity("proportion", "share of reference-positive people"),
              expected: quantity("people", "to be enrolled so that `stays` of them are expected"),
              assured: quantity("people", "to be enrolled so that `stays` of them come with the assurance"),
            }),
          ),
          v.description("one entry for each prevalence, in the order given"),
        ),
      }),
    ),
    v.description("every expected proportion with every threshold, the threshold running faster"),
  ),
});
export type WhatIfInput = v.InferOutput<typeof Input>;
export type WhatIfOptions = v.InferOutput<typeof Options>;
export type WhatIfValues = v.InferOutput<typeof Values>;
