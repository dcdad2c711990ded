import { compute } from "../../../src/core/method.ts";
import { bivariate } from "../../../src/methods/pooling/bivariate.ts";
import { hierarchicalParameters } from "../../../src/methods/pooling/hierarchical.ts";
import type { Check } from "./reference-case.ts";

type Likelihood = Parameters<typeof bivariate.run>[0]["likelihood"];

const fitted =
  (likelihood: Likelihood): Check =>
  (inputs) => {
    const { tp = [], fn = [], fp = [], tn = [] } = inputs as Readonly<Record<string, readonly number[]>>;
    const studies = tp.map((truePositives, place) => ({
      label: `${place + 1}`,
      truePositives,
      falseNegatives: fn[place] ?? -1,
      falsePositives: fp[place] ?? -1,
      trueNegatives: tn[place] ?? -1,
    }));
    const { summary, betweenStudies, fit } = compute(
      bivariate,
      { studies, covariate: null, likelihood },
      { spread: "none" },
    ).values;
    const { sensitivity, specificity, covariance } = summary;
    return {
      logitSe: sensitivity.logit.value,
      logitSp: specificity.logit.value,
      seLogitSe: sensitivity.standardError,
      seLogitSp: specificity.standardError,
      covLogits: covariance,
      sensitivity: sensitivity.proportion.value,
      sensLower: sensitivity.proportion.lower,
      sensUpper: sensitivity.proportion.upper,
      specificity: specificity.proportion.value,
      specLower: specificity.proportion.lower,
      specUpper: specificity.proportion.upper,
      sdLogitSe: betweenStudies.sensitivity.value,
      sdLogitSp: betweenStudies.specificity.value,
      rho: betweenStudies.correlation.value,
      logLik: fit.logLikelihood,
    };
  };

export const poolingBivariateChecks: Readonly<Record<string, Check>> = {
  "G-01-ML": fitted({ kind: "normal_ml", correction: "zero_cells" }),
  "G-01-REML": fitted({ kind: "normal_reml", correction: "zero_cells" }),
  "G-03": fitted({ kind: "normal_ml", correction: "zero_cells" }),
  "G-04": fitted({ kind: "binomial" }),
  "G-06": (inputs) => {
    const {
      logitSe = -9,
      logitSp = -9,
      sdLogitSe = -9,
      sdLogitSp = -9,
      rho = -9,
    } = inputs as Readonly<Record<string, number>>;
    const found = hierarchicalParameters(logitSe, logitSp, {
      first: sdLogitSe,
      second: sdLogitSp,
      correlation: rho,
    });
    return {
      beta: found?.shape ?? null,
      Lambda: found?.accuracy ?? null,
      Theta: found?.threshold ?? null,
      varAccuracy: found?.accuracyVariance ?? null,
      varThreshold: found?.thresholdVariance ?? null,
    };
  },
};
