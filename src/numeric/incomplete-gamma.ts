import { logGapOf } from "./deviance.ts";
import { logGammaOnePlus, stirlingCorrection } from "./gamma-function.ts";
import { requireNonNegative, requirePositive, requireTail } from "./require.ts";
import type { Tail } from "./tail.ts";

const TWO_PI = 2 * Math.PI;
const TOLERANCE = 2e-16;
const BIG = 2 ** 500;
const SMALL = 2 ** -500;
const MOST_STEPS = 10_000_000;

/**
 * The regularised incomplete gamma function: the probability that a gamma distributed number with shape a
 * and scale 1 is at most x ("lower") or above x ("upper"), each with relative accuracy of its own.
 *
 * @param a above 0, finite
 * @param x 0 or more, infinity allowed
 * @throws InputError outside the domain
 * Source: Gautschi 1979 (ACM TOMS 5, 466-481); DLMF 8.11.4 and 8.9.2; Loader 2000 for the leading factor.
 */
export function incompleteGamma(a: number, x: number, tail: Tail = "lower"): number {
  requirePositive("a", a);
  requireNonNegative("x", x);
  requireTail(tail);
  return gammaTail(a, x, tail);
}

/** As `incompleteGamma`, unchecked. */
export function gammaTail(a: number, x: number, tail: Tail): number {
  if (x === 0 || x === Number.POSITIVE_INFINITY) return (x === 0) === (tail === "upper") ? 1 : 0;
  if (a < 1 && x <= 1) return smallShapeTail(a, x, tail);
  const kernel = Math.exp(logGammaKernel(a, x));
  const side: Tail = x < a ? "lower" : "upper";
  const small = kernel * (x < a ? lowerSeries(a, x) : upperFraction(a, x));
  return tail === side ? small : 1 - small;
}

/** log of x^a e^-x / Gamma(a), the density of log x, in saddle-point form. */
export function logGammaKernel(a: number, x: number): number {
  return 0.5 * Math.log(a / TWO_PI) - stirlingCorrection(a) - a * logGapOf((x - a) / a, x / a);
}

/** The lower tail divided by its kernel, for x below about a. */
export function lowerSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let step = 1; step < MOST_STEPS; step++) {
    term *= x / (a + step);
    sum += term;
    if (term <= TOLERANCE * 0.1 * sum) break;
  }
  return sum;
}

/** The upper tail divided by its kernel, for x above about a: Legendre's continued fraction. */
export function upperFraction(a: number, x: number): number {
  let topBefore = 0;
  let bottomBefore = 1;
  let top = 1;
  let bottom = x - a + 1;
  for (let step = 1; step < MOST_STEPS; step++) {
    const alpha = step * (a - step);
    const beta = x - a + 1 + 2 * step;
    const newTop = beta * top + alpha * topBefore;
    const newBottom = beta * bottom + alpha * bottomBefore;
    const cross = newTop * bottom;
    const change = Math.abs(cross - top * newBottom);
    topBefore = top;
    bottomBefore = bottom;
    top = newTop;
    bottom = newBottom;
    if (change <= TOLERANCE * Math.abs(cross)) break;
    if (bottom > BIG) {
      top *= SMALL;
      bottom *= SMALL;
      topBefore *= SMALL;
      bottomBefore *= SMALL;
    }
  }
  return top / bottom;
}

/** Both tails for a < 1 and x <= 1, the upper one without cancellation however small a is. */
function smallShapeTail(a: number, x: number, tail: Tail): number {
  const logLead = a * Math.log(x) - logGammaOnePlus(a);
  let term = 1;
  let sum = 0;
  for (let step = 1; step < 100; step++) {
    term *= -x / step;
    const part = term / (a + step);
    sum += part;
    if (Math.abs(part) <= 1e-17 * Math.abs(sum)) break;
  }
  const lead = Math.exp(logLead);
  return tail === "lower" ? lead * (1 + a * sum) : -Math.expm1(logLead) - lead * a * sum;
}
