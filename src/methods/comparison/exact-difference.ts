import type { Share } from "../proportion/difference-interval.ts";
import type { Limits } from "../proportion/intervals/limits.ts";
import { regionAtLeast, union } from "./exact-region.ts";
import { supremum } from "./nuisance.ts";
import { regionProbability } from "./region-probability.ts";

/**
 * Exact limits of the difference of two independent proportions: those that neither of the two one-sided
 * exact unconditional score tests rejects, each at (1 - level) / 2.
 * Source: chan1999
 */
export function exactDifferenceLimits(first: Share, second: Share, level: number): Limits {
  const outside = (1 - level) / 2;
  return {
    lower: lowestNotRejected(first, second, outside),
    upper: -lowestNotRejected(second, first, outside),
  };
}

/** Limits are told apart down to this distance; what is returned lies outside the true limit by less. */
const PRECISION = 1e-9;
/** Places looked at, at most; the search then ends at the outer side. */
const MOST_PLACES = 5_000;

/**
 * The lowest difference at which the probability of a score as large as the one seen, or larger, reaches
 * `outside` for some pair of proportions. The probability need not rise steadily with the difference, so
 * halving alone could miss it. Instead a stretch of differences is put aside only if even all results that
 * belong to the region somewhere on it (at both ends and in the middle) stay below `outside` at its upper
 * end, where every such set is most probable.
 */
function lowestNotRejected(first: Share, second: Share, outside: number): number {
  const totals = [first.total, second.total] as const;
  const observed = first.count / first.total - second.count / second.total;
  let guess = second.count / second.total;
  const mayReach = (from: number, to: number) => {
    const ends = union(regionAtLeast(first, second, from), regionAtLeast(first, second, to));
    const region = union(ends, regionAtLeast(first, second, (from + to) / 2));
    const range = { difference: to, least: 0, most: 1 };
    const probability = regionProbability(region, ...totals);
    const highest = supremum(probability, range, totals, outside, guess);
    guess = highest.share;
    return highest.value > outside;
  };
  // Stretches still to be searched, the lowest last.
  const stretches: [number, number][] = [[-1, observed]];
  for (let place = 0; place < MOST_PLACES; place += 1) {
    const stretch = stretches.pop();
    if (stretch === undefined) return observed;
    const [from, to] = stretch;
    if (!mayReach(from, to)) continue;
    if (to - from < PRECISION) return from;
    const middle = (from + to) / 2;
    stretches.push([middle, to], [from, middle]);
  }
  return stretches.pop()?.[0] ?? observed;
}
