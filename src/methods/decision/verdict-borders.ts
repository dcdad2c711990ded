import {
  type CriterionInput,
  type CriterionOptions,
  criterionVerdict,
  type Verdict,
} from "../proportion/criterion.ts";

/** A criterion without its counts. */
export type Demand = Pick<CriterionInput, "threshold" | "direction">;

/**
 * Where the verdict changes among all results of a total. Counted are results in favour: the events under
 * `at_least`, the others under `at_most`. One more in favour never worsens a verdict.
 */
export interface VerdictBorders {
  /** Fewest in favour with which the criterion is met; total + 1 where none does. */
  readonly met: number;
  /** Most in favour with which it is not met; -1 where none does. */
  readonly notMet: number;
}

/** How many of so many are in favour. */
export function inFavour(count: number, total: number, direction: CriterionInput["direction"]): number {
  return direction === "at_least" ? count : total - count;
}

/** The verdict on a result that is counted in favour. */
export function verdictOn(
  favourable: number,
  total: number,
  { threshold, direction }: Demand,
  options: CriterionOptions,
): Verdict {
  const count = direction === "at_least" ? favourable : total - favourable;
  return criterionVerdict({ count, total, threshold, direction }, options);
}

/** Both borders of a total, by halving. */
export function verdictBorders(total: number, demand: Demand, options: CriterionOptions): VerdictBorders {
  const first = (holds: (verdict: Verdict) => boolean) => {
    let [low, high] = [0, total + 1];
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      if (holds(verdictOn(middle, total, demand, options))) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  return {
    met: first((verdict) => verdict === "met"),
    notMet: first((verdict) => verdict !== "not_met") - 1,
  };
}

/** The border of `met` for a total, searched from a guess near it (that of the total before). */
export function metBorderNear(
  guess: number,
  total: number,
  demand: Demand,
  options: CriterionOptions,
): number {
  const meets = (favourable: number) => verdictOn(favourable, total, demand, options) === "met";
  let border = Math.min(guess, total + 1);
  while (border <= total && !meets(border)) border += 1;
  while (border > 0 && meets(border - 1)) border -= 1;
  return border;
}
