import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { Limits } from "../proportion/intervals/limits.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import { invertedScore } from "../proportion/score-difference.ts";
import { type PairedCounts, peopleOf } from "./paired-counts.ts";
import { pairedScore } from "./paired-score.ts";

export const PAIRED_METHODS = ["tango", "newcombe", "wald"] as const;
export type PairedMethod = (typeof PAIRED_METHODS)[number];

/**
 * Difference of two proportions of the same people, first minus second, with its interval.
 *
 * `tango`: the differences that a score test does not reject; has a width even when nobody is discordant.
 * `newcombe`: square and add of two score intervals, with the correlation of the two results.
 * `wald`: plus or minus z standard errors, cut to -1..1; no width when nobody is discordant.
 *
 * @returns all `null` where there are no people
 * Sources: tango1998; newcombe1998paired, method 10; agresti2002 (Wald)
 */
export function pairedDifference(counts: PairedCounts, method: PairedMethod, level: number): Estimate {
  const people = peopleOf(counts);
  if (people === 0) return NOT_ESTIMABLE;
  const value = (counts.firstOnly - counts.secondOnly) / people;
  const { lower, upper } = LIMITS[method](counts, level);
  return { value, lower: Math.max(-1, lower), upper: Math.min(1, upper) };
}

const LIMITS: Readonly<Record<PairedMethod, (counts: PairedCounts, level: number) => Limits>> = {
  tango(counts, level) {
    const z = normalQuantile((1 - level) / 2, "upper");
    const people = peopleOf(counts);
    const observed = (counts.firstOnly - counts.secondOnly) / people;
    return invertedScore((supposed) => pairedScore(counts, supposed), observed, z);
  },
  newcombe,
  wald(counts, level) {
    const people = peopleOf(counts);
    const { firstOnly, secondOnly } = counts;
    const apart = firstOnly - secondOnly;
    const spread = Math.sqrt(Math.max(0, firstOnly + secondOnly - (apart * apart) / people));
    const reach = (normalQuantile((1 - level) / 2, "upper") * spread) / people;
    return { lower: apart / people - reach, upper: apart / people + reach };
  },
};

function newcombe(counts: PairedCounts, level: number): Limits {
  const people = peopleOf(counts);
  const reactiveFirst = counts.both + counts.firstOnly;
  const reactiveSecond = counts.both + counts.secondOnly;
  const score = { method: "wilson", level } as const;
  const first = proportionInterval(reactiveFirst, people, score);
  const second = proportionInterval(reactiveSecond, people, score);
  const here = reactiveFirst / people;
  const there = reactiveSecond / people;
  const correlation = correctedCorrelation(counts);
  return {
    lower: here - there - joined(here - first.lower, second.upper - there, correlation),
    upper: here - there + joined(first.upper - here, there - second.lower, correlation),
  };
}

/** Length of the third side of the triangle of two distances. */
function joined(one: number, other: number, correlation: number): number {
  return Math.sqrt(Math.max(0, one * one - 2 * correlation * one * other + other * other));
}

/** Correlation of the two results; a positive one is first brought nearer to 0 by half a person. */
function correctedCorrelation(counts: PairedCounts): number {
  const { both, firstOnly, secondOnly, neither } = counts;
  const margins =
    Math.sqrt(both + firstOnly) *
    Math.sqrt(secondOnly + neither) *
    Math.sqrt(both + secondOnly) *
    Math.sqrt(firstOnly + neither);
  if (margins === 0) return 0;
  const product = both * neither - firstOnly * secondOnly;
  return (product > 0 ? Math.max(0, product - peopleOf(counts) / 2) : product) / margins;
}
