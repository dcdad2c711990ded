import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalCdf, normalQuantile } from "../../numeric/normal.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { clopperPearson } from "../proportion/intervals/clopper-pearson.ts";
import { wilson } from "../proportion/intervals/wilson.ts";
import { effectiveTotal, type RatioEstimate } from "./ratio-estimate.ts";

/** A design effect and where it comes from. */
export interface EffectBasis {
  readonly basis: "estimated" | "planned" | "none";
  readonly designEffect: number | null;
}

/** Estimate plus or minus so many standard errors of the ratio estimator, cut to 0..1. */
export function ratioLimits({ value, variance }: RatioEstimate, quantile: number): Estimate {
  if (value === null || variance === null || value === 0 || value === 1) {
    return { ...NOT_ESTIMABLE, value };
  }
  const reach = quantile * Math.sqrt(variance);
  return { value, lower: Math.max(0, value - reach), upper: Math.min(1, value + reach) };
}

/** Wilson's interval with the effective total in place of the total. Source: rao1992 */
export function wilsonEffective(
  { value, total }: RatioEstimate,
  { designEffect }: EffectBasis,
  quantile: number,
): Estimate {
  if (value === null || designEffect === null) return { ...NOT_ESTIMABLE, value };
  const size = effectiveTotal(total, designEffect);
  const count = value === 1 ? size : value * size;
  const outside = normalCdf(quantile, "upper");
  return { value, lower: wilson.lower(count, size, outside), upper: wilson.upper(count, size, outside) };
}

/**
 * The exact interval with the effective total; where the design effect was estimated, the total shrinks
 * further by the squared ratio of the t quantiles with total - 1 and clusters - 1 degrees of freedom.
 * Source: korn1998
 */
export function exactEffective(
  { value, total, clusters }: RatioEstimate,
  { designEffect, basis }: EffectBasis,
  level: number,
): Estimate {
  if (value === null || designEffect === null) return { ...NOT_ESTIMABLE, value };
  const outside = (1 - level) / 2;
  const shrinks =
    basis === "estimated"
      ? Math.pow(tQuantile(outside, total - 1, "upper") / tQuantile(outside, clusters - 1, "upper"), 2)
      : 1;
  const size = effectiveTotal(total, designEffect) * shrinks;
  const count = value === 1 ? size : value * size;
  return {
    value,
    lower: clopperPearson.lower(count, size, outside),
    upper: clopperPearson.upper(count, size, outside),
  };
}

/** How many standard errors an interval reaches: normal, or Student's t with these degrees of freedom. */
export function quantileOf(level: number, degrees: number | null): number {
  const outside = (1 - level) / 2;
  return degrees === null ? normalQuantile(outside, "upper") : tQuantile(outside, degrees, "upper");
}
