import { incompleteBeta } from "../../../numeric/incomplete-beta.ts";
import { findRoot } from "../../../numeric/root.ts";
import { clopperPearson } from "./clopper-pearson.ts";
import type { IntervalRule } from "./limits.ts";

/** One side of the interval: the tail of the result itself, and the tails at the opposite end. */
interface Side {
  /** Clopper and Pearson's limit, where the result's own tail has half the error. */
  readonly start: number;
  /** Where the result's own tail becomes certain: 1 for the lower limit, 0 for the upper. */
  readonly end: 0 | 1;
  /** Probability of a result as extreme as the one seen. */
  own(share: number): number;
  /** Probability of the `steps` + 1 outermost results at the opposite end; 0 for -1. */
  opposite(steps: number, share: number): number;
}

/**
 * Blaker's exact interval: a proportion is acceptable when the smaller tail of the result, plus the
 * largest opposite tail that is no larger, exceeds 1 - level. Lies inside the exact interval of
 * Clopper and Pearson and still never covers less than it says. Two-sided by nature.
 *
 * The acceptability jumps and dips; the limits are the outermost acceptable proportions. Going
 * inwards from Clopper and Pearson's limit it jumps up wherever one more result enters the opposite
 * tail, to twice the result's own tail, which is acceptable. So the outer limit is either the first
 * such jump or a crossing before it; and before it the acceptability is one minus the probability of
 * a fixed run of results, which falls at most once and then rises: there is one crossing at most.
 * Source: blaker2000.
 */
export const blaker: IntervalRule = {
  lower: (count, total, outside) =>
    count === 0 ? 0 : limit(lowerSide(count, total, outside), total, outside),
  upper: (count, total, outside) =>
    count === total ? 1 : limit(upperSide(count, total, outside), total, outside),
};

function limit(side: Side, total: number, outside: number): number {
  const steps = outermostWithin(side, total, outside);
  const gap = (share: number) => side.own(share) - side.opposite(steps + 1, share);
  const jump = findRoot(gap, Math.min(side.start, side.end), Math.max(side.start, side.end)).root;
  const acceptability = (share: number) => side.own(share) + side.opposite(steps, share) - 2 * outside;
  if (acceptability(jump) <= 0) return jump;
  if (acceptability(side.start) >= 0) return side.start;
  return findRoot(acceptability, Math.min(side.start, jump), Math.max(side.start, jump)).root;
}

function lowerSide(count: number, total: number, outside: number): Side {
  return {
    start: clopperPearson.lower(count, total, outside),
    end: 1,
    own: (share) => atLeast(count, total, share),
    opposite: (steps, share) => atMost(steps, total, share),
  };
}

function upperSide(count: number, total: number, outside: number): Side {
  return {
    start: clopperPearson.upper(count, total, outside),
    end: 0,
    own: (share) => atMost(count, total, share),
    opposite: (steps, share) => atLeast(total - steps, total, share),
  };
}

/** The longest opposite tail whose probability at the starting point is within `allowed`. */
function outermostWithin(side: Side, total: number, allowed: number): number {
  let within = -1;
  let beyond = total;
  while (beyond - within > 1) {
    const middle = Math.floor((within + beyond) / 2);
    if (side.opposite(middle, side.start) <= allowed) within = middle;
    else beyond = middle;
  }
  return within;
}

/** P(X >= count). */
function atLeast(count: number, total: number, share: number): number {
  if (count <= 0) return 1;
  return count > total ? 0 : incompleteBeta(share, count, total - count + 1, "lower");
}

/** P(X <= count). */
function atMost(count: number, total: number, share: number): number {
  if (count < 0) return 0;
  return count >= total ? 1 : incompleteBeta(share, count + 1, total - count, "upper");
}
