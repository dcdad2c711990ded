import { InputError } from "../../core/input-error.ts";
import type { Demand } from "../decision/verdict-borders.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";
import { chanceMet, metBorder, reaches } from "./criterion-chance.ts";

/** The criterion, the true proportion supposed, and the probability wanted that it is met. */
export interface SizeQuestion {
  readonly demand: Demand;
  readonly expected: number;
  readonly options: CriterionOptions;
  readonly power: number;
}

/** The first total that reaches the power, and the one from which on every larger one does. */
export interface SizesFound {
  readonly first: number | null;
  readonly stays: number | null;
}

type Border = (total: number) => number;

/**
 * Both sizes among 1 to `horizon` people, exactly, without asking about every total.
 *
 * A run of totals is passed over as a whole where all of it must reach the power, or none of it can. One
 * person against more never makes a criterion met, one in favour more never unmet: so within a run the
 * border lies between those of its ends, as does the number allowed against. What can't be told is halved,
 * down to single totals. Blaker's interval does not keep that order; there the border lies between those of
 * the exact interval at this level and of its one-sided limits at this level, which do.
 */
export function searchSizes(question: SizeQuestion, horizon: number): SizesFound {
  const { demand, options } = question;
  const own = remembered((total) => metBorder(total, demand, options));
  const bounds = options.method === "blaker" && options.rule !== "point" ? aroundBlaker(question) : null;
  const told = (from: number, to: number) => {
    const { most, least } = bounds !== null && from < to ? bounds : { most: own, least: own };
    return runTold(question, from, to, most, least);
  };
  const firstReached = (from: number, to: number): number | null => {
    const all = told(from, to);
    if (all !== null) return all ? from : null;
    const middle = Math.floor((from + to) / 2);
    return firstReached(from, middle) ?? firstReached(middle + 1, to);
  };
  const lastMissed = (from: number, to: number): number | null => {
    const all = told(from, to);
    if (all !== null) return all ? null : to;
    const middle = Math.floor((from + to) / 2);
    return lastMissed(middle + 1, to) ?? lastMissed(from, middle);
  };
  const stays = (lastMissed(1, horizon) ?? 0) + 1;
  return { first: firstReached(1, horizon), stays: stays > horizon ? null : stays };
}

/** Whether all totals of a run reach the power (`true`), or none (`false`), or it can't be told (`null`). */
function runTold(
  { demand, expected, power }: SizeQuestion,
  from: number,
  to: number,
  most: Border,
  least: Border,
): boolean | null {
  const chance = (needed: number, total: number) => chanceMet(needed, total, expected, demand.direction);
  const allowedFrom = from - most(from);
  if (reaches(chance(most(to), from), power) || reaches(chance(to - allowedFrom, to), power)) return true;
  if (from === to) return false;
  const allowedTo = to - least(to);
  const missed = !reaches(chance(least(from), to), power) || !reaches(chance(from - allowedTo, from), power);
  return missed ? false : null;
}

/** Borders of nested limits that enclose Blaker's. */
function aroundBlaker({ demand, options }: SizeQuestion): { most: Border; least: Border } {
  const { level, sides } = options;
  if (sides === "one" || options.rule === "one_sided") {
    throw new InputError(["options", "sides"], "two for the interval of Blaker", sides);
  }
  const exact: CriterionOptions = { method: "clopper_pearson", level, sides: "two" };
  const oneSided: CriterionOptions = { ...exact, sides: "one" };
  return {
    most: remembered((total) => metBorder(total, demand, exact)),
    least: level > 0.5 ? remembered((total) => metBorder(total, demand, oneSided)) : () => 0,
  };
}

function remembered(border: Border): Border {
  const known = new Map<number, number>();
  return (total) => {
    const before = known.get(total);
    if (before !== undefined) return before;
    const found = border(total);
    known.set(total, found);
    return found;
  };
}
