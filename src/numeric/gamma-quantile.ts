import { betaQuantileOdds } from "./beta-quantile.ts";
import { manyFor } from "./incomplete-gamma.ts";
import { requireProbability, requireShape, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/**
 * The quantile of a gamma distribution with shape a and scale 1: the x with P(X <= x) = p ("lower") or
 * P(X > x) = p ("upper"). Relative accuracy as for `betaQuantile`; below 1e-275 digits are lost.
 *
 * @param p probability, 0 to 1
 * @param a above 0, from 1e-100 to 1e16
 * @returns x, 0 or more; Infinity where no probability is left above
 * @throws InputError outside the domain
 */
export function gammaQuantile(p: number, a: number, tail: Tail = "lower"): number {
  requireProbability("p", p);
  requireShape("a", a);
  requireTail(tail);
  const many = manyFor(a);
  return many * betaQuantileOdds(p, a, many, tail);
}
