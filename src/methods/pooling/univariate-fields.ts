import * as v from "valibot";
import { choice, count, estimate, level, proportionEstimate, quantity, text } from "../../core/fields.ts";
import { RandomEffects } from "./random-effects-fields.ts";
import { CORRECTIONS } from "./study-fields.ts";

export const Input = v.strictObject({
  studies: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the site or study"),
        count: count("how many of them: reactive among the diseased, say"),
        total: count("of how many observed"),
      }),
    ),
    v.minLength(1, "expected one study or more"),
    v.maxLength(500, "expected at most 500 studies"),
    v.description("one proportion per site or study, each of other people"),
  ),
  correction: choice(
    CORRECTIONS,
    "for the approximations only: 0.5 added to both counts of no study, of studies where one is 0, or of all",
  ),
});
export const Options = v.strictObject({
  level: level(),
  points: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(1, "expected 1 or more"),
      v.maxValue(101, "expected at most 101"),
      v.description("places of the quadrature for each study; 1 is Laplace's approximation"),
    ),
    35,
  ),
});

const Binomial = v.strictObject({
  logOdds: estimate("log ratio", "log odds of a typical study, Wald limits"),
  standardError: quantity("log ratio", "its standard error"),
  proportion: estimate("proportion", "proportion of a typical study (the median of studies), Wald limits"),
  profile: estimate("proportion", "the same with limits by the profile of the likelihood"),
  average: quantity("proportion", "mean proportion over studies of the kind"),
  betweenSd: estimate(
    "log ratio",
    "standard deviation of the log odds between studies, limits by the profile of the likelihood",
  ),
  betweenVariance: quantity("log ratio", "its square"),
  prediction: v.pipe(
    v.strictObject({
      lower: quantity("proportion", "lower limit"),
      upper: quantity("proportion", "upper limit"),
    }),
    v.description("where the true proportion of another study of the kind would lie"),
  ),
  logLikelihood: quantity("statistic", "log-likelihood, binomial coefficients counted"),
});

export const Values = v.strictObject({
  studies: count("studies with people"),
  binomial: v.pipe(Binomial, v.description("random intercept, exact binomial likelihood")),
  common: v.strictObject({
    proportion: proportionEstimate("all people together, as if all studies had one true proportion"),
    logOdds: estimate("log ratio", "its log odds, Wald limits"),
    logLikelihood: quantity("statistic", "log-likelihood, binomial coefficients counted"),
  }),
  equality: v.strictObject({
    chiSquare: quantity("statistic", "twice the log-likelihood that one true proportion loses"),
    p: quantity("probability", "p-value of one true proportion: half of chi-square's, 1 degree of freedom"),
  }),
  approximate: v.pipe(
    v.nullable(RandomEffects),
    v.description("log odds pooled by inverse variance: usual, and biased for rare or common events"),
  ),
  list: v.pipe(
    v.array(
      v.strictObject({
        label: text("study"),
        proportion: proportionEstimate("proportion seen, exact limits"),
        shrunken: quantity("proportion", "likeliest true proportion here, the other studies considered"),
      }),
    ),
    v.description("one entry per study, in the order given"),
  ),
});
export type UnivariateInput = v.InferOutput<typeof Input>;
export type UnivariateOptions = v.InferOutput<typeof Options>;
export type UnivariateValues = v.InferOutput<typeof Values>;
export type BinomialValues = v.InferOutput<typeof Binomial>;
