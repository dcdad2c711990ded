import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { proportionInterval } from "./proportion-interval.ts";

export const DIFFERENCE_METHODS = ["newcombe", "wald"] as const;
export type DifferenceMethod = (typeof DIFFERENCE_METHODS)[number];

/** So many of so many. */
export interface Share {
  readonly count: number;
  readonly total: number;
}

/**
 * Difference of two independent proportions, first minus second, with its interval.
 *
 * `newcombe`: the hybrid of the two score intervals (square and add); keeps to -1..1 and has a width
 * even at 0 and 1. `wald`: plus or minus z standard errors, cut to -1..1; has no width where both
 * proportions are 0 or 1.
 *
 * @returns all `null` where a total is 0
 * Source: newcombe1998difference, method 10
 */
export function differenceInterval(
  first: Share,
  second: Share,
  method: DifferenceMethod,
  level: number,
): Estimate {
  if (first.total === 0 || second.total === 0) return NOT_ESTIMABLE;
  const here = first.count / first.total;
  const there = second.count / second.total;
  const value = here - there;
  if (method === "wald") {
    const variance = (here * (1 - here)) / first.total + (there * (1 - there)) / second.total;
    const reach = normalQuantile((1 - level) / 2, "upper") * Math.sqrt(variance);
    return { value, lower: Math.max(-1, value - reach), upper: Math.min(1, value + reach) };
  }
  const score = { method: "wilson", level } as const;
  const one = proportionInterval(first.count, first.total, score);
  const other = proportionInterval(second.count, second.total, score);
  return {
    value,
    lower: value - Math.hypot(here - one.lower, other.upper - there),
    upper: value + Math.hypot(one.upper - here, there - other.lower),
  };
}
