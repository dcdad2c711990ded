import { betaFraction } from "./beta-fraction.ts";
import { betaExcess, betaShape, logBetaKernel } from "./beta-kernel.ts";
import { logBeta } from "./gamma-function.ts";
import { betaTail } from "./incomplete-beta.ts";
import { normalQuantile } from "./normal.ts";
import { requirePositive, requireProbability, requireTail } from "./require.ts";
import { otherTail, type Tail } from "./tail.ts";
import { tailStep } from "./tail-step.ts";

const MOST_STEPS = 200;

/**
 * The quantile of a beta distribution: the x with P(X <= x) = p ("lower") or P(X > x) = p ("upper").
 * Relative accuracy about 1e-14 up to a + b = 1e5, better than 1e-12 beyond.
 *
 * @param p probability, 0 to 1
 * @param a above 0, finite
 * @param b above 0, finite
 * @returns x, 0 to 1; where 1 - x matters as well use `betaQuantilePair`
 * @throws InputError outside the domain
 */
export function betaQuantile(p: number, a: number, b: number, tail: Tail = "lower"): number {
  return betaQuantilePair(p, a, b, tail).x;
}

/** As `betaQuantile`, with x and 1 - x each relatively accurate. */
export function betaQuantilePair(
  p: number,
  a: number,
  b: number,
  tail: Tail = "lower",
): { x: number; complement: number } {
  requireProbability("p", p);
  requirePositive("a", a);
  requirePositive("b", b);
  requireTail(tail);
  const odds = betaQuantileOdds(p, a, b, tail);
  return odds <= 1
    ? { x: odds / (1 + odds), complement: 1 / (1 + odds) }
    : { x: 1 / (1 + 1 / odds), complement: 1 / odds / (1 + 1 / odds) };
}

/** The odds x / (1 - x) of the quantile, unchecked; 0 or Infinity where a double ends. */
export function betaQuantileOdds(p: number, a: number, b: number, tail: Tail): number {
  if (p > 0.5) return betaQuantileOdds(1 - p, a, b, otherTail(tail));
  if (tail === "upper") return 1 / lowerOdds(p, b, a);
  return lowerOdds(p, a, b);
}

/** The odds at which the lower tail is p <= 1/2. */
function lowerOdds(p: number, a: number, b: number): number {
  if (p === 0) return 0;
  const logP = Math.log(p);
  if (a === 1) return oddsOfComplementLog(Math.log1p(-p) / b);
  if (b === 1) return 1 / oddsOfComplementLog(logP / a);
  const shape = betaShape(a, b);
  let odds = startingOdds(p, a, b);
  for (let step = 0; step < MOST_STEPS; step++) {
    const x = odds / (1 + odds);
    const y = 1 / (1 + odds);
    const excess = betaExcess(shape, x, y);
    const logKernel = logBetaKernel(shape, x, y, excess);
    let logTail: number;
    let rate: number;
    if (excess < 0 && a >= 1 && b >= 1) {
      const fraction = betaFraction(a, b, x, y, -excess);
      logTail = logKernel + Math.log(fraction);
      rate = 1 / fraction;
    } else {
      const lower = betaTail(shape, x, y, "lower");
      logTail = Math.log(lower);
      rate = Math.exp(logKernel - logTail);
    }
    const gap = logP - logTail;
    const move = tailStep(gap, rate, -excess, -shape.total * x * y);
    odds *= Math.exp(move);
    if (!(Math.abs(move) > 1e-5) || !(odds > 0 && odds < Number.POSITIVE_INFINITY)) break;
  }
  return odds;
}

/** x / (1 - x) where log(1 - x) is given. */
function oddsOfComplementLog(logComplement: number): number {
  return -Math.expm1(logComplement) / Math.exp(logComplement);
}

/** A first guess: Fisher's z for two sizeable parameters (Abramowitz & Stegun 26.5.22), else a power law. */
function startingOdds(p: number, a: number, b: number): number {
  if (a > 1 && b > 1) {
    const z = -normalQuantile(p, "lower");
    const r = 1 / (2 * a - 1);
    const s = 1 / (2 * b - 1);
    const h = 2 / (r + s);
    const k = (z * z - 3) / 6;
    const w = (z * Math.sqrt(h + k > 0 ? h + k : h)) / h - (s - r) * (k + 5 / 6 - 2 / (3 * h));
    return (a / b) * Math.exp(-2 * w);
  }
  const logX = (Math.log(p) + Math.log(a) + logBeta(a, b)) / a;
  const x = Math.exp(logX);
  return x < 0.5 * (a / (a + b)) ? x / (1 - x) : a / b;
}
