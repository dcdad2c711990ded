import { betaQuantileOdds } from "./beta-quantile.ts";
import { plainLogBeta } from "./gamma-function.ts";
import { betaTail } from "./incomplete-beta.ts";
import { requireNumber, requireProbability, requireShape, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

/** t^2 / df from where on the first term of the tail is all there is. */
const FAR = 1e40;

/**
 * Student's t distribution: P(T <= t) ("lower") or P(T > t) ("upper"), each with relative accuracy of its own.
 *
 * @param t any number, infinity allowed
 * @param df degrees of freedom, above 0, need not be whole
 * @throws InputError outside the domain
 */
export function tCdf(t: number, df: number, tail: Tail = "lower"): number {
  requireNumber("t", t);
  requireShape("df", df);
  requireTail(tail);
  const odds = (t / df) * t;
  const away =
    odds < FAR
      ? betaTail(df / 2, 0.5, 1 / (1 + odds), 1 / (1 + 1 / odds), "lower") / 2
      : Math.exp(logFarTail(df) - df * Math.log(Math.abs(t))) / 2;
  return t > 0 === (tail === "upper") ? away : 1 - away;
}

/**
 * Student's t quantile: the t with P(T <= t) = p ("lower") or P(T > t) = p ("upper"); infinite for p = 0 and 1.
 *
 * @param p probability, 0 to 1
 * @param df degrees of freedom, above 0, need not be whole
 * @throws InputError outside the domain
 */
export function tQuantile(p: number, df: number, tail: Tail = "lower"): number {
  requireProbability("p", p);
  requireShape("df", df);
  requireTail(tail);
  if (p === 0.5) return 0;
  const away = 2 * Math.min(p, 1 - p);
  const odds = betaQuantileOdds(away, 0.5, df / 2, "upper");
  const size = odds < FAR ? Math.sqrt(df * odds) : Math.exp((logFarTail(df) - Math.log(away)) / df);
  return p < 0.5 === (tail === "lower") ? -size : size;
}

/** log of P(|T| > t) t^df for t without bound. */
function logFarTail(df: number): number {
  return (df / 2) * Math.log(df) - Math.log(df / 2) - plainLogBeta(df / 2, 0.5);
}
