import { logGamma } from "../../numeric/gamma-function.ts";

/** Log-probabilities closer than this count as equal: the same table reached by another sum. */
const ROUNDING = 1e-7;
/** Tables with the margins given beyond which walking them, merged or not, is not begun. */
const MOST_TABLES = 5e7;
/** Partial tables (distinct, after merging) that are followed before giving up. */
const MOST_STEPS = 1_000_000;

/**
 * The exact p-value of the Freeman–Halton test for a table of strata by two: the probability, both
 * margins fixed, of all tables no more probable than the one seen.
 *
 * Strata are added one after the other. Partial tables with the same sum and the same probability are
 * merged; those whose completions are all rare enough, or all too probable, are settled at once by the
 * largest and smallest probability that can still be reached (network algorithm).
 *
 * @param totals people per stratum, above 0
 * @param counts how many of them
 * @returns the p-value, or `null` where the work would pass a fixed limit
 * Sources: freeman1951, mehta1983
 */
export function exactHomogeneity(totals: readonly number[], counts: readonly number[]): number | null {
  const all = sum(totals);
  const counted = sum(counts);
  // The rarer of the two kinds gives the same table with fewer sums.
  const rare = counted * 2 <= all ? counts : counts.map((count, at) => (totals[at] ?? 0) - count);
  if (tablesOf(totals, sum(rare)) > MOST_TABLES) return null;
  const network = buildNetwork(totals, sum(rare));
  if (network === null) return null;
  const seen = rare.reduce((logWays, count, at) => logWays + logChoose(totals[at] ?? 0, count), 0);
  return walk(network, totals, seen + ROUNDING);
}

/** How many tables have these margins. */
function tablesOf(totals: readonly number[], counted: number): number {
  let ways = new Float64Array(counted + 1);
  ways[0] = 1;
  for (const total of totals) {
    const next = new Float64Array(counted + 1);
    let within = 0;
    for (let placed = 0; placed <= counted; placed += 1) {
      within += (ways[placed] ?? 0) - (ways[placed - total - 1] ?? 0);
      next[placed] = within;
    }
    ways = next;
  }
  return ways[counted] ?? 0;
}

interface Network {
  readonly counted: number;
  readonly logAll: number;
  /** Per stratum on and sum still to place: log of the most, fewest and all ways to do so. */
  readonly most: readonly Float64Array[];
  readonly fewest: readonly Float64Array[];
  readonly every: readonly Float64Array[];
}

function buildNetwork(totals: readonly number[], counted: number): Network | null {
  const work = totals.length * (counted + 1) * (Math.min(counted, Math.max(...totals)) + 1);
  if (work > MOST_STEPS * 30) return null;
  const width = counted + 1;
  const most: Float64Array[] = [];
  const fewest: Float64Array[] = [];
  const every: Float64Array[] = [];
  most[totals.length] = new Float64Array(width).fill(Number.NEGATIVE_INFINITY);
  fewest[totals.length] = new Float64Array(width).fill(Number.POSITIVE_INFINITY);
  every[totals.length] = new Float64Array(width).fill(Number.NEGATIVE_INFINITY);
  for (const bound of [most, fewest, every]) (bound[totals.length] as Float64Array)[0] = 0;
  let rest = 0;
  for (let at = totals.length - 1; at >= 0; at -= 1) {
    const total = totals[at] ?? 0;
    rest += total;
    const ways = logWays(total, counted);
    most[at] = combined(most[at + 1] as Float64Array, ways, Math.max, Number.NEGATIVE_INFINITY);
    fewest[at] = combined(fewest[at + 1] as Float64Array, ways, Math.min, Number.POSITIVE_INFINITY);
    every[at] = logWays(rest, counted);
  }
  return { counted, logAll: logChoose(rest, counted), most, fewest, every };
}

/** For each sum the best of all splits between this stratum and those after it. */
function combined(
  after: Float64Array,
  ways: Float64Array,
  better: (one: number, other: number) => number,
  none: number,
): Float64Array {
  const best = new Float64Array(after.length).fill(none);
  for (let sumHere = 0; sumHere < after.length; sumHere += 1) {
    for (let here = 0; here <= sumHere; here += 1) {
      const way = ways[here] as number;
      const next = after[sumHere - here] as number;
      if (way === Number.NEGATIVE_INFINITY || next === none) continue;
      best[sumHere] = better(best[sumHere] as number, way + next);
    }
  }
  return best;
}

/** Partial tables with one sum: log of their ways, and how many such. */
type Partial = Map<number, { logWays: number; times: number }>;

function walk(network: Network, totals: readonly number[], bar: number): number | null {
  let rows = new Map<number, Partial>([[0, new Map([[0, { logWays: 0, times: 1 }]])]]);
  let probability = 0;
  let steps = 0;
  for (let at = 0; at < totals.length; at += 1) {
    const ways = logWays(totals[at] ?? 0, network.counted);
    const next = new Map<number, Partial>();
    for (const [placed, partials] of rows) {
      for (const { logWays: before, times } of partials.values()) {
        for (let here = 0; here <= network.counted - placed; here += 1) {
          const logNow = before + (ways[here] as number);
          const left = network.counted - placed - here;
          const most = (network.most[at + 1] as Float64Array)[left] as number;
          if (logNow === Number.NEGATIVE_INFINITY || most === Number.NEGATIVE_INFINITY) continue;
          steps += 1;
          if (logNow + most <= bar) {
            const completions = (network.every[at + 1] as Float64Array)[left] as number;
            probability += times * Math.exp(logNow + completions - network.logAll);
          } else if (logNow + ((network.fewest[at + 1] as Float64Array)[left] as number) <= bar) {
            merge(next, placed + here, logNow, times);
          }
        }
        if (steps > MOST_STEPS) return null;
      }
    }
    rows = next;
  }
  return Math.min(1, probability);
}

function merge(rows: Map<number, Partial>, placed: number, logWays: number, times: number): void {
  let partials = rows.get(placed);
  if (partials === undefined) {
    partials = new Map();
    rows.set(placed, partials);
  }
  const key = Math.round(logWays * 1e10);
  const known = partials.get(key);
  if (known === undefined) partials.set(key, { logWays, times });
  else known.times += times;
}

/** Log of the ways to choose 0, 1, 2, ... of so many; minus infinity beyond. */
function logWays(total: number, upTo: number): Float64Array {
  return Float64Array.from({ length: upTo + 1 }, (_, count) => logChoose(total, count));
}

function logChoose(total: number, count: number): number {
  if (count < 0 || count > total) return Number.NEGATIVE_INFINITY;
  return logGamma(total + 1) - logGamma(count + 1) - logGamma(total - count + 1);
}

const sum = (numbers: readonly number[]) => numbers.reduce((total, next) => total + next, 0);
