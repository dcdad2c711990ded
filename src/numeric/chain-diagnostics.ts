import { effectiveDraws, halves, potentialScale } from "./effective-draws.ts";
import { normalQuantile } from "./normal.ts";
import { placeFinder } from "./place-finder.ts";
import { sortedQuantile } from "./sorted-quantile.ts";

export interface ChainDiagnostics {
  /** Rank-normalised split R-hat: the larger of that of the draws and that of their distances from the median. */
  readonly rHat: number | null;
  /** Effective draws of the rank-normalised draws. */
  readonly bulkEffective: number | null;
  /** The fewer of the effective draws of lying below the 5 % and below the 95 % point. */
  readonly tailEffective: number | null;
  /** Effective draws of the mean itself. */
  readonly meanEffective: number | null;
}

const NOTHING: ChainDiagnostics = {
  rHat: null,
  bulkEffective: null,
  tailEffective: null,
  meanEffective: null,
};

/**
 * Do the chains agree, and how many independent draws are they worth? `null` where nothing varies.
 *
 * @param chains one series per chain, equally long, 8 or more draws each
 * @param sorted all draws in rising order
 * Source: vehtari2021 (memory)
 */
export function chainDiagnostics(chains: readonly Float64Array[], sorted: Float64Array): ChainDiagnostics {
  if (sorted[0] === sorted[sorted.length - 1]) return NOTHING;
  const split = halves(chains);
  const score = scoresOf(sorted);
  const bulk = split.map((chain) => chain.map(score));
  const median = sortedQuantile(sorted, 0.5);
  const scoreOfDistance = scoresOf(distancesFrom(median, sorted));
  const folded = split.map((chain) => chain.map((draw) => scoreOfDistance(Math.abs(draw - median))));
  const below = (share: number) => {
    const border = sortedQuantile(sorted, share);
    return effectiveDraws(split.map((chain) => chain.map((draw) => (draw <= border ? 1 : 0))));
  };
  return {
    rHat: largest(potentialScale(bulk), potentialScale(folded)),
    bulkEffective: effectiveDraws(bulk),
    tailEffective: fewest(below(0.05), below(0.95)),
    meanEffective: effectiveDraws(split),
  };
}

/** The normal score of a draw: the quantile of (average rank - 3/8) / (draws + 1/4). */
function scoresOf(sorted: Float64Array): (draw: number) => number {
  const scores = new Float64Array(sorted.length);
  let from = 0;
  for (let to = 1; to <= sorted.length; to += 1) {
    if (to < sorted.length && sorted[to] === sorted[from]) continue;
    const rank = (from + 1 + to) / 2;
    scores[from] = normalQuantile((rank - 3 / 8) / (sorted.length + 1 / 4));
    from = to;
  }
  const placeOf = placeFinder(sorted);
  return (draw) => scores[placeOf(draw)] as number;
}

/** Distances from a value within the range, in rising order. */
function distancesFrom(value: number, sorted: Float64Array): Float64Array {
  const distances = new Float64Array(sorted.length);
  let right = placeFinder(sorted)(value);
  let left = right - 1;
  for (let place = 0; place < distances.length; place += 1) {
    const toLeft = left >= 0 ? value - (sorted[left] as number) : Number.POSITIVE_INFINITY;
    const toRight = right < sorted.length ? (sorted[right] as number) - value : Number.POSITIVE_INFINITY;
    if (toLeft < toRight) left -= 1;
    else right += 1;
    distances[place] = Math.min(toLeft, toRight);
  }
  return distances;
}

function largest(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : Math.max(a, b);
}

function fewest(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : Math.min(a, b);
}
