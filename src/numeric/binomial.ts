import { InputError } from "../core/input-error.ts";
import { deviance } from "./deviance.ts";
import { exactExcess } from "./exact-excess.ts";
import { factorialCorrection } from "./gamma-function.ts";
import { betaTail } from "./incomplete-beta.ts";
import { normalQuantile } from "./normal.ts";
import { requireCount, requireNumber, requireProbability, requireTail } from "./require.ts";
import { otherTail, type Tail } from "./tail.ts";

/**
 * The logarithm of the binomial probability of x events among n, -Infinity where x can't happen.
 * @param x a whole number; outside 0..n the probability is 0
 * @param n whole number of trials, 0 or more
 * @param p probability of the event, 0 to 1
 * @throws InputError outside the domain
 * Source: Loader 2000, saddle-point form, accurate for any n.
 */
export function binomialLogMass(x: number, n: number, p: number): number {
  requireWhole(x);
  requireCount("n", n);
  requireProbability("p", p);
  if (x < 0 || x > n) return Number.NEGATIVE_INFINITY;
  if (p === 0 || p === 1) return x === n * p ? 0 : Number.NEGATIVE_INFINITY;
  if (n === 0) return 0;
  if (x === 0) return n * Math.log1p(-p);
  if (x === n) return n * Math.log(p);
  if (p > 0.5) return logMassInside(n - x, n, 1 - p);
  return logMassInside(x, n, p);
}

/** For 0 < x < n and p <= 1/2, so that 1 - p is as good as p. */
function logMassInside(x: number, n: number, p: number): number {
  const excess = exactExcess(n, p, x);
  const correction = factorialCorrection(n) - factorialCorrection(x) - factorialCorrection(n - x);
  return correction - deviance(x, n * p, -excess) - deviance(n - x, n * (1 - p), excess);
}

/** The binomial probability of x events among n. Arguments as for `binomialLogMass`. */
export function binomialMass(x: number, n: number, p: number): number {
  return Math.exp(binomialLogMass(x, n, p));
}

/**
 * The binomial distribution: P(X <= x) ("lower") or P(X > x) ("upper"), each with relative accuracy
 * of its own.
 * @param x any number; the part after the point is dropped downwards
 * @param n whole number of trials, 0 or more
 * @param p probability of the event, 0 to 1
 * @throws InputError outside the domain
 */
export function binomialCdf(x: number, n: number, p: number, tail: Tail = "lower"): number {
  requireNumber("x", x);
  requireCount("n", n);
  requireProbability("p", p);
  requireTail(tail);
  const events = Math.floor(x);
  if (events < 0 || events >= n) return events < 0 === (tail === "upper") ? 1 : 0;
  return betaTail(events + 1, n - events, p, 1 - p, otherTail(tail));
}

/**
 * The binomial quantile: the smallest x with P(X <= x) >= q. A cdf value that was rounded in its last
 * places still gives its own x back.
 * @param q probability, 0 to 1
 * @param n whole number of trials, 0 or more
 * @param p probability of the event, 0 to 1
 * @throws InputError outside the domain
 */
export function binomialQuantile(q: number, n: number, p: number): number {
  requireProbability("q", q);
  requireCount("n", n);
  requireProbability("p", p);
  if (q === 0 || n === 0 || p === 0) return 0;
  if (q === 1 || p === 1) return n;
  const enough = q * (1 - 64 * Number.EPSILON);
  const spread = Math.sqrt(n * p * (1 - p));
  const guess = Math.floor(n * p + spread * normalQuantile(q) + 0.5);
  let low = Math.min(Math.max(guess, 0), n);
  let high = low;
  let stride = Math.max(1, Math.floor(spread * 0.01));
  if (binomialCdf(low, n, p) >= enough) {
    do {
      high = low;
      low = Math.max(low - stride, -1);
      stride *= 2;
    } while (low >= 0 && binomialCdf(low, n, p) >= enough);
  } else {
    do {
      low = high;
      high = Math.min(high + stride, n);
      stride *= 2;
    } while (binomialCdf(high, n, p) < enough);
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (binomialCdf(middle, n, p) >= enough) high = middle;
    else low = middle;
  }
  return high;
}

function requireWhole(x: number): void {
  if (!Number.isInteger(x)) throw new InputError(["x"], "a whole number", x);
}
