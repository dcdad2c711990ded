import { betaFraction } from "./beta-fraction.ts";
import { type BetaShape, betaExcess, betaShape, logBetaKernel } from "./beta-kernel.ts";
import { logGammaOnePlus, logGammaRise } from "./gamma-function.ts";
import { requirePositive, requireProbability, requireTail } from "./require.ts";
import { otherTail, type Tail } from "./tail.ts";

/**
 * The regularised incomplete beta function: the probability that a beta distributed number with
 * parameters a and b is at most x ("lower") or above x ("upper"). Each tail has full relative accuracy
 * of its own; a small upper tail is never taken as 1 - lower.
 *
 * Relative accuracy about 1e-14 up to a + b = 1e5 as long as the tail is not below 1e-100; further out
 * the logarithm's own rounding is felt (1e-13 at 1e-300). Below the smallest double it is 0.
 *
 * @param x 0 to 1. Where x is close to 1, its distance from 1 is known only to 1e-16
 * @param a above 0, finite
 * @param b above 0, finite
 * @throws InputError outside the domain
 * Source: Didonato & Morris 1992 for the choice of methods, Loader 2000 for the leading factor.
 */
export function incompleteBeta(x: number, a: number, b: number, tail: Tail = "lower"): number {
  requireProbability("x", x);
  requirePositive("a", a);
  requirePositive("b", b);
  requireTail(tail);
  return betaTail(betaShape(a, b), x, 1 - x, tail);
}

/** As `incompleteBeta`, unchecked, with x and y = 1 - x both accurate. */
export function betaTail(shape: BetaShape, x: number, y: number, tail: Tail): number {
  if (x === 0 || y === 0) return (y === 0) === (tail === "lower") ? 1 : 0;
  const { a, b } = shape;
  if (a < 1 && b * x <= 1 && x <= (b < 1 ? 0.5 : 0.7)) return smallShapeTail(a, b, x, tail);
  if (b < 1 && a * y <= 1 && y <= (a < 1 ? 0.5 : 0.7)) return smallShapeTail(b, a, y, otherTail(tail));
  const excess = betaExcess(shape, x, y);
  const kernel = Math.exp(logBetaKernel(shape, x, y, excess));
  const side: Tail = excess <= 0 ? "lower" : "upper";
  const fraction = excess <= 0 ? betaFraction(a, b, x, y, -excess) : betaFraction(b, a, y, x, excess);
  return tail === side ? kernel * fraction : 1 - kernel * fraction;
}

/**
 * Both tails for a < 1 near x = 0 (b x <= 1) by the power series, the upper one without cancellation
 * however small a is. Source: Gautschi 1979 (ACM TOMS 5, 466-481) has the same device for the gamma.
 */
function smallShapeTail(a: number, b: number, x: number, tail: Tail): number {
  const logLead = a * Math.log(x) - logGammaOnePlus(a) + logGammaRise(b, a);
  let term = 1;
  let sum = 0;
  for (let step = 1; step < 1000; step++) {
    term *= ((step - b) / step) * x;
    const part = term / (a + step);
    sum += part;
    if (Math.abs(part) <= 1e-17 * Math.abs(sum)) break;
  }
  const lead = Math.exp(logLead);
  return tail === "lower" ? lead * (1 + a * sum) : -Math.expm1(logLead) - lead * a * sum;
}
