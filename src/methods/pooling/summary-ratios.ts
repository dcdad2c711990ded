import type { Estimate } from "../../core/estimate.ts";
import type { BivariateValues } from "./bivariate-fields.ts";
import type { LogitPoint, Scatter } from "./bivariate-regions.ts";
import { expit } from "./logit.ts";

/** Likelihood ratios and diagnostic odds ratio at a summary point, limits by the delta method on the log scale. */
export function summaryRatios(
  { first, second }: LogitPoint,
  scatter: Scatter | null,
  reach: number,
): BivariateValues["ratios"] {
  const sensitivity = expit(first);
  const specificity = expit(second);
  const around = (log: number, one: number, two: number): Estimate => {
    if (scatter === null) return { value: Math.exp(log), lower: null, upper: null };
    const variance = one * one * scatter.first + two * two * scatter.second + 2 * one * two * scatter.both;
    const by = reach * Math.sqrt(Math.max(0, variance));
    return { value: Math.exp(log), lower: Math.exp(log - by), upper: Math.exp(log + by) };
  };
  return {
    positive: around(Math.log(sensitivity) - Math.log(expit(-second)), 1 - sensitivity, specificity),
    negative: around(Math.log(expit(-first)) - Math.log(specificity), -sensitivity, specificity - 1),
    diagnosticOdds: around(first + second, 1, 1),
  };
}
