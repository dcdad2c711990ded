import type { RatingPattern } from "./patterns.ts";
import { sum } from "./square-shares.ts";

/**
 * Standard error of Fleiss' kappa if readers agreed by chance only: for testing, not for an interval.
 *
 * @param shares share of each category among all ratings
 * @returns `null` where items have unlike numbers of ratings, or one rating, or all ratings are the same
 * Source: fleiss1979kappa
 */
export function fleissNullError(
  patterns: readonly RatingPattern[],
  shares: readonly number[],
): number | null {
  const ratings = patterns[0]?.ratings ?? 0;
  if (ratings < 2 || patterns.some((pattern) => pattern.ratings !== ratings)) return null;
  const items = sum(patterns.map((pattern) => pattern.items));
  const spread = sum(shares.map((share) => share * (1 - share)));
  const lean = sum(shares.map((share) => share * (1 - share) * (1 - 2 * share)));
  const variance = (2 * (spread * spread - lean)) / (items * ratings * (ratings - 1) * spread * spread);
  return variance > 0 ? Math.sqrt(variance) : null;
}
