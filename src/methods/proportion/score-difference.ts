import { normalQuantile } from "../../numeric/normal.ts";
import { findRoot } from "../../numeric/root.ts";
import type { Limits } from "./intervals/limits.ts";

/**
 * The score statistic of a supposed difference of two independent proportions: observed less supposed
 * difference, over its standard error at the most likely proportions that differ by just that much.
 *
 * `+-Infinity` where the supposed difference leaves no other result than one not seen; 0 where the
 * observed difference is the supposed one. Rises with the first count and falls with the second.
 *
 * @param firstCount  whole, 0..firstTotal; the totals are 1 or more
 * @param supposed    first minus second proportion, -1..1
 * Source: mee1984 (miettinen1985 shrinks it by sqrt((N - 1) / N))
 */
export function differenceScore(
  firstCount: number,
  firstTotal: number,
  secondCount: number,
  secondTotal: number,
  supposed: number,
): number {
  const apart = firstCount / firstTotal - secondCount / secondTotal - supposed;
  if (apart === 0) return 0;
  const variance =
    supposed < 0
      ? restrictedVariance(secondCount, secondTotal, firstCount, firstTotal, -supposed)
      : restrictedVariance(firstCount, firstTotal, secondCount, secondTotal, supposed);
  return apart / Math.sqrt(variance);
}

/**
 * Variance at the restricted maximum, the supposed difference being 0 or more. Where most were counted,
 * the others are counted instead, with the groups exchanged: the difference stays and shares are small.
 */
function restrictedVariance(
  firstCount: number,
  firstTotal: number,
  secondCount: number,
  secondTotal: number,
  supposed: number,
): number {
  if (2 * (firstCount + secondCount) > firstTotal + secondTotal) {
    return varianceAt(secondTotal - secondCount, secondTotal, firstTotal - firstCount, firstTotal, supposed);
  }
  return varianceAt(firstCount, firstTotal, secondCount, secondTotal, supposed);
}

function varianceAt(
  firstCount: number,
  firstTotal: number,
  secondCount: number,
  secondTotal: number,
  supposed: number,
): number {
  const share = restrictedShare(firstCount, firstTotal, secondCount, secondTotal, supposed);
  const rest = 1 - supposed - share;
  return ((share + supposed) * rest) / firstTotal + (share * (1 - share)) / secondTotal;
}

/**
 * The second proportion that is most likely when the first is `supposed` larger: the middle root of a
 * cubic, by its trigonometric form and two steps of Newton, kept to 0..1 - supposed.
 */
function restrictedShare(
  firstCount: number,
  firstTotal: number,
  secondCount: number,
  secondTotal: number,
  supposed: number,
): number {
  const people = firstTotal + secondTotal;
  const both = firstCount + secondCount;
  if (supposed === 0) return both / people;
  const most = 1 - supposed;
  const square = (firstTotal + 2 * secondTotal) * supposed - people - both;
  const linear = (secondTotal * supposed - people - 2 * secondCount) * supposed + both;
  const constant = secondCount * supposed * most;
  const centre = square / (3 * people);
  const spread = Math.sqrt(Math.max(0, centre * centre - linear / (3 * people)));
  let share = -centre;
  if (spread > 0) {
    const odd = Math.pow(centre, 3) - (square * linear) / (6 * people * people) + constant / (2 * people);
    const signed = odd < 0 ? -spread : spread;
    const cosine = Math.min(1, odd / Math.pow(signed, 3));
    share = 2 * signed * Math.cos((Math.PI + Math.acos(cosine)) / 3) - centre;
  }
  for (let step = 0; step < 2; step += 1) {
    const slope = (3 * people * share + 2 * square) * share + linear;
    if (!(slope < 0)) break;
    share -= (((people * share + square) * share + linear) * share + constant) / slope;
  }
  return Math.min(most, Math.max(0, share));
}

/**
 * Differences of two independent proportions that the score test does not reject.
 * @param shrink what the statistic is multiplied by: 1 (Mee) or sqrt((N - 1) / N) (Miettinen, Nurminen)
 */
export function scoreDifferenceLimits(
  first: { readonly count: number; readonly total: number },
  second: { readonly count: number; readonly total: number },
  level: number,
  shrink: number,
): Limits {
  const z = normalQuantile((1 - level) / 2, "upper");
  return invertedScore(
    (supposed) => shrink * differenceScore(first.count, first.total, second.count, second.total, supposed),
    first.count / first.total - second.count / second.total,
    z,
  );
}

/**
 * The differences at which a statistic that falls from above z at -1 to below -z at 1, and is 0 at the
 * observed one, lies within -z..z.
 */
export function invertedScore(score: (supposed: number) => number, observed: number, z: number): Limits {
  return {
    lower: observed <= -1 ? -1 : findRoot((supposed) => score(supposed) - z, -1, observed).root,
    upper: observed >= 1 ? 1 : findRoot((supposed) => score(supposed) + z, observed, 1).root,
  };
}
