import type { Look } from "./looks.ts";
import { roundUp } from "./round-up.ts";
import { type Alive, advance, START, type Steps, stepsOf, stopAt } from "./rule-paths.ts";
import { type Demands, withinError } from "./single-look.ts";
import { type Spending, spentBy } from "./spending.ts";

/** A look with what it may spend and has spent, failures not being obeyed. */
export interface PlannedLook extends Look {
  readonly errorAllowed: number;
  readonly errorSpent: number;
}

export interface SequentialDemands extends Demands {
  readonly fractions: readonly number[];
  readonly spending: Spending;
  readonly failure: boolean;
}

export interface Borders {
  readonly looks: readonly PlannedLook[];
  readonly power: number;
}

/** Steps if the kit is unacceptable, and if it is as expected; a search over totals shares them. */
export interface BothSteps {
  readonly bad: Steps;
  readonly good: Steps;
}

export function bothSteps({ unacceptable, expected }: Demands): BothSteps {
  return { bad: stepsOf(unacceptable), good: stepsOf(expected) };
}

/** An allowance this small is not spent: it is of the size of what the recursion leaves out. */
const TOO_SMALL = 1e-25;

/** People at each look, rounded up; `null` where two looks fall together. */
export function lookTotals(total: number, fractions: readonly number[]): readonly number[] | null {
  const totals = fractions.map((fraction) => roundUp(fraction * total));
  return totals.every((here, at) => at === 0 || here > (totals[at - 1] as number)) ? totals : null;
}

/**
 * Borders of a final total. At each look the smallest `passFrom` with which the exact probability of having
 * passed, if unacceptable, stays within the error that may be spent. It is reckoned as if nobody obeyed a
 * stop for failure, so that the error holds also where a study goes on against the rule. With `failure`, the
 * largest `failAt` with which the probability of having failed, if as expected, stays within the part of
 * 1 - power that may be spent the same way; between the two borders at least one result goes on.
 *
 * @returns `null` where two looks fall together, or no result at the end could pass
 */
export function sequentialBorders(
  total: number,
  demands: SequentialDemands,
  steps: BothSteps = bothSteps(demands),
): Borders | null {
  const totals = lookTotals(total, demands.fractions);
  if (totals === null) return null;
  const looks: PlannedLook[] = [];
  let [bad, good] = [START, START];
  let [spent, failed, power, seen] = [0, 0, 0, 0];
  for (const here of totals) {
    const last = here === total;
    bad = advance(bad, steps.bad(here - seen));
    good = advance(good, steps.good(here - seen));
    const errorAllowed = spentBy(here / total, demands.error, demands.spending);
    const passFrom = lowestPass(bad, here, spent, errorAllowed);
    const failAt = last
      ? lastFail(passFrom)
      : highestFail(good, here, failed, passFrom, demands, here / total);
    const badStops = stopAt(bad, { passFrom, failAt: null });
    const goodStops = stopAt(good, { passFrom, failAt });
    spent += badStops.pass;
    failed += goodStops.fail;
    power += goodStops.pass;
    looks.push({ total: here, passFrom, failAt, errorAllowed, errorSpent: spent });
    [bad, good, seen] = [badStops.alive, goodStops.alive, here];
  }
  const decides = looks.some(({ total: here, passFrom }) => here === total && passFrom !== null);
  return decides ? { looks, power } : null;
}

const lastFail = (passFrom: number | null) => (passFrom === null ? null : passFrom - 1);

/** The smallest border of passing that stays within the allowance; `null` where even all right do not. */
function lowestPass(bad: Alive, total: number, spent: number, allowed: number): number | null {
  if (allowed - spent < TOO_SMALL) return null;
  let border = bad.from + bad.mass.length;
  let above = 0;
  while (border > bad.from) {
    const more = above + (bad.mass[border - 1 - bad.from] as number);
    if (!withinError(spent + more, allowed)) break;
    above = more;
    border -= 1;
  }
  return border <= total ? border : null;
}

/** The largest border of failing that stays within the allowance and leaves a way to go on. */
function highestFail(
  good: Alive,
  total: number,
  failed: number,
  passFrom: number | null,
  demands: SequentialDemands,
  share: number,
): number | null {
  const allowed = spentBy(share, 1 - demands.power, demands.spending);
  if (!demands.failure || allowed - failed < TOO_SMALL || good.mass.length === 0) return null;
  let border = good.from - 1;
  let below = 0;
  for (const mass of good.mass) {
    if (!withinError(failed + below + mass, allowed)) break;
    below += mass;
    border += 1;
  }
  const most = Math.min(border, (passFrom ?? total + 1) - 2);
  return most >= 0 ? most : null;
}
