import type { Limits, OtherCosts } from "./measures-at.ts";
import { WIDTH } from "./path-evaluator.ts";

/** What search demands and how it counts, apart from what narrows it. */
export interface StandingRules extends Limits {
  /** Whether a diseased person who ends inconclusive counts as missed. */
  readonly inconclusiveMissed: boolean;
}

/**
 * What is compared of many algorithms. Missed, false positives and cost per person are linear in the
 * prevalence, and so are the limits once multiplied out: each algorithm keeps them from one prevalence to
 * another, found exactly.
 */
export interface Standings {
  /** Missed among the diseased. */
  readonly missed: Float64Array;
  /** Ended positive among the nondiseased. */
  readonly falsely: Float64Array;
  /** Cost at prevalence 0, and what it rises by up to prevalence 1. */
  readonly cost: Float64Array;
  readonly rise: Float64Array;
  /** Lowest and highest prevalence at which the limits are kept; from above to where they never are. */
  readonly from: Float64Array;
  readonly to: Float64Array;
}

export function emptyStandings(algorithms: number): Standings {
  const numbers = () => new Float64Array(algorithms);
  return {
    missed: numbers(),
    falsely: numbers(),
    cost: numbers(),
    rise: numbers(),
    from: numbers(),
    to: numbers(),
  };
}

/** Fills in the standings from the results of one draw. */
export function standInto(
  into: Standings,
  results: Float64Array,
  costs: OtherCosts,
  rules: StandingRules,
): void {
  for (let at = 0; at < into.missed.length; at += 1) {
    const place = at * WIDTH;
    const negative = results[place + 1] as number;
    const undecided = results[place + 2] as number;
    const unsettled = undecided + (results[place + 3] as number);
    const alsoUndecided = results[place + 7] as number;
    const alsoUnsettled = alsoUndecided + (results[place + 8] as number);
    const costNone = costs.perPerson + (results[place + 9] as number) + costs.perInconclusive * alsoUndecided;
    const costAll = costs.perPerson + (results[place + 4] as number) + costs.perInconclusive * undecided;
    const falsely = results[place + 5] as number;
    into.missed[at] = rules.inconclusiveMissed ? negative + unsettled : negative;
    into.falsely[at] = falsely;
    into.cost[at] = costNone;
    into.rise[at] = costAll - costNone;
    let from = 0;
    let to = 1;
    if (rules.minimumPpv !== null) from = lowestFor(rules.minimumPpv, results[place] as number, falsely);
    if (rules.minimumNpv !== null) {
      to = 1 - lowestFor(rules.minimumNpv, results[place + 6] as number, negative);
    }
    if (rules.mostInconclusive !== null) {
      const above = rules.mostInconclusive - alsoUnsettled;
      const slope = unsettled - alsoUnsettled;
      if (slope > 0) to = Math.min(to, above / slope);
      else if (slope < 0) from = Math.max(from, above / slope);
      else if (above < 0) from = 2;
    }
    into.from[at] = from;
    into.to[at] = to;
  }
}

/** The share of people in question above which the predictive value is kept; 2 where it never is. */
function lowestFor(minimum: number, rightly: number, wrongly: number): number {
  if (rightly + wrongly <= 0) return 2;
  if (wrongly <= 0 || minimum <= 0) return 0;
  return (minimum * wrongly) / (rightly * (1 - minimum) + minimum * wrongly);
}
