import { binomialMass } from "../../numeric/binomial.ts";
import { type Demands, leastTotal, reachesPower, withinError } from "./single-look.ts";

/** Both stages: fail at the first look with `failFirst` right or fewer, at the end with `failLast` or fewer. */
export interface TwoStages {
  readonly first: number;
  readonly failFirst: number;
  readonly total: number;
  readonly failLast: number;
  readonly expectedTotal: number;
  readonly error: number;
}

/** P(X = x) and P(X > x) for every number of people, by one true proportion. */
interface Table {
  readonly mass: readonly Float64Array[];
  readonly above: readonly Float64Array[];
}

function tableOf(largest: number, truth: number): Table {
  const mass = Array.from({ length: largest + 1 }, (_, people) =>
    Float64Array.from({ length: people + 1 }, (__, right) => binomialMass(right, people, truth)),
  );
  const above = mass.map((masses) => {
    const tail = new Float64Array(masses.length);
    for (let x = masses.length - 2; x >= 0; x -= 1) {
      tail[x] = (tail[x + 1] as number) + (masses[x + 1] as number);
    }
    return tail;
  });
  return { mass, above };
}

/**
 * Every two-stage design up to `largest` people that keeps the error and reaches the power, and the best of
 * them in two senses. For given totals and last border the best first border is the highest that still
 * reaches the power: a higher one only lowers the error and the people needed. Totals with which no rule at
 * all could reach the power are passed over, and first stages no smaller than the best mean total. A plan
 * whose second look could not fail a kit is no two-stage plan.
 * Source: simon1989
 */
export function twoStageSearch(
  demands: Demands,
  largest: number,
): { readonly smallestExpected: TwoStages | null; readonly minimax: TwoStages | null } {
  const least = leastTotal(demands, largest);
  if (least === null) return { smallestExpected: null, minimax: null };
  const tables = { bad: tableOf(largest, demands.unacceptable), good: tableOf(largest, demands.expected) };
  let [smallestExpected, minimax]: [TwoStages | null, TwoStages | null] = [null, null];
  for (let total = Math.max(2, least); total <= largest; total += 1) {
    const found = bestOf(total, smallestExpected, demands, tables);
    if (found === null) continue;
    minimax ??= found;
    smallestExpected = found;
  }
  return { smallestExpected, minimax };
}

interface Tables {
  readonly bad: Table;
  readonly good: Table;
}

/** The design of this total that needs the fewest people on average, if it betters the best so far. */
function bestOf(total: number, best: TwoStages | null, demands: Demands, tables: Tables): TwoStages | null {
  const alone = tables.good.above[total] as Float64Array;
  let [found, bound] = [null as TwoStages | null, best];
  for (let first = 1; first < total && first < (bound?.expectedTotal ?? total); first += 1) {
    for (let failLast = 1; failLast < total; failLast += 1) {
      if (!reachesPower(alone[failLast] as number, demands.power)) break;
      const design = highestFirst(first, total, failLast, demands, tables);
      if (design === null || !betters(design, bound)) continue;
      [found, bound] = [design, design];
    }
  }
  return found;
}

/** Fewer people on average; among equal designs the one with less error. */
function betters(design: TwoStages, best: TwoStages | null): boolean {
  if (best === null) return true;
  const apart = design.expectedTotal - best.expectedTotal;
  if (Math.abs(apart) > 1e-12 * best.expectedTotal) return apart < 0;
  return design.total === best.total && design.error < best.error;
}

/** The design with the highest first border that reaches the power, if it keeps the error. */
function highestFirst(
  first: number,
  total: number,
  failLast: number,
  demands: Demands,
  { bad, good }: Tables,
): TwoStages | null {
  const second = total - first;
  const firstGood = good.mass[first] as Float64Array;
  const firstBad = bad.mass[first] as Float64Array;
  const aboveGood = good.above[second] as Float64Array;
  const aboveBad = bad.above[second] as Float64Array;
  let [power, error, goesOn] = [0, 0, 0];
  for (let right = first; right > 0; right -= 1) {
    const needed = failLast - right;
    if (needed > second) return null;
    power += (firstGood[right] as number) * (needed < 0 ? 1 : (aboveGood[needed] as number));
    error += (firstBad[right] as number) * (needed < 0 ? 1 : (aboveBad[needed] as number));
    goesOn += firstBad[right] as number;
    if (!withinError(error, demands.error)) return null;
    if (!reachesPower(power, demands.power)) continue;
    return { first, failFirst: right - 1, total, failLast, expectedTotal: first + goesOn * second, error };
  }
  return null;
}
