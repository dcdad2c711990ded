import type { Standings } from "./standings.ts";

/** Differences this small, of shares and of costs in proportion, are rounding. */
export const SAME = 1e-12;

/**
 * Where each algorithm is not beaten: beaten means that another misses no more, has no more false positives,
 * costs no more, and is better in one of the three. Missed and false positives keep their order at every
 * prevalence, and the difference of two costs is linear: another beats it from the lowest prevalence up to
 * some place, or from some place up to the highest, or everywhere. So the places left are one stretch.
 *
 * @param order       every algorithm once: those that beat many first, only to be quick
 * @param prevalences ascending, above 0 and below 1
 * @param first       written: first place in the list of prevalences at which each is not beaten
 * @param end         written: the place after the last; not above first where it is always beaten
 */
export function notBeatenStretch(
  standings: Standings,
  order: ArrayLike<number>,
  prevalences: Float64Array,
  first: Int32Array,
  end: Int32Array,
): void {
  const { missed, falsely, cost, rise } = standings;
  const places = prevalences.length;
  const lowest = prevalences[0] as number;
  const highest = prevalences[places - 1] as number;
  for (let own = 0; own < missed.length; own += 1) {
    const ownMissed = missed[own] as number;
    const ownFalsely = falsely[own] as number;
    const ownCost = cost[own] as number;
    const ownRise = rise[own] as number;
    const slack = SAME * (Math.abs(ownCost) + Math.abs(ownRise));
    let from = 0;
    let to = places;
    for (let rank = 0; rank < order.length && from < to; rank += 1) {
      const other = order[rank] as number;
      const lessMissed = ownMissed - (missed[other] as number);
      if (lessMissed < -SAME) continue;
      const lessFalsely = ownFalsely - (falsely[other] as number);
      if (lessFalsely < -SAME || other === own) continue;
      const better = lessMissed > SAME || lessFalsely > SAME;
      const limit = better ? slack : -slack;
      const start = (cost[other] as number) - ownCost;
      const slope = (rise[other] as number) - ownRise;
      const atLowest = start + lowest * slope;
      const atHighest = start + highest * slope;
      const low = better ? atLowest <= limit : atLowest < limit;
      const high = better ? atHighest <= limit : atHighest < limit;
      if (low && high) from = to;
      else if (low) from = Math.max(from, placeAbove(prevalences, (limit - start) / slope));
      else if (high) to = Math.min(to, placeAbove(prevalences, (limit - start) / slope));
    }
    first[own] = from;
    end[own] = to;
  }
}

/** First place in an ascending list with a number above the one given. */
export function placeAbove(ascending: Float64Array, number: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ascending[middle] as number) > number) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Algorithms in the order of how many others they beat at the middle prevalence, most first. */
export function strongestFirst({ missed, falsely, cost, rise }: Standings, prevalence: number): Int32Array {
  const costs = cost.map((start, at) => start + prevalence * (rise[at] as number));
  const beaten = Array.from(missed, (own, at) => {
    let sum = 0;
    for (let other = 0; other < missed.length; other += 1) {
      const worse =
        (missed[other] as number) >= own &&
        (falsely[other] as number) >= (falsely[at] as number) &&
        (costs[other] as number) >= (costs[at] as number);
      if (worse) sum += 1;
    }
    return sum;
  });
  const order = beaten.map((_, at) => at);
  return Int32Array.from(
    order.sort((one, other) => (beaten[other] ?? 0) - (beaten[one] ?? 0) || one - other),
  );
}
