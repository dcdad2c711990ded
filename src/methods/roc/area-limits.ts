import type { Estimate } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { findRoot } from "../../numeric/root.ts";

/** Wald limits of an area. */
export function waldArea(area: number, error: number, level: number, truncate: boolean): Estimate {
  const reach = normalQuantile((1 + level) / 2) * error;
  const [lower, upper] = [area - reach, area + reach];
  if (!truncate) return { value: area, lower, upper };
  return { value: area, lower: Math.max(0, lower), upper: Math.min(1, upper) };
}

/** Wald limits on the logit scale; `null` where the area is 0 or 1. */
export function logitArea(area: number, error: number, level: number): Estimate {
  if (!(area > 0 && area < 1)) return { value: area, lower: null, upper: null };
  const middle = Math.log(area / (1 - area));
  const reach = (normalQuantile((1 + level) / 2) * error) / (area * (1 - area));
  const back = (logit: number) => 1 / (1 + Math.exp(-logit));
  return { value: area, lower: back(middle - reach), upper: back(middle + reach) };
}

/**
 * Areas from which the one seen is no farther than the normal quantile times the standard deviation that they
 * themselves imply (exponential model, both groups at their mean size).
 * Source: newcombe2006auc, method 5 (memory)
 */
export function scoreArea(area: number, positives: number, negatives: number, level: number): Estimate {
  const quantile = normalQuantile((1 + level) / 2);
  const mean = (positives + negatives) / 2 - 1;
  const deviation = (at: number) => {
    const pairs = 1 + mean * ((1 - at) / (2 - at) + at / (1 + at));
    return Math.sqrt((at * (1 - at) * pairs) / (positives * negatives));
  };
  const lowerOf = (seen: number) => {
    if (seen === 0) return 0;
    const excess = (at: number) => seen - at - quantile * deviation(at);
    const near = seen * (1 - NEAR);
    return excess(near) >= 0 ? near : findRoot(excess, 0, near).root;
  };
  return { value: area, lower: lowerOf(area), upper: 1 - lowerOf(1 - area) };
}

/** So near to the area seen, as a share of it, the search begins. */
const NEAR = 1e-12;
