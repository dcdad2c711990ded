import { gammaQuantile } from "./gamma-quantile.ts";
import { gammaTail } from "./incomplete-gamma.ts";
import { requireNonNegative, requireShape, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/**
 * The chi-square distribution: P(X <= x) or P(X > x).
 * @param x 0 or more
 * @param df degrees of freedom, above 0, need not be whole
 * @throws InputError outside the domain
 */
export function chiSquareCdf(x: number, df: number, tail: Tail = "lower"): number {
  requireNonNegative("x", x);
  requireShape("df", df);
  requireTail(tail);
  return gammaTail(df / 2, x / 2, tail);
}

/**
 * The chi-square quantile: the x with P(X <= x) = p or P(X > x) = p.
 * @param p probability, 0 to 1
 * @param df degrees of freedom, above 0, need not be whole
 * @throws InputError outside the domain
 */
export function chiSquareQuantile(p: number, df: number, tail: Tail = "lower"): number {
  requireShape("df", df);
  return 2 * gammaQuantile(p, df / 2, tail);
}
