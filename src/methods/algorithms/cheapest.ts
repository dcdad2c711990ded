import { placeAbove, SAME } from "./not-beaten.ts";
import type { Standings } from "./standings.ts";

/** No algorithm keeps the limits. */
export const NONE = -1;

/**
 * The cheapest algorithm that keeps the limits, at every prevalence of a list.
 * Equal costs: the one that misses fewer, then with fewer false positives, then the first in the list.
 *
 * @param order  every algorithm once: the cheap ones first, only to be quick
 * @param best   written: place of the algorithm, or NONE
 * @param lowest working room, as long as the prevalences
 */
export function cheapestInto(
  standings: Standings,
  order: ArrayLike<number>,
  prevalences: Float64Array,
  best: Int32Array,
  lowest: Float64Array,
): void {
  const { cost, rise, from, to } = standings;
  best.fill(NONE);
  for (let rank = 0; rank < order.length; rank += 1) {
    const own = order[rank] as number;
    const start = placeAtLeast(prevalences, from[own] as number);
    let end = placeAbove(prevalences, to[own] as number);
    while (start < end && isOutdone(standings, prevalences, own, best[end - 1] as number, start, end)) {
      end = placeAtLeast(prevalences, from[best[end - 1] as number] as number);
    }
    const ownCost = cost[own] as number;
    const ownRise = rise[own] as number;
    for (let place = start; place < end; place += 1) {
      const asked = ownCost + (prevalences[place] as number) * ownRise;
      const before = best[place] as number;
      if (before !== NONE) {
        const less = (lowest[place] as number) - asked;
        const slack = SAME * asked;
        if (less < -slack || (less <= slack && !isPreferred(standings, own, before))) continue;
      }
      best[place] = own;
      lowest[place] = asked;
    }
  }
}

/**
 * Whether another, from where it keeps the limits up to before `end`, is cheaper, or as cheap and preferred:
 * own need not be looked at there.
 */
function isOutdone(
  { cost, rise, from, missed, falsely }: Standings,
  prevalences: Float64Array,
  own: number,
  other: number,
  start: number,
  end: number,
): boolean {
  if (other === NONE) return false;
  const dearer = (cost[own] as number) - (cost[other] as number);
  const slope = (rise[own] as number) - (rise[other] as number);
  const lowest = Math.max(from[other] as number, prevalences[start] as number);
  const least = dearer + (slope > 0 ? lowest : (prevalences[end - 1] as number)) * slope;
  const slack = SAME * (cost[own] as number);
  return least > slack || (least >= -slack && isPreferred({ missed, falsely }, other, own));
}

/** Of two that cost the same. */
function isPreferred(
  { missed, falsely }: Pick<Standings, "missed" | "falsely">,
  own: number,
  other: number,
): boolean {
  const fewerMissed = (missed[other] as number) - (missed[own] as number);
  if (Math.abs(fewerMissed) > SAME) return fewerMissed > 0;
  const fewerFalse = (falsely[other] as number) - (falsely[own] as number);
  return Math.abs(fewerFalse) > SAME ? fewerFalse > 0 : own < other;
}

/** Algorithms in the order of their costs at one prevalence, the cheapest first. */
export function cheapestFirst({ cost, rise }: Standings, prevalence: number): Int32Array {
  const asked = cost.map((start, at) => start + prevalence * (rise[at] as number));
  const order = Array.from(asked, (_, at) => at);
  return Int32Array.from(order.sort((one, other) => (asked[one] ?? 0) - (asked[other] ?? 0) || one - other));
}

function placeAtLeast(ascending: Float64Array, number: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ascending[middle] as number) >= number) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** A prevalence at which another algorithm becomes the best, going up. */
export interface Switch {
  readonly prevalence: number;
  readonly from: number;
  readonly to: number;
}

/**
 * Every switch of the best algorithm between two prevalences. It can only switch where two costs cross or
 * an algorithm begins or ceases to keep the limits. These places are few and are found in closed form, so
 * that no stretch is too short to be seen.
 */
export function switchesBetween(standings: Standings, lowest: number, highest: number): Switch[] {
  const ends = eventsBetween(standings, lowest, highest);
  const edges = [lowest, ...ends, highest];
  const middles = Float64Array.from(edges.slice(1), (edge, at) => (edge + (edges[at] as number)) / 2);
  const best = new Int32Array(middles.length);
  const order = cheapestFirst(standings, (lowest + highest) / 2);
  cheapestInto(standings, order, middles, best, new Float64Array(middles.length));
  const switches: Switch[] = [];
  for (let at = 1; at < best.length; at += 1) {
    const [from, to] = [best[at - 1] as number, best[at] as number];
    if (from !== to) switches.push({ prevalence: edges[at] as number, from, to });
  }
  return switches;
}

/** Ascending, those closer together than rounding taken as one. */
function eventsBetween({ cost, rise, from, to }: Standings, lowest: number, highest: number): number[] {
  const found: number[] = [];
  const keep = (prevalence: number) => {
    if (prevalence > lowest && prevalence < highest) found.push(prevalence);
  };
  for (let own = 0; own < cost.length; own += 1) {
    const [start, end] = [from[own] as number, to[own] as number];
    if (start > end) continue;
    keep(start);
    keep(end);
    for (let other = 0; other < own; other += 1) {
      const slope = (rise[own] as number) - (rise[other] as number);
      const crossing = ((cost[other] as number) - (cost[own] as number)) / slope;
      if (
        crossing >= Math.max(start, from[other] as number) &&
        crossing <= Math.min(end, to[other] as number)
      ) {
        keep(crossing);
      }
    }
  }
  found.sort((one, other) => one - other);
  return found.filter((prevalence, at) => at === 0 || prevalence > (found[at - 1] as number) * (1 + SAME));
}
