import type { RatingPattern } from "./patterns.ts";
import { sum } from "./square-shares.ts";
import type { Matrix } from "./weights.ts";

/**
 * What chance agreement is taken to be. `shares`: two ratings drawn from the pooled ratings (Scott's pi,
 * Fleiss' kappa). `spread`: agreement of readers who guess on the hard items only (Gwet's AC1 and AC2).
 */
export type ChanceRule = "shares" | "spread";

/** A pattern with all that a coefficient needs of it, so that resampling only has to add up. */
export interface MeasuredPattern {
  readonly items: number;
  /** Share of each category among the item's ratings. */
  readonly shares: readonly number[];
  /** Weighted agreement of its pairs of ratings; `null` where there is one rating. */
  readonly agreement: number | null;
}

/** A chance-corrected coefficient with its parts. */
export interface ChanceAgreement {
  readonly observed: number;
  readonly expected: number;
  readonly value: number;
  readonly categoryShares: readonly number[];
  readonly items: number;
  readonly compared: number;
}

export function measurePatterns(patterns: readonly RatingPattern[], weights: Matrix): MeasuredPattern[] {
  return patterns.map(({ counts, ratings, items }) => ({
    items,
    shares: counts.map((count) => count / ratings),
    agreement: ratings < 2 ? null : pairAgreement(counts, weights) / (ratings * (ratings - 1)),
  }));
}

/** Sum of weights over ordered pairs of different ratings of one item. */
function pairAgreement(counts: readonly number[], weights: Matrix): number {
  return counts.reduce((total, count, category) => {
    if (count === 0) return total;
    const others = counts.reduce((near, other, index) => near + other * (weights[category]?.[index] ?? 0), 0);
    return total + count * (others - 1);
  }, 0);
}

/**
 * (observed - expected) / (1 - expected agreement) of any number of readers, missing ratings allowed.
 * Observed: mean over items with two ratings or more of the agreement of their pairs. Expected: from the
 * mean over all rated items of the share of each category.
 *
 * @param items how many of each pattern; absent: as observed
 * @returns `null` where nothing can be compared, or chance alone would give full agreement
 * Sources: scott1955, fleiss1971, gwet2008, gwet2014 (weights, missing ratings)
 */
export function chanceAgreement(
  patterns: readonly MeasuredPattern[],
  rule: ChanceRule,
  weights: Matrix,
  items: ArrayLike<number> = patterns.map((pattern) => pattern.items),
): ChanceAgreement | null {
  const categoryShares = new Array<number>(weights.length).fill(0);
  let rated = 0;
  let compared = 0;
  let agreed = 0;
  patterns.forEach(({ shares, agreement }, index) => {
    const here = items[index] ?? 0;
    if (here === 0) return;
    rated += here;
    if (agreement !== null) {
      compared += here;
      agreed += here * agreement;
    }
    shares.forEach((share, category) => {
      categoryShares[category] = (categoryShares[category] ?? 0) + here * share;
    });
  });
  if (compared === 0) return null;
  const means = categoryShares.map((total) => total / rated);
  const expected = expectedAgreement(means, rule, weights);
  if (expected === null || expected === 1) return null;
  const observed = agreed / compared;
  const value = (observed - expected) / (1 - expected);
  return { observed, expected, value, categoryShares: means, items: rated, compared };
}

function expectedAgreement(means: readonly number[], rule: ChanceRule, weights: Matrix): number | null {
  const sameTwice = sum(means.map((share) => share * share));
  if (rule === "shares") return sameTwice;
  const scale = spreadScale(weights);
  return scale === null ? null : scale * sum(means.map((share) => share * (1 - share)));
}

/** Sum of all weights over the number of ordered pairs of categories: 1 / (categories - 1) without weights. */
function spreadScale(weights: Matrix): number | null {
  const categories = weights.length;
  return categories < 2 ? null : sum(weights.map(sum)) / (categories * (categories - 1));
}

/** An item's influence below this is rounding: where all items are alike the standard error is exactly 0. */
const ROUNDING = 1e-13;

/**
 * Large-sample standard error over items, by the influence of each item on the coefficient: readers fixed,
 * items a sample. With complete ratings this is Gwet's (2008) variance; with missing ones, the number of
 * items compared counts as random too.
 *
 * @returns `null` where there is one item
 * Source: gwet2008
 */
export function chanceStandardError(
  patterns: readonly MeasuredPattern[],
  rule: ChanceRule,
  weights: Matrix,
  found: ChanceAgreement,
): number | null {
  const { items, compared, observed, expected, value, categoryShares } = found;
  if (items < 2) return null;
  const slope = rule === "shares" ? 2 : -2 * (spreadScale(weights) ?? 0);
  const level = sum(categoryShares.map((share) => share * share));
  const squares = patterns.map((pattern) => {
    const gap = pattern.agreement === null ? 0 : (items / compared) * (pattern.agreement - observed);
    const near = pattern.shares.reduce((total, share, at) => total + share * (categoryShares[at] ?? 0), 0);
    const influence = (gap - (1 - value) * slope * (near - level)) / (1 - expected);
    return Math.abs(influence) < ROUNDING ? 0 : pattern.items * influence * influence;
  });
  return Math.sqrt(sum(squares) / (items * (items - 1)));
}
