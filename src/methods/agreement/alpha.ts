import { distances, type Scale } from "./distances.ts";
import type { RatingPattern } from "./patterns.ts";
import { sum } from "./square-shares.ts";

/** The pairs of different categories of one pattern, with what each adds to the coincidences. */
interface PatternPairs {
  readonly pairs: readonly { readonly low: number; readonly high: number; readonly weight: number }[];
  readonly counts: readonly number[];
}

/** Ratings ready for alpha: it can then be had for any number of items of each pattern. */
export interface AlphaData {
  readonly values: readonly number[];
  readonly scale: Scale;
  readonly patterns: readonly PatternPairs[];
}

/** Items with one rating have nothing to compare and are left out, as the definition has it. */
export function alphaData(
  patterns: readonly RatingPattern[],
  values: readonly number[],
  scale: Scale,
): AlphaData {
  return { values, scale, patterns: patterns.map(pairsOf) };
}

function pairsOf({ counts, ratings }: RatingPattern): PatternPairs {
  if (ratings < 2) return { pairs: [], counts: counts.map(() => 0) };
  const used = counts.flatMap((count, category) => (count > 0 ? [category] : []));
  const pairs = used.flatMap((low, place) =>
    used.slice(place + 1).map((high) => ({
      low,
      high,
      weight: ((counts[low] ?? 0) * (counts[high] ?? 0)) / (ratings - 1),
    })),
  );
  return { pairs, counts };
}

/**
 * Krippendorff's alpha: 1 - observed / expected disagreement, from the coincidences of categories.
 *
 * @param items how many of each pattern
 * @returns `null` where all comparable ratings are the same, or there are none
 * Source: krippendorff2011
 */
export function krippendorffAlpha(
  { values, scale, patterns }: AlphaData,
  items: ArrayLike<number>,
): number | null {
  const used = new Array<number>(values.length).fill(0);
  patterns.forEach(({ counts }, index) => {
    const here = items[index] ?? 0;
    if (here === 0) return;
    counts.forEach((count, category) => {
      used[category] = (used[category] ?? 0) + here * count;
    });
  });
  const apart = distances(scale, values, used);
  const observed = patterns.reduce((total, { pairs }, index) => {
    const here = items[index] ?? 0;
    if (here === 0) return total;
    return total + here * sum(pairs.map(({ low, high, weight }) => weight * (apart[low]?.[high] ?? 0)));
  }, 0);
  const expected = used.reduce(
    (total, count, low) =>
      total +
      count *
        used
          .slice(low + 1)
          .reduce((inner, other, at) => inner + other * (apart[low]?.[low + 1 + at] ?? 0), 0),
    0,
  );
  return expected === 0 ? null : 1 - ((sum(used) - 1) * observed) / expected;
}

/** An item's influence below this is rounding: where all items are alike the standard error is exactly 0. */
const ROUNDING = 1e-8;

/**
 * Standard error by leaving out one item at a time (jackknife), items being a sample and readers fixed.
 *
 * @returns `null` where there are fewer than two comparable items, or leaving one out leaves no variation
 */
export function alphaStandardError(data: AlphaData, observed: readonly RatingPattern[]): number | null {
  const items = observed.map((pattern) => pattern.items);
  const comparable = observed.map(({ ratings }) => ratings >= 2);
  const total = sum(items.filter((_, index) => comparable[index]));
  if (total < 2) return null;
  const without: { value: number; items: number }[] = [];
  for (const [index, here] of items.entries()) {
    if (!comparable[index]) continue;
    const value = krippendorffAlpha(data, items.with(index, here - 1));
    if (value === null) return null;
    without.push({ value, items: here });
  }
  const mean = sum(without.map((entry) => entry.value * entry.items)) / total;
  const squares = sum(
    without.map((entry) => {
      const apart = entry.value - mean;
      return Math.abs(apart) * total < ROUNDING ? 0 : entry.items * apart * apart;
    }),
  );
  return Math.sqrt(((total - 1) / total) * squares);
}
