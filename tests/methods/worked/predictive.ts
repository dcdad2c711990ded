import { compute } from "../../../src/core/method.ts";
import { atPrevalence } from "../../../src/methods/predictive/at-prevalence.ts";
import type { Check } from "./reference-case.ts";

const threeIntervals: Check = (inputs) => {
  const { tp, n1, tn, n0, prevalence } = inputs as Record<string, number>;
  const input = {
    truePositives: tp ?? -1,
    positives: n1 ?? -1,
    trueNegatives: tn ?? -1,
    negatives: n0 ?? -1,
    prevalence: prevalence ?? -1,
  };
  const logit = compute(atPrevalence, input).values;
  const standard = compute(atPrevalence, input, { method: "standard" }).values;
  const adjusted = compute(atPrevalence, input, { method: "adjusted_logit" }).values;
  return {
    ppv: logit.ppv.value,
    ppvLogitLower: logit.ppv.lower,
    ppvLogitUpper: logit.ppv.upper,
    ppvStdLower: standard.ppv.lower,
    ppvStdUpper: standard.ppv.upper,
    npv: logit.npv.value,
    npvLogitLower: logit.npv.lower,
    npvLogitUpper: logit.npv.upper,
    npvStdLower: standard.npv.lower,
    npvStdUpper: standard.npv.upper,
    ppvAdj: adjusted.centre.ppv,
    ppvAdjLogitLower: adjusted.ppv.lower,
    ppvAdjLogitUpper: adjusted.ppv.upper,
    npvAdj: adjusted.centre.npv,
    npvAdjLogitLower: adjusted.npv.lower,
    npvAdjLogitUpper: adjusted.npv.upper,
  };
};

export const predictiveChecks: Readonly<Record<string, Check>> = {
  "V-01": threeIntervals,
  "V-02": threeIntervals,
};
