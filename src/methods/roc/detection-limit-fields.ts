import * as v from "valibot";
import {
  choice,
  count,
  estimate,
  level,
  openProportion,
  proportionEstimate,
  quantity,
} from "../../core/fields.ts";

const tested = {
  reactive: count("devices reactive"),
  tested: count("devices with a valid result"),
};

export const Input = v.strictObject({
  levels: v.pipe(
    v.array(
      v.strictObject({
        concentration: v.pipe(
          v.number(),
          v.minValue(1e-100, "expected a concentration above 0; put blanks under blank"),
          v.maxValue(1e100, "expected at most 1e100"),
          v.description("concentration of the analyte, in any unit, the same for all"),
        ),
        ...tested,
      }),
    ),
    v.minLength(1, "expected one concentration or more"),
    v.maxLength(500, "expected at most 500 rows"),
    v.description("one entry per concentration and run: the same concentration may come several times"),
  ),
  blank: v.pipe(
    v.nullable(v.strictObject(tested)),
    v.description("devices run without the analyte; null where there were none. They are not fitted"),
  ),
  lackOfFit: choice(
    ["ignore", "widen", "widen_when_shown"],
    "whether limits are widened by the scatter around the line: never, where it is above chance, or where the test of fit shows it",
  ),
});
export const Options = v.strictObject({
  level: level(),
  probabilities: v.optional(
    v.pipe(
      v.array(openProportion("probability of a reactive result")),
      v.minLength(1, "expected one probability or more"),
      v.maxLength(50, "expected at most 50 probabilities"),
      v.description("probabilities of a reactive result whose concentrations are wanted"),
    ),
    [0.05, 0.5, 0.95],
  ),
  shownBelow: v.optional(openProportion("for widen_when_shown: p-value of fit below which it is shown"), 0.1),
});

const Fit = v.strictObject({
  intercept: estimate("statistic", "height of the line at a concentration of 1"),
  interceptError: quantity("statistic", "its standard error, not widened"),
  slope: estimate("statistic", "rise of the line per tenfold concentration"),
  slopeError: quantity("statistic", "its standard error, not widened"),
  covariance: quantity("statistic", "covariance of intercept and slope, not widened"),
  fit: v.strictObject({
    deviance: quantity("statistic", "twice the log-likelihood that the line loses"),
    pearson: quantity("statistic", "Pearson's chi-square around the line"),
    degreesOfFreedom: quantity("degrees of freedom", "rows - 2"),
    p: quantity("probability", "p-value of Pearson's chi-square"),
    factor: quantity("ratio", "factor by which variances were widened; 1 for none"),
    g: quantity(
      "ratio",
      "(quantile × error of the slope / slope)²: from 1 on concentrations have no fiducial limits",
    ),
  }),
  concentrations: v.pipe(
    v.array(
      v.strictObject({
        probability: quantity("probability", "probability of a reactive result"),
        log10: estimate("statistic", "log10 of the concentration, fiducial limits"),
        concentration: estimate("statistic", "the concentration, in the unit given, fiducial limits"),
      }),
    ),
    v.description("one entry per probability asked for, same order"),
  ),
  curve: v.pipe(
    v.array(
      v.strictObject({
        concentration: quantity("statistic", "concentration"),
        probability: estimate("probability", "probability of a reactive result, pointwise limits"),
      }),
    ),
    v.description("the line over the concentrations tested, evenly spread in log10"),
  ),
});

export const Values = v.strictObject({
  probit: v.pipe(
    Fit,
    v.description("probability = normal distribution at intercept + slope log10(concentration)"),
  ),
  logit: v.pipe(Fit, v.description("log odds = intercept + slope log10(concentration)")),
  rows: v.pipe(
    v.array(
      v.strictObject({
        concentration: quantity("statistic", "concentration"),
        reactive: proportionEstimate("reactive among tested, exact limits"),
        byProbit: quantity("probability", "by the probit line"),
        byLogit: quantity("probability", "by the logit line"),
      }),
    ),
    v.description("one entry per row, in the order given"),
  ),
  noneUpTo: quantity("statistic", "highest concentration up to which no device was reactive; null: none"),
  allFrom: quantity("statistic", "lowest concentration from which on every device was reactive; null: none"),
  observed: v.pipe(
    v.array(
      v.strictObject({
        probability: quantity("probability", "probability of a reactive result"),
        concentration: quantity(
          "statistic",
          "lowest concentration tested from which on at least this share was reactive at each",
        ),
      }),
    ),
    v.description("without any line: one entry per probability asked for"),
  ),
  blank: v.pipe(
    v.nullable(proportionEstimate("reactive among blanks, exact limits")),
    v.description("devices run without the analyte"),
  ),
});
export type DetectionInput = v.InferOutput<typeof Input>;
export type DetectionOptions = v.InferOutput<typeof Options>;
export type DetectionValues = v.InferOutput<typeof Values>;
export type FitValues = v.InferOutput<typeof Fit>;
