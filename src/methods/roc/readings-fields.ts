import * as v from "valibot";
import { choice, estimate, proportion, quantity } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";

/** Most readings of one group. */
const MOST_READINGS = 200_000;

/** A finite number in the instrument's own unit. */
export function reading(meaning: string) {
  return v.pipe(v.number(), v.finite("expected a finite number"), v.description(meaning));
}

export function readingList(meaning: string) {
  return v.pipe(
    v.array(v.pipe(v.number(), v.finite("expected a finite number"))),
    v.maxLength(MOST_READINGS, `expected at most ${MOST_READINGS.toLocaleString("en-GB")} readings`),
    v.description(meaning),
  );
}

/** One reading a person, by the truth; to be spread into the input of a method. */
export const readingsByTruth = {
  positives: readingList("one reading for each person with the condition"),
  negatives: readingList("one reading for each person without the condition"),
};

/** Which readings speak for the condition. Never assumed: an area below 0.5 is a finding too. */
export function readingDirection() {
  return choice(
    ["higher", "lower"],
    "which readings speak for the condition: reactive is a reading at the cutoff or beyond it on this side",
  );
}
export type Direction = "higher" | "lower";

/** Part of a curve. */
export function curveRange() {
  return v.strictObject({
    of: choice(["specificity", "sensitivity"], "which of the two is kept within the range"),
    from: proportion("lower end of the range"),
    to: proportion("upper end of the range, above the lower one"),
  });
}
export type CurveRange = v.InferOutput<ReturnType<typeof curveRange>>;

export function curveRanges() {
  return v.optional(
    v.pipe(
      v.array(curveRange()),
      v.maxLength(10, "expected at most 10 ranges"),
      v.description("parts of the curve whose areas are wanted"),
    ),
    [],
  );
}

/** How often people are drawn anew. */
export function redraws(standard: number) {
  return v.optional(
    whole(100, 100_000, "times that people are drawn anew, with replacement, within each group"),
    standard,
  );
}

/** Area under a curve with its standard error and intervals. */
export const AreaValues = v.strictObject({
  value: quantity(
    "probability",
    "area: P(reading of a person with the condition beyond that of one without), ties count half",
  ),
  standardError: quantity("probability", "standard error by placements (DeLong)"),
  wald: estimate("probability", "Wald interval"),
  logit: estimate("probability", "Wald interval on the logit scale"),
  score: estimate(
    "probability",
    "score interval with a variance that depends on the area alone; has a width where the area is 1",
  ),
});
export type AreaValues = v.InferOutput<typeof AreaValues>;
