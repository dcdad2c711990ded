import { randomStream } from "../../core/random.ts";
import { binomialMass } from "../../numeric/binomial.ts";
import { randomTables } from "./random-table.ts";

/** Probabilities of the sum of the scores of those counted, both margins fixed. */
export interface TrendProbabilities {
  /** Sums as far from the expected one as the sum seen, or farther. */
  readonly twoSided: number;
  /** Sums as large as the one seen, or larger: the proportion rises with the score. */
  readonly increasing: number;
  readonly decreasing: number;
}

/** A stratum with its score; total above 0. */
export interface ScoredStratum {
  readonly score: number;
  readonly count: number;
  readonly total: number;
}

/** Sums closer than this share of the spread of scores count as equal. */
const ROUNDING = 1e-9;
const MOST_STEPS = 1_500_000;

/**
 * Exact conditional test for trend: strata are added one after the other, keeping for each number
 * counted and each sum of scores its probability.
 *
 * @returns `null` where the work would pass a fixed limit
 * Source: agresti2002, section 3.5 (exact conditional inference with one ordered margin)
 */
export function exactTrend(strata: readonly ScoredStratum[]): TrendProbabilities | null {
  const all = strata.reduce((sum, { total }) => sum + total, 0);
  const counted = strata.reduce((sum, { count }) => sum + count, 0);
  if (counted * 2 > all) {
    const others = exactTrend(strata.map((entry) => ({ ...entry, count: entry.total - entry.count })));
    return others && { ...others, increasing: others.decreasing, decreasing: others.increasing };
  }
  const distribution = distributionOfSum(strata, counted, counted / all);
  return distribution && probabilitiesOf(distribution, strata);
}

/** The same from random tables, the one seen among them. */
export function simulatedTrend(
  strata: readonly ScoredStratum[],
  draws: number,
  seed: number,
): TrendProbabilities {
  const totals = strata.map(({ total }) => total);
  const counted = strata.reduce((sum, { count }) => sum + count, 0);
  const random = randomStream(seed);
  const weights = new Map([
    [
      sumOfScores(
        strata.map(({ count }) => count),
        strata,
      ),
      1,
    ],
  ]);
  const table = randomTables(totals, counted);
  for (let draw = 0; draw < draws; draw += 1) {
    const sum = sumOfScores(table(random), strata);
    weights.set(sum, (weights.get(sum) ?? 0) + 1);
  }
  return probabilitiesOf(weights, strata);
}

function sumOfScores(counts: readonly number[], strata: readonly ScoredStratum[]): number {
  return counts.reduce((sum, count, at) => sum + count * (strata[at]?.score ?? 0), 0);
}

function unitOf(strata: readonly ScoredStratum[]): number {
  const scores = strata.map(({ score }) => score);
  return (Math.max(...scores) - Math.min(...scores)) * ROUNDING;
}

/** Weight of each sum of scores. Binomial masses serve as weights: their common factor drops out. */
function distributionOfSum(
  strata: readonly ScoredStratum[],
  counted: number,
  share: number,
): Map<number, number> | null {
  const unit = unitOf(strata);
  let rest = strata.reduce((sum, { total }) => sum + total, 0);
  let rows = new Map<number, Map<number, { sum: number; weight: number }>>([
    [0, new Map([[0, { sum: 0, weight: 1 }]])],
  ]);
  let steps = 0;
  for (const { score, total } of strata) {
    rest -= total;
    const masses = Array.from({ length: Math.min(total, counted) + 1 }, (_, count) =>
      binomialMass(count, total, share),
    );
    const next: typeof rows = new Map();
    for (const [placed, sums] of rows) {
      const from = Math.max(0, counted - placed - rest);
      const to = Math.min(masses.length - 1, counted - placed);
      for (let here = from; here <= to; here += 1) {
        steps += sums.size;
        if (steps > MOST_STEPS) return null;
        const target = next.get(placed + here) ?? new Map();
        next.set(placed + here, target);
        for (const { sum, weight } of sums.values()) {
          const now = sum + here * score;
          const key = Math.round(now / unit);
          const known = target.get(key);
          const added = weight * (masses[here] as number);
          if (known === undefined) target.set(key, { sum: now, weight: added });
          else known.weight += added;
        }
      }
    }
    rows = next;
  }
  return new Map([...(rows.get(counted) ?? new Map()).values()].map(({ sum, weight }) => [sum, weight]));
}

function probabilitiesOf(
  weights: ReadonlyMap<number, number>,
  strata: readonly ScoredStratum[],
): TrendProbabilities {
  const all = strata.reduce((sum, { total }) => sum + total, 0);
  const counted = strata.reduce((sum, { count }) => sum + count, 0);
  const expected = (counted / all) * strata.reduce((sum, { score, total }) => sum + score * total, 0);
  const seen = sumOfScores(
    strata.map(({ count }) => count),
    strata,
  );
  const slack = unitOf(strata) * 10;
  let whole = 0;
  let [far, high, low] = [0, 0, 0];
  for (const [sum, weight] of weights) {
    whole += weight;
    if (Math.abs(sum - expected) >= Math.abs(seen - expected) - slack) far += weight;
    if (sum >= seen - slack) high += weight;
    if (sum <= seen + slack) low += weight;
  }
  return { twoSided: far / whole, increasing: high / whole, decreasing: low / whole };
}
