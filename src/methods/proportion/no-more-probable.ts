/** A distribution on the whole numbers `least`..`most` with a single peak. */
export interface PeakedDistribution {
  readonly least: number;
  readonly most: number;
  /** A most probable number. */
  readonly mode: number;
  mass(result: number): number;
  /** P(X <= result). */
  atMost(result: number): number;
  /** P(X >= result). */
  atLeast(result: number): number;
}

/** Results as probable as the one seen up to rounding count as equally probable. */
const ROUNDING = 1 + 1e-7;

/**
 * The two-sided p-value of an exact test by the method of small p-values: the probability of all
 * results no more probable than the one seen. As there is one peak they form two tails, and the far
 * one is found by halving.
 */
export function noMoreProbable(seen: number, distribution: PeakedDistribution): number {
  const { least, most, mode, mass, atMost, atLeast } = distribution;
  const bar = mass(seen) * ROUNDING;
  const small = (result: number) => mass(result) <= bar;
  if (seen <= mode) {
    const above = firstThat(mode, most + 1, small);
    if (above <= seen) return 1;
    return Math.min(1, atMost(seen) + (above > most ? 0 : atLeast(above)));
  }
  const below = -firstThat(-mode, -least + 1, (negative) => small(-negative));
  if (below >= seen) return 1;
  return Math.min(1, atLeast(seen) + (below < least ? 0 : atMost(below)));
}

/** First whole number from `from` up for which the statement, false then true, holds; at most `end`. */
function firstThat(from: number, end: number, holds: (candidate: number) => boolean): number {
  let low = from;
  let high = end;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
