import * as v from "valibot";
import { choice, estimate, level, openProportion, proportion, quantity } from "../../core/fields.ts";
import { VERDICTS } from "../proportion/criterion.ts";
import { MEASURES, strataFields } from "./fields.ts";

export const AXES = ["both", "reactive", "nonreactive"] as const;
export type Axis = (typeof AXES)[number];

function oddsRatio(meaning: string, standard: number) {
  return v.optional(
    v.pipe(
      v.number(),
      v.minValue(0.001, "expected 0.001 or more"),
      v.maxValue(1000, "expected at most 1,000"),
      v.description(meaning),
    ),
    standard,
  );
}

export const Input = v.strictObject({
  ...strataFields,
  criterion: v.pipe(
    v.strictObject({
      measure: v.pipe(v.picklist(MEASURES), v.description("what is demanded of")),
      threshold: openProportion("the value demanded"),
      direction: choice(["at_least", "at_most"], "which side of the threshold is demanded"),
    }),
    v.description("what the kit must show"),
  ),
});
export const Options = v.strictObject({
  level: level(),
  rule: v.optional(
    choice(["interval", "point"], "the verdict follows the whole interval, or the estimate alone"),
    "interval",
  ),
  lowest: oddsRatio("lowest odds ratio looked at: at most 1", 0.1),
  highest: oddsRatio("highest odds ratio looked at: at least 1", 10),
  points: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(2, "expected 2 or more"),
      v.maxValue(50, "expected at most 50"),
      v.description("points below 1, and as many above, evenly spread in log odds ratio"),
    ),
    8,
  ),
});

export const Verdict = (meaning: string) => choice(VERDICTS, meaning);
const Point = v.strictObject({
  oddsRatio: quantity("ratio", "odds of verification, diseased over nondiseased with the same result"),
  estimate: estimate("proportion", "the measure demanded of"),
  sensitivity: quantity("proportion", "sensitivity"),
  specificity: quantity("proportion", "specificity"),
  verdict: Verdict("verdict there"),
});
const Border = v.strictObject({
  oddsRatio: quantity("ratio", "odds ratio at which the verdict changes"),
  below: Verdict("verdict just below it"),
  above: Verdict("verdict just above it"),
  unverifiedReactive: quantity("proportion", "diseased among the unverified reactive people, there"),
  unverifiedNonreactive: quantity("proportion", "diseased among the unverified nonreactive people, there"),
});
const Axis = (meaning: string) =>
  v.pipe(
    v.strictObject({
      points: v.pipe(v.array(Point), v.description("from the lowest to the highest odds ratio")),
      borders: v.pipe(v.array(Border), v.description("where the verdict changes, ascending; empty: nowhere")),
      holds: v.pipe(
        v.strictObject({
          from: quantity("ratio", "lowest odds ratio down to which the verdict stays what it is at 1"),
          to: quantity("ratio", "highest odds ratio up to which it stays"),
        }),
        v.description("ends of the range looked at, where there is no border"),
      ),
    }),
    v.description(meaning),
  );
export const Values = v.strictObject({
  atRandom: estimate("proportion", "the measure if verification does not hang on the true state"),
  verdict: Verdict("the verdict then"),
  unverified: v.strictObject({
    reactive: v.pipe(v.number(), v.description("reactive people not verified")),
    nonreactive: v.pipe(v.number(), v.description("nonreactive people not verified")),
  }),
  verdictHolds: v.pipe(
    v.boolean(),
    v.description("the verdict is the same over the whole range and every axis"),
  ),
  axes: v.strictObject({
    both: Axis("the same odds ratio among the reactive and the nonreactive"),
    reactive: Axis("odds ratio among the reactive; 1 among the nonreactive"),
    nonreactive: Axis("odds ratio among the nonreactive; 1 among the reactive"),
  }),
  map: v.pipe(
    v.array(
      v.strictObject({
        reactive: quantity("ratio", "odds ratio among the reactive"),
        nonreactive: quantity("ratio", "odds ratio among the nonreactive"),
        estimate: estimate("proportion", "the measure demanded of"),
        verdict: Verdict("verdict there"),
      }),
    ),
    v.description("every pair of the points, row by row of the odds ratio among the reactive"),
  ),
  bounds: v.pipe(
    v.strictObject({
      lowest: proportionOrNull("if all unverified have what makes the measure lowest"),
      highest: proportionOrNull("if they have what makes it highest"),
    }),
    v.description("the measure's extremes over all odds ratios; chance not counted"),
  ),
});

function proportionOrNull(meaning: string) {
  return v.pipe(v.nullable(proportion(meaning)), v.description(meaning));
}
export type SensitivityInput = v.InferOutput<typeof Input>;
export type SensitivityOptions = v.InferOutput<typeof Options>;
export type SensitivityValues = v.InferOutput<typeof Values>;
export type AxisValues = SensitivityValues["axes"]["both"];
