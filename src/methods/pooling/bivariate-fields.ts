import * as v from "valibot";
import { choice, count, estimate, level, quantity, text } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";
import { correction, covariateField, studiesField } from "./study-fields.ts";

/** How the likelihood of the counts is had; a choice that decides the result, so there is no default. */
export const likelihoodField = {
  likelihood: v.variant("kind", [
    v.strictObject({ kind: v.literal("binomial") }),
    v.strictObject({ kind: v.literal("normal_ml"), correction: correction() }),
    v.strictObject({ kind: v.literal("normal_reml"), correction: correction() }),
  ]),
};
export type Likelihood = v.InferOutput<typeof likelihoodField.likelihood>;

/** Places per dimension of the quadrature; used by the binomial likelihood alone. */
export const quadratureOption = {
  points: v.optional(
    whole(1, 60, "places per dimension of adaptive Gauss-Hermite quadrature; 1 is Laplace's approximation"),
    15,
  ),
};

export const BivariateInput = v.strictObject({ ...studiesField, ...covariateField, ...likelihoodField });

export const BivariateOptions = v.strictObject({
  level: level(0.95),
  interval: v.optional(
    choice(
      ["wald", "profile"],
      "limits of the summary point: Wald on the logit scale, or profile likelihood",
    ),
    "wald",
  ),
  reach: v.optional(
    choice(
      ["student", "normal"],
      "regions and predictions by F and t with studies less 2 degrees of freedom, or by chi-square and normal",
    ),
    "student",
  ),
  spread: v.optional(
    choice(["profile", "none"], "limits of the between-study spread: profile likelihood, or none (quicker)"),
    "profile",
  ),
  ...quadratureOption,
});

const summary = (meaning: string) =>
  v.strictObject({
    proportion: estimate("proportion", meaning),
    logit: estimate("log ratio", `${meaning}, logit scale`),
    standardError: quantity("log ratio", "standard error of the logit"),
  });
const points = (meaning: string) =>
  v.pipe(
    v.array(
      v.strictObject({
        sensitivity: quantity("proportion", "sensitivity"),
        specificity: quantity("proportion", "specificity"),
        logitSensitivity: quantity("log ratio", "its logit"),
        logitSpecificity: quantity("log ratio", "its logit"),
      }),
    ),
    v.description(meaning),
  );
const test = (meaning: string) =>
  v.pipe(
    v.strictObject({
      chiSquare: quantity("statistic", "twice the log-likelihood gained by a value per level"),
      degreesOfFreedom: quantity("degrees of freedom", "parameters added"),
      p: quantity("probability", "p-value by the chi-square distribution"),
    }),
    v.description(meaning),
  );
const spread = {
  sensitivity: estimate("log ratio", "between-study standard deviation of logit sensitivity"),
  specificity: estimate("log ratio", "between-study standard deviation of logit specificity"),
  correlation: estimate("statistic", "between-study correlation of the two logits"),
};

export const BivariateValues = v.strictObject({
  studies: quantity("count", "studies with people in them"),
  summary: v.strictObject({
    sensitivity: summary("sensitivity at the middle of the studies"),
    specificity: summary("specificity at the middle of the studies"),
    covariance: quantity("statistic", "covariance of the two logits' estimates"),
  }),
  betweenStudies: v.strictObject(spread),
  prediction: v.strictObject({
    sensitivity: estimate("proportion", "sensitivity in a new study: middle and prediction limits"),
    specificity: estimate("proportion", "specificity in a new study: middle and prediction limits"),
  }),
  ratios: v.strictObject({
    positive: estimate("ratio", "likelihood ratio of a reactive result at the summary point"),
    negative: estimate("ratio", "likelihood ratio of a non-reactive result at the summary point"),
    diagnosticOdds: estimate("ratio", "diagnostic odds ratio at the summary point"),
  }),
  hierarchical: v.strictObject({
    shape: estimate(
      "log ratio",
      "shape: logarithm of the ratio of the two standard deviations; 0 is symmetry",
    ),
    accuracy: estimate("log ratio", "accuracy: mean log diagnostic odds ratio where the shape is 0"),
    threshold: estimate("log ratio", "threshold: mean"),
    accuracyVariance: quantity("statistic", "between-study variance of the accuracy"),
    thresholdVariance: quantity("statistic", "between-study variance of the threshold"),
  }),
  regions: v.strictObject({
    confidence: points("border of the confidence region of the summary point, a closed line"),
    prediction: points("border of the prediction region of a new study, a closed line"),
    curve: points("summary curve over the specificities seen, from the highest to the lowest"),
  }),
  shrunken: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the study"),
        diseased: count("people with the condition"),
        nondiseased: count("people without the condition"),
        sensitivity: estimate("proportion", "sensitivity here, drawn towards the others"),
        specificity: estimate("proportion", "specificity here, drawn towards the others"),
      }),
    ),
    v.description("empirical Bayes estimates, one entry per study, same order"),
  ),
  covariate: v.nullable(
    v.strictObject({
      name: text("what tells the studies apart"),
      levels: v.pipe(
        v.array(
          v.strictObject({
            label: text("level"),
            studies: count("studies of this level"),
            sensitivity: summary("sensitivity at the middle of these studies"),
            specificity: summary("specificity at the middle of these studies"),
            covariance: quantity("statistic", "covariance of the two logits' estimates"),
          }),
        ),
        v.description("one entry per level, in the order in which they first appear"),
      ),
      betweenStudies: v.strictObject({
        sensitivity: quantity("log ratio", "standard deviation of logit sensitivity within levels"),
        specificity: quantity("log ratio", "standard deviation of logit specificity within levels"),
        correlation: quantity("statistic", "correlation of the two logits within levels"),
      }),
      logLikelihood: quantity("statistic", "log-likelihood with a summary point per level"),
      both: test("are both sensitivity and specificity the same at all levels"),
      sensitivityAlone: test("is sensitivity the same at all levels, specificity being free to differ"),
      specificityAlone: test("is specificity the same at all levels, sensitivity being free to differ"),
    }),
  ),
  fit: v.strictObject({
    logLikelihood: quantity(
      "statistic",
      "log-likelihood, constants included (restricted one with normal_reml)",
    ),
    parameters: quantity("count", "parameters of the model"),
    iterations: quantity("count", "Newton steps"),
    converged: v.pipe(v.boolean(), v.description("whether the search ended at a maximum")),
  }),
});

export type BivariateInput = v.InferOutput<typeof BivariateInput>;
export type BivariateOptions = v.InferOutput<typeof BivariateOptions>;
export type BivariateValues = v.InferOutput<typeof BivariateValues>;
