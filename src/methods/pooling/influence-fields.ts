import * as v from "valibot";
import { choice, estimate, level, openProportion, quantity, text } from "../../core/fields.ts";
import { likelihoodField, quadratureOption } from "./bivariate-fields.ts";
import { studiesField } from "./study-fields.ts";

export const InfluenceInput = v.strictObject({
  ...studiesField,
  ...likelihoodField,
  criterion: v.nullable(
    v.strictObject({
      sensitivity: openProportion("least sensitivity that the lower limit of the summary must reach"),
      specificity: openProportion("least specificity that the lower limit of the summary must reach"),
    }),
  ),
});

export const InfluenceOptions = v.strictObject({ level: level(0.95), ...quadratureOption });

const verdict = (meaning: string) => choice(["met", "not_met", "not_asked", "not_estimable"], meaning);
const point = {
  sensitivity: estimate("proportion", "sensitivity at the middle of the studies"),
  specificity: estimate("proportion", "specificity at the middle of the studies"),
  verdict: verdict("whether both lower limits reach the criterion"),
};

export const InfluenceValues = v.strictObject({
  whole: v.pipe(v.strictObject(point), v.description("all studies together")),
  without: v.pipe(
    v.array(
      v.strictObject({
        label: text("the study left out"),
        ...point,
        changesVerdict: v.pipe(
          v.boolean(),
          v.description("whether the criterion is met without it and not with it, or the reverse"),
        ),
        distance: quantity(
          "statistic",
          "how far the summary point moves: half its squared distance in units of its covariance",
        ),
        spread: v.strictObject({
          sensitivity: quantity("log ratio", "between-study standard deviation of logit sensitivity"),
          specificity: quantity("log ratio", "between-study standard deviation of logit specificity"),
          correlation: quantity("statistic", "between-study correlation of the two logits"),
        }),
        residual: v.strictObject({
          sensitivity: quantity(
            "statistic",
            "its sensitivity against the prediction of all others, normal score",
          ),
          specificity: quantity(
            "statistic",
            "its specificity against the prediction of all others, normal score",
          ),
        }),
      }),
    ),
    v.description("one entry per study left out, same order as `studies`"),
  ),
  farthest: v.nullable(text("study without which the summary point moves farthest")),
});

export type InfluenceInput = v.InferOutput<typeof InfluenceInput>;
export type InfluenceOptions = v.InferOutput<typeof InfluenceOptions>;
export type InfluenceValues = v.InferOutput<typeof InfluenceValues>;
