import { betaShape } from "./beta-kernel.ts";
import { betaQuantileOdds } from "./beta-quantile.ts";
import { betaTail } from "./incomplete-beta.ts";
import { requireNumber, requirePositive, requireProbability, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/**
 * Student's t distribution: P(T <= t) or P(T > t), each with relative accuracy of its own.
 * @param t infinity allowed
 * @param df degrees of freedom, above 0, need not be whole
 * @throws InputError outside the domain
 */
export function tCdf(t: number, df: number, tail: Tail = "lower"): number {
  requireNumber("t", t);
  requirePositive("df", df);
  requireTail(tail);
  const odds = (t / df) * t;
  const away = betaTail(betaShape(df / 2, 0.5), 1 / (1 + odds), 1 / (1 + 1 / odds), "lower") / 2;
  return t > 0 === (tail === "upper") ? away : 1 - away;
}

/**
 * Student's t quantile: the t with P(T <= t) = p or P(T > t) = p; infinite for p = 0 and 1.
 * @param p probability, 0 to 1
 * @param df degrees of freedom, above 0, need not be whole
 * @throws InputError outside the domain
 */
export function tQuantile(p: number, df: number, tail: Tail = "lower"): number {
  requireProbability("p", p);
  requirePositive("df", df);
  requireTail(tail);
  const small = Math.min(p, 1 - p);
  if (small === 0.5) return 0;
  const size = Math.sqrt(df * betaQuantileOdds(2 * small, 0.5, df / 2, "upper"));
  return p < 0.5 === (tail === "lower") ? -size : size;
}
