import { betaExcess, logBetaKernel } from "./beta-kernel.ts";
import { startingOdds } from "./beta-quantile-start.ts";
import { logBetaScale } from "./gamma-function.ts";
import { logLowerTail } from "./incomplete-beta.ts";
import { requireProbability, requireShape, requireTail } from "./require.ts";
import { otherTail, type Tail } from "./tail.ts";
import { isSettled, tailStep } from "./tail-step.ts";

const MOST_STEPS = 100;
/** Of the tail, for one standard deviation of the log odds; smaller ones need less. */
const TOLERANCE = 1e-17;

/**
 * The quantile of a beta distribution: the x with P(X <= x) = p ("lower") or P(X > x) = p ("upper").
 * Relative accuracy about 1e-14 up to a + b = 1e5, better than 1e-12 beyond.
 *
 * @param p probability, 0 to 1
 * @param a above 0, from 1e-100 to 1e16
 * @param b as a
 * @returns x, 0 to 1; where 1 - x matters as well use `betaQuantilePair`
 * @throws InputError outside the domain
 */
export function betaQuantile(p: number, a: number, b: number, tail: Tail = "lower"): number {
  requireArguments(p, a, b, tail);
  const odds = betaQuantileOdds(p, a, b, tail);
  return odds <= 1 ? odds / (1 + odds) : 1 / (1 + 1 / odds);
}

/** As `betaQuantile`, with x and 1 - x each relatively accurate. */
export function betaQuantilePair(
  p: number,
  a: number,
  b: number,
  tail: Tail = "lower",
): { x: number; complement: number } {
  requireArguments(p, a, b, tail);
  const odds = betaQuantileOdds(p, a, b, tail);
  const inverse = 1 / odds;
  return odds <= 1
    ? { x: odds / (1 + odds), complement: 1 / (1 + odds) }
    : { x: 1 / (1 + inverse), complement: inverse / (1 + inverse) };
}

function requireArguments(p: number, a: number, b: number, tail: Tail): void {
  requireProbability("p", p);
  requireShape("a", a);
  requireShape("b", b);
  requireTail(tail);
}

/** The odds x / (1 - x) of the quantile, unchecked; 0 or Infinity where the doubles end. */
export function betaQuantileOdds(p: number, a: number, b: number, tail: Tail): number {
  if (p > 0.5) return betaQuantileOdds(1 - p, a, b, otherTail(tail));
  return tail === "lower" ? lowerOdds(p, a, b) : 1 / lowerOdds(p, b, a);
}

/**
 * The odds at which the lower tail is p <= 1/2: steps on the log odds, from a guess so good that one evaluation
 * is enough for sizeable shapes, and three are enough for any.
 */
function lowerOdds(p: number, a: number, b: number): number {
  if (p === 0) return 0;
  const logP = Math.log(p);
  if (a === 1) return Math.expm1(-Math.log1p(-p) / b);
  if (b === 1) return 1 / Math.expm1(-logP / a);
  const scale = logBetaScale(a, b);
  let odds = startingOdds(logP, a, b);
  for (let step = 0; step < MOST_STEPS && odds > 0 && odds < Number.POSITIVE_INFINITY; step++) {
    const y = 1 / (1 + odds);
    const x = odds * y;
    const excess = betaExcess(a, b, x, y);
    const bend = -(a + b) * x * y;
    const logKernel = logBetaKernel(a, b, scale, x, y, excess);
    const logTail = logLowerTail(a, b, x, y, excess, logKernel, TOLERANCE * Math.sqrt(1 - bend));
    const rate = Math.exp(logKernel - logTail);
    const move = tailStep(logP - logTail, rate, -excess, bend, bend * (y - x));
    odds *= Math.exp(move);
    if (isSettled(move, rate, -excess, bend)) break;
  }
  return odds;
}
