import { type Ladder, readingAt } from "./ladder.ts";

/** Where a curve meets a number of people of one group called reactive. */
export interface Meeting {
  /** People of the other group called reactive there; between whole numbers where the curve slopes. */
  readonly others: number;
  /** The reading there; `null` where nobody is called reactive. */
  readonly cutoff: number | null;
}

export type AtSteps = "middle" | "best";

/**
 * Where the curve, whose points are joined by straight lines, has `target` people of one group beyond the cutoff.
 * Where it has them along a whole step, the middle of that step, or its best end.
 *
 * @param group  whose number is given: negatives (equal specificity) or positives (equal sensitivity)
 * @param target a whole number, 0 to the group's size
 */
export function meetingAt(
  ladder: Ladder,
  group: "negatives" | "positives",
  target: number,
  atSteps: AtSteps,
): Meeting {
  const [given, other] =
    group === "negatives" ? [ladder.negatives, ladder.positives] : [ladder.positives, ladder.negatives];
  let [rung, sum, otherSum] = [-1, 0, 0];
  let [firstRung, firstOther] = [-1, 0];
  let [lastRung, lastOther] = [-1, 0];
  let met = target === 0;
  while (rung + 1 < given.length) {
    const [next, nextOther] = [sum + (given[rung + 1] as number), otherSum + (other[rung + 1] as number)];
    if (next > target) {
      if (met) break;
      const share = (target - sum) / (next - sum);
      return {
        others: otherSum + share * (nextOther - otherSum),
        cutoff: cutoffBetween(ladder, rung, rung + 1, share),
      };
    }
    rung += 1;
    [sum, otherSum] = [next, nextOther];
    if (sum === target) {
      if (!met) [firstRung, firstOther] = [rung, otherSum];
      [lastRung, lastOther] = [rung, otherSum];
      met = true;
    }
  }
  if (atSteps === "middle") {
    return {
      others: (firstOther + lastOther) / 2,
      cutoff: cutoffBetween(ladder, firstRung, lastRung, 0.5),
    };
  }
  const [bestRung, bestOther] = group === "negatives" ? [lastRung, lastOther] : [firstRung, firstOther];
  return { others: bestOther, cutoff: cutoffBetween(ladder, bestRung, bestRung, 0) };
}

/** A reading that share of the way from one rung to another; before the first rung there is none. */
function cutoffBetween(ladder: Ladder, from: number, to: number, share: number): number | null {
  if (to < 0) return null;
  const end = readingAt(ladder, to);
  const begin = from < 0 ? readingAt(ladder, Math.min(to, 0)) : readingAt(ladder, from);
  return begin + share * (end - begin);
}
