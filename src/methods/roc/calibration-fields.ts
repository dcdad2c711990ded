import * as v from "valibot";
import { count, estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";

const MOST_PEOPLE = 200_000;

function probabilities(meaning: string) {
  return v.pipe(
    v.array(
      v.pipe(
        v.number(),
        v.minValue(0, "expected a probability between 0 and 1"),
        v.maxValue(1, "expected a probability between 0 and 1"),
      ),
    ),
    v.maxLength(MOST_PEOPLE, `expected at most ${MOST_PEOPLE.toLocaleString("en-GB")} people`),
    v.description(meaning),
  );
}

export const Input = v.strictObject({
  positives: probabilities("the instrument's probability of the condition, for each person with it"),
  negatives: probabilities("the same for each person without it"),
});
export const Options = v.strictObject({
  level: level(),
  groups: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(1, "expected 1 or more"),
      v.maxValue(100, "expected at most 100"),
      v.description("groups of about equally many people; equal probabilities stay together"),
    ),
    10,
  ),
  edge: v.optional(
    v.pipe(
      v.number(),
      v.minValue(0, "expected 0 or more"),
      v.maxValue(0.1, "expected at most 0.1"),
      v.description(
        "for intercept and slope, probabilities nearer to 0 or 1 than this are moved to it; 0 moves none",
      ),
    ),
    0,
  ),
});

const Group = v.strictObject({
  from: quantity("probability", "lowest probability in the group"),
  to: quantity("probability", "highest probability in the group"),
  people: count("people in the group"),
  predicted: quantity("probability", "mean of their probabilities"),
  observed: proportionEstimate("people with the condition, exact limits"),
});

export const Values = v.strictObject({
  overall: v.strictObject({
    observed: proportionEstimate("people with the condition, exact limits"),
    predicted: quantity("probability", "mean of the probabilities"),
    difference: quantity("probability", "observed less predicted"),
    ratio: estimate("ratio", "observed over predicted; limits from those of the observed"),
  }),
  large: v.strictObject({
    intercept: estimate(
      "log ratio",
      "log odds to be added to the instrument's, the slope being 1; 0 is right",
    ),
    standardError: quantity("log ratio", "its standard error"),
  }),
  recalibration: v.strictObject({
    intercept: estimate("log ratio", "log odds where the instrument's are 0"),
    interceptError: quantity("log ratio", "its standard error"),
    slope: estimate(
      "statistic",
      "slope of the log odds on the instrument's: below 1 it is too sure of itself",
    ),
    slopeError: quantity("statistic", "its standard error"),
    chiSquare: quantity("statistic", "twice the log-likelihood lost by intercept 0 and slope 1"),
    p: quantity("probability", "its p-value, 2 degrees of freedom"),
  }),
  brier: v.strictObject({
    score: quantity("probability", "mean squared distance of the probability from what is (1 or 0)"),
    standardError: quantity("probability", "its standard error"),
    scaled: quantity(
      "proportion",
      "1 - score / score of giving everybody the share seen: 1 best, below 0 worse",
    ),
    reliability: quantity("probability", "by the groups: distance of observed from predicted, squared"),
    resolution: quantity("probability", "by the groups: how far the observed shares lie apart, squared"),
    uncertainty: quantity("probability", "share × (1 - share): score of giving everybody the share seen"),
    within: quantity(
      "probability",
      "what the groups hide: score = reliability - resolution + uncertainty + within",
    ),
    expected: quantity("probability", "score expected if all probabilities were right"),
    z: quantity("statistic", "distance of the score from it, over its standard error if they were right"),
    p: quantity("probability", "two-sided p-value, normal distribution"),
  }),
  groupTest: v.strictObject({
    chiSquare: quantity("statistic", "sum over groups of (observed - predicted)² over its variance"),
    degreesOfFreedom: quantity(
      "degrees of freedom",
      "groups: the probabilities were not fitted to these people",
    ),
    p: quantity("probability", "its p-value"),
  }),
  groups: v.pipe(v.array(Group), v.description("from the lowest probabilities to the highest")),
  moved: count("people whose probability was moved to the edge for intercept and slope"),
});
export type CalibrationInput = v.InferOutput<typeof Input>;
export type CalibrationOptions = v.InferOutput<typeof Options>;
export type CalibrationValues = v.InferOutput<typeof Values>;
