import * as v from "valibot";
import { choice, count, estimate, quantity, text } from "../../core/fields.ts";

export const BETWEEN_ESTIMATORS = ["dersimonianLaird", "pauleMandel", "ml", "reml"] as const;
export type BetweenEstimator = (typeof BETWEEN_ESTIMATORS)[number];

export const SCALES = ["as_given", "log", "logit"] as const;
export type Scale = (typeof SCALES)[number];

/** On what scale the effects are pooled; the results are given there and on the natural scale. */
export function scale() {
  return choice(
    SCALES,
    "what the effects are: plain numbers, logarithms of ratios, or log odds of proportions",
  );
}

function summaries(where: string) {
  return {
    summary: estimate("statistic", `pooled effect, ${where}, limits from the normal distribution`),
    hartungKnapp: estimate(
      "statistic",
      `the same with the error and the t distribution of Hartung and Knapp, ${where}`,
    ),
    prediction: v.pipe(
      v.strictObject({
        lower: quantity("statistic", "lower limit"),
        upper: quantity("statistic", "upper limit"),
      }),
      v.description(
        `where the true effect of another study of the kind would lie, ${where}; t with studies - 2 degrees of freedom`,
      ),
    ),
  };
}

const Model = v.strictObject({
  betweenSd: quantity("statistic", "standard deviation of the true effects between studies"),
  betweenVariance: quantity("statistic", "its square"),
  ...summaries("as pooled"),
  standardError: quantity("statistic", "standard error of the pooled effect"),
  hartungKnappError: quantity("statistic", "standard error of Hartung and Knapp"),
  natural: v.pipe(v.strictObject(summaries("natural scale")), v.description("transformed back")),
});

export const RandomEffects = v.strictObject({
  studies: count("studies pooled"),
  betweenSd: estimate(
    "statistic",
    "standard deviation of the true effects between studies: Paule and Mandel's, limits by the profile of Q",
  ),
  heterogeneity: v.strictObject({
    q: quantity("statistic", "weighted sum of squares around the fixed effect"),
    degreesOfFreedom: quantity("degrees of freedom", "studies - 1"),
    p: quantity("probability", "p-value of equal true effects, chi-square"),
    iSquared: quantity(
      "proportion",
      "share of the scatter beyond chance (I²): grows with the size of the studies, says nothing of how far effects lie apart",
    ),
  }),
  fixed: v.strictObject({
    summary: estimate("statistic", "pooled effect if all true effects were the same"),
    standardError: quantity("statistic", "its standard error"),
    natural: estimate("statistic", "the same, transformed back"),
  }),
  models: v.pipe(
    v.strictObject({ dersimonianLaird: Model, pauleMandel: Model, ml: Model, reml: Model }),
    v.description("random effects, one for each way to estimate the variance between studies"),
  ),
  list: v.pipe(
    v.array(
      v.strictObject({
        label: text("study"),
        effect: estimate("statistic", "its effect with limits of its own, as pooled"),
        standardError: quantity("statistic", "its standard error"),
        fixedWeight: quantity("proportion", "its share of the fixed effect"),
        randomWeight: quantity("proportion", "its share of the pooled effect with REML's variance"),
      }),
    ),
    v.description("one entry per study, in the order given"),
  ),
});
export type RandomEffectsValues = v.InferOutput<typeof RandomEffects>;
export type ModelValues = v.InferOutput<typeof Model>;
