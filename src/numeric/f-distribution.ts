import { betaQuantileOdds } from "./beta-quantile.ts";
import { betaTail } from "./incomplete-beta.ts";
import { requireNonNegative, requireProbability, requireShape, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/**
 * The F distribution: P(X <= x) or P(X > x).
 * @param x 0 or more, infinity allowed
 * @param d1 degrees of freedom of the numerator, above 0
 * @param d2 degrees of freedom of the denominator, above 0
 * @throws InputError outside the domain
 */
export function fCdf(x: number, d1: number, d2: number, tail: Tail = "lower"): number {
  requireNonNegative("x", x);
  requireShape("d1", d1);
  requireShape("d2", d2);
  requireTail(tail);
  const odds = (d1 / d2) * x;
  return betaTail(d1 / 2, d2 / 2, 1 / (1 + 1 / odds), 1 / (1 + odds), tail);
}

/**
 * The F quantile: the x with P(X <= x) = p or P(X > x) = p.
 * @param p probability, 0 to 1
 * @param d1 degrees of freedom of the numerator, above 0
 * @param d2 degrees of freedom of the denominator, above 0
 * @throws InputError outside the domain
 */
export function fQuantile(p: number, d1: number, d2: number, tail: Tail = "lower"): number {
  requireProbability("p", p);
  requireShape("d1", d1);
  requireShape("d2", d2);
  requireTail(tail);
  return (d2 / d1) * betaQuantileOdds(p, d1 / 2, d2 / 2, tail);
}
