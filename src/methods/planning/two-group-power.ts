import { normalQuantile } from "../../numeric/normal.ts";
import type { DifferenceMethod } from "../proportion/difference-interval.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import { differenceScore } from "../proportion/score-difference.ts";
import { type BinomialWindow, binomialWindow } from "./binomial-window.ts";

/** Two groups of different people, as planned. */
export interface PlannedGroups {
  readonly first: { readonly share: number; readonly total: number };
  readonly second: { readonly share: number; readonly total: number };
}

/**
 * The probability that a statistic of two groups which rises with the first count and falls with the second
 * is at least so large.
 *
 * Walks the border of the results once: for each first count the most in the second group that still reach it.
 *
 * @param score of the counts in the first and the second group
 */
function scorePower(
  { first, second }: PlannedGroups,
  score: (firstCount: number, secondCount: number) => number,
  least: number,
): number {
  const here = binomialWindow(first.total, first.share);
  const there = binomialWindow(second.total, second.share);
  let border = -1;
  let below = 0;
  let power = 0;
  here.masses.forEach((mass, at) => {
    const firstCount = here.from + at;
    while (border + 1 < there.masses.length && score(firstCount, there.from + border + 1) >= least) {
      border += 1;
      below += there.masses[border] as number;
    }
    power += mass * below;
  });
  return power;
}

/** The power of Pearson's chi-square without correction, in favour of the first group. */
export function pearsonPower(groups: PlannedGroups, error: number): number {
  const { first, second } = groups;
  // Its root is the score statistic of no difference.
  const score = (one: number, other: number) => differenceScore(one, first.total, other, second.total, 0);
  return scorePower(groups, score, normalQuantile(error / 2, "upper"));
}

/**
 * The power to show by an interval that the first proportion is no smaller than the second by the margin:
 * the probability that the lower limit of first minus second is at least minus the margin.
 */
export function marginPower(
  groups: PlannedGroups,
  margin: number,
  method: DifferenceMethod,
  level: number,
): number {
  if (method !== "mee" && method !== "miettinen_nurminen") {
    return squaredPower(groups, margin, PARTS[method](level));
  }
  const { first, second } = groups;
  const people = first.total + second.total;
  const shrink = method === "mee" ? 1 : Math.sqrt((people - 1) / people);
  const score = (one: number, other: number) =>
    shrink * differenceScore(one, first.total, other, second.total, -margin);
  return scorePower(groups, score, normalQuantile((1 - level) / 2, "upper"));
}

/**
 * What one group brings to a limit of the form first - second - sqrt(square of the one + square of the
 * other): its estimate, and the square of its distance.
 */
interface Part {
  readonly estimate: number;
  readonly square: number;
}
interface Parts {
  first(count: number, total: number): Part;
  second(count: number, total: number): Part;
}

/** Wald's limit may fall as the first count rises, so every pair of counts is looked at, not a border. */
function squaredPower({ first, second }: PlannedGroups, margin: number, parts: Parts): number {
  const here = binomialWindow(first.total, first.share);
  const there = binomialWindow(second.total, second.share);
  const ours = partsOf(here, (count) => parts.first(count, first.total));
  const theirs = partsOf(there, (count) => parts.second(count, second.total));
  let power = 0;
  for (let at = 0; at < ours.estimates.length; at += 1) {
    let reaching = 0;
    const estimate = ours.estimates[at] as number;
    const square = ours.squares[at] as number;
    for (let other = 0; other < theirs.estimates.length; other += 1) {
      const reach = Math.sqrt(square + (theirs.squares[other] as number));
      if (estimate - (theirs.estimates[other] as number) - reach >= -margin) {
        reaching += there.masses[other] as number;
      }
    }
    power += (here.masses[at] as number) * reaching;
  }
  return power;
}

function partsOf({ from, masses }: BinomialWindow, part: (count: number) => Part) {
  const estimates = new Float64Array(masses.length);
  const squares = new Float64Array(masses.length);
  for (let at = 0; at < masses.length; at += 1) {
    const { estimate, square } = part(from + at);
    estimates[at] = estimate;
    squares[at] = square;
  }
  return { estimates, squares };
}

const PARTS: Readonly<Record<"newcombe" | "wald" | "agresti_caffo", (level: number) => Parts>> = {
  newcombe: (level) => ({
    first(count, total) {
      const estimate = count / total;
      const { lower } = proportionInterval(count, total, { method: "wilson", level });
      return { estimate, square: Math.pow(estimate - lower, 2) };
    },
    second(count, total) {
      const estimate = count / total;
      const { upper } = proportionInterval(count, total, { method: "wilson", level });
      return { estimate, square: Math.pow(upper - estimate, 2) };
    },
  }),
  wald(level) {
    const part = waldPart(normalQuantile((1 - level) / 2, "upper"));
    return { first: part, second: part };
  },
  agresti_caffo(level) {
    const part = waldPart(normalQuantile((1 - level) / 2, "upper"));
    const added = (count: number, total: number) => part(count + 1, total + 2);
    return { first: added, second: added };
  },
};

function waldPart(z: number) {
  return (count: number, total: number): Part => {
    const estimate = count / total;
    return { estimate, square: (z * z * estimate * (1 - estimate)) / total };
  };
}
