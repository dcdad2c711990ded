import { logGamma, logGammaOnePlus } from "./gamma-function.ts";
import { gammaTail, logGammaKernel } from "./incomplete-gamma.ts";
import { normalQuantile } from "./normal.ts";
import { requirePositive, requireProbability, requireTail } from "./require.ts";
import { otherTail, type Tail } from "./tail.ts";
import { tailStep } from "./tail-step.ts";

const MOST_STEPS = 200;

/**
 * The quantile of a gamma distribution with shape a and scale 1: the x with P(X <= x) = p ("lower") or
 * P(X > x) = p ("upper").
 *
 * @param p probability, 0 to 1
 * @param a above 0, finite
 * @returns x, 0 or more; Infinity where no probability is left above
 * @throws InputError outside the domain
 */
export function gammaQuantile(p: number, a: number, tail: Tail = "lower"): number {
  requireProbability("p", p);
  requirePositive("a", a);
  requireTail(tail);
  return p > 0.5 ? solve(1 - p, a, otherTail(tail)) : solve(p, a, tail);
}

/** For p <= 1/2. */
function solve(p: number, a: number, tail: Tail): number {
  if (p === 0) return tail === "lower" ? 0 : Number.POSITIVE_INFINITY;
  const logP = Math.log(p);
  const sign = tail === "lower" ? 1 : -1;
  let x = startingPoint(p, a, tail);
  if (x === 0) return 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const logTail = Math.log(gammaTail(a, x, tail));
    const rate = sign * Math.exp(logGammaKernel(a, x) - logTail);
    const move = tailStep(logP - logTail, rate, a - x, -x);
    x *= Math.exp(move);
    if (!(Math.abs(move) > 1e-5) || !(x > 0 && x < Number.POSITIVE_INFINITY)) break;
  }
  return x;
}

/** A first guess: Wilson & Hilferty's cube root, or the power law near 0. */
function startingPoint(p: number, a: number, tail: Tail): number {
  const z = normalQuantile(p, tail);
  const ninth = 1 / (9 * a);
  const root = 1 - ninth + z * Math.sqrt(ninth);
  if (a >= 1 && root > 0.3) return a * root * root * root;
  const logGammaNext = a < 1 ? logGammaOnePlus(a) : logGamma(a) + Math.log(a);
  const logLower = tail === "lower" ? Math.log(p) : Math.log1p(-p);
  const low = Math.exp((logLower + logGammaNext) / a);
  if (low < 0.5 * (a + 1)) return low;
  return Math.max(a, -Math.log(p));
}
