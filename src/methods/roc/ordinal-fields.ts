import * as v from "valibot";
import { count, estimate, level, proportionEstimate, quantity, text } from "../../core/fields.ts";
import { AreaValues } from "./readings-fields.ts";

export const OrdinalInput = v.strictObject({
  categories: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the category, such as absent, faint, clear"),
        positives: count("people with the condition"),
        negatives: count("people without the condition"),
      }),
    ),
    v.minLength(2, "expected two categories or more"),
    v.maxLength(30, "expected at most 30 categories"),
    v.description("from the one that speaks least for the condition to the one that speaks most"),
  ),
});

export const OrdinalOptions = v.strictObject({
  level: level(),
  truncate: v.optional(
    v.pipe(
      v.boolean(),
      v.description("cut Wald limits to 0..1; false leaves them as the formula gives them"),
    ),
    true,
  ),
});

const parameter = (meaning: string) =>
  v.strictObject({
    estimate: estimate("statistic", meaning),
    standardError: quantity("statistic", "standard error, from the expected information"),
  });

const Binormal = v.strictObject({
  a: parameter("distance of the two means in standard deviations of people with the condition"),
  b: parameter(
    "standard deviation of people without the condition over that of people with it; limits on the log scale",
  ),
  covariance: quantity("statistic", "covariance of a and b"),
  area: estimate("probability", "area under the fitted curve, limits on the probit scale"),
  standardError: quantity("probability", "standard error of that area"),
  borders: v.pipe(
    v.array(
      v.strictObject({
        from: text("the lowest category beyond the border"),
        place: estimate("statistic", "in standard deviations of people without the condition"),
        standardError: quantity("statistic", "standard error, from the expected information"),
      }),
    ),
    v.description("borders between neighbouring categories that somebody is in, lowest first"),
  ),
  curve: v.pipe(
    v.array(
      v.strictObject({
        specificity: quantity("proportion", "specificity"),
        sensitivity: estimate("proportion", "fitted sensitivity there, limits on the probit scale"),
      }),
    ),
    v.description("the fitted curve, ready to be drawn"),
  ),
  fit: v.strictObject({
    logLikelihood: quantity("statistic", "log-likelihood, without the multinomial constants"),
    deviance: quantity("statistic", "likelihood ratio statistic G² against the counts themselves"),
    pearson: quantity("statistic", "Pearson's chi-square X²"),
    degreesOfFreedom: quantity("degrees of freedom", "categories in use less 3"),
    p: quantity("probability", "p-value of G² by the chi-square distribution"),
  }),
  converged: v.pipe(v.boolean(), v.description("whether the search ended at a maximum")),
  iterations: count("steps of scoring"),
});

export const OrdinalValues = v.strictObject({
  positives: count("people with the condition"),
  negatives: count("people without the condition"),
  area: AreaValues,
  exponential: v.pipe(
    v.strictObject({
      bothPositives: quantity(
        "probability",
        "Q1: P(two people with the condition both lie beyond one without), ties shared",
      ),
      bothNegatives: quantity(
        "probability",
        "Q2: P(one person with the condition lies beyond two without), ties shared",
      ),
      standardErrorExact: quantity("probability", "standard error with Q1 and Q2 from the counts"),
      standardErrorExponential: quantity("probability", "standard error with Q1 and Q2 from the area alone"),
    }),
    v.description("standard errors after Hanley and McNeil"),
  ),
  points: v.pipe(
    v.array(
      v.strictObject({
        from: text("reactive is this category and those beyond"),
        sensitivity: proportionEstimate("with exact limits"),
        specificity: proportionEstimate("with exact limits"),
      }),
    ),
    v.description("one entry per category but the lowest, same order as `categories`"),
  ),
  binormal: v.pipe(
    v.nullable(Binormal),
    v.description("two normal distributions behind the categories, by maximum likelihood"),
  ),
});

export type OrdinalInput = v.InferOutput<typeof OrdinalInput>;
export type OrdinalOptions = v.InferOutput<typeof OrdinalOptions>;
export type OrdinalValues = v.InferOutput<typeof OrdinalValues>;
