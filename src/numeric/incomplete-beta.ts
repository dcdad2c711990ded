import { betaFraction } from "./beta-fraction.ts";
import { betaExcess, logBetaKernel } from "./beta-kernel.ts";
import { logBetaScale, logGammaOnePlus, logGammaRise } from "./gamma-function.ts";
import { requireProbability, requireShape, requireTail } from "./require.ts";
import { otherTail, type Tail } from "./tail.ts";

const TOLERANCE = 1e-17;
const MOST_TERMS = 1000;

/**
 * The regularised incomplete beta function: the probability that a beta distributed number with
 * parameters a and b is at most x ("lower") or above x ("upper"). Each tail has full relative accuracy
 * of its own; a small upper tail is never taken as 1 - lower.
 *
 * Relative accuracy about 1e-14 up to a + b = 1e5 as long as the tail is not below 1e-100; further out
 * the logarithm's own rounding is felt (1e-13 at 1e-300). Below the smallest double it is 0.
 *
 * @param x 0 to 1. Where x is close to 1, its distance from 1 is known only to 1e-16
 * @param a above 0, from 1e-100 to 1e16
 * @param b as a
 * @throws InputError outside the domain
 * Source: Didonato & Morris 1992 for the choice of methods, Loader 2000 for the leading factor.
 */
export function incompleteBeta(x: number, a: number, b: number, tail: Tail = "lower"): number {
  requireProbability("x", x);
  requireShape("a", a);
  requireShape("b", b);
  requireTail(tail);
  return betaTail(a, b, x, 1 - x, tail);
}

/** As `incompleteBeta`, unchecked, with x and y = 1 - x both accurate. */
export function betaTail(a: number, b: number, x: number, y: number, tail: Tail): number {
  if (x === 0 || y === 0) return (y === 0) === (tail === "lower") ? 1 : 0;
  if (hasSmallShape(a, b, x)) return smallShapeTail(a, b, x, tail);
  if (hasSmallShape(b, a, y)) return smallShapeTail(b, a, y, otherTail(tail));
  const excess = betaExcess(a, b, x, y);
  const kernel = Math.exp(logBetaKernel(a, b, logBetaScale(a, b), x, y, excess));
  const small = kernel === 0 ? 0 : kernel * nearFraction(a, b, x, y, excess);
  return excess <= 0 === (tail === "lower") ? small : 1 - small;
}

/** The continued fraction of the tail on the near side of the mean. */
function nearFraction(a: number, b: number, x: number, y: number, excess: number): number {
  return excess <= 0
    ? betaFraction(a, b, x, y, -excess, TOLERANCE)
    : betaFraction(b, a, y, x, excess, TOLERANCE);
}

/**
 * log of the lower tail where the kernel is known already; unchecked, 0 < x < 1.
 *
 * @param tolerance relative, of the tail
 */
export function logLowerTail(
  a: number,
  b: number,
  x: number,
  y: number,
  excess: number,
  logKernel: number,
  tolerance: number,
): number {
  if (hasSmallShape(a, b, x)) return Math.log(smallShapeTail(a, b, x, "lower"));
  if (hasSmallShape(b, a, y)) return Math.log(smallShapeTail(b, a, y, "upper"));
  if (excess < 0) return logKernel + Math.log(betaFraction(a, b, x, y, -excess, tolerance));
  return Math.log1p(-Math.exp(logKernel) * betaFraction(b, a, y, x, excess, tolerance));
}

/** Whether `smallShapeTail` is the method of choice: a below 1, and x so near 0 that its series is short. */
function hasSmallShape(a: number, b: number, x: number): boolean {
  return a < 1 && b * x <= 1.6 && x <= (b < 1 ? 0.5 : 0.7);
}

/**
 * Both tails for a < 1 near x = 0 by the power series, the upper one without cancellation however small
 * a is. Source: Gautschi 1979 (ACM TOMS 5, 466-481) has the same device for the gamma function.
 */
function smallShapeTail(a: number, b: number, x: number, tail: Tail): number {
  const logLead = a * Math.log(b * x) - logGammaOnePlus(a) + logGammaRise(b, a);
  let term = 1;
  let sum = 0;
  for (let step = 1; step < MOST_TERMS; step++) {
    term *= ((step - b) / step) * x;
    const part = term / (a + step);
    sum += part;
    if (Math.abs(part) <= 1e-17 * Math.abs(sum)) break;
  }
  const lead = Math.exp(logLead);
  return tail === "lower" ? lead * (1 + a * sum) : -Math.expm1(logLead) - lead * a * sum;
}
