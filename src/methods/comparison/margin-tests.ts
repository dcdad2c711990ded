import type { Estimate } from "../../core/estimate.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { type DifferenceMethod, differenceInterval, type Share } from "../proportion/difference-interval.ts";
import { type RatioMethod, ratioChiSquare, ratioInterval } from "../proportion/ratio-interval.ts";
import { differenceScore } from "../proportion/score-difference.ts";
import type { PairedCounts } from "./paired-counts.ts";
import { peopleOf } from "./paired-counts.ts";
import { type PairedMethod, pairedDifference } from "./paired-difference.ts";
import { pairedScore } from "./paired-score.ts";

/** An effect with its interval, and score tests of a margin. */
export interface MarginTests {
  readonly effect: Estimate;
  /** The interval used; `log` gives way to `score` where it has no answer. */
  readonly interval: PairedMethod | DifferenceMethod | RatioMethod;
  /** One-sided p-value: a small one says that the true effect lies above the margin. */
  above(margin: number): number;
  /** One-sided p-value: a small one says that the true effect lies below the margin. */
  below(margin: number): number;
}

/** Intervals that contain just the margins their score test does not reject. */
export const SCORE_INTERVALS: readonly string[] = ["tango", "mee", "miettinen_nurminen", "score"];

function testsOf(
  effect: Estimate,
  interval: MarginTests["interval"],
  score: (margin: number) => number,
): MarginTests {
  return {
    effect: { value: effect.value, lower: effect.lower, upper: effect.upper },
    interval,
    above: (margin) => normalCdf(score(margin), "upper"),
    below: (margin) => normalCdf(score(margin), "lower"),
  };
}

/** Score tests of a difference on the same people; `null` without people. Source: tango1998 */
export function pairedTests(counts: PairedCounts, method: PairedMethod, level: number): MarginTests | null {
  if (peopleOf(counts) === 0) return null;
  const effect = pairedDifference(counts, method, level);
  return testsOf(effect, method, (margin) => pairedScore(counts, margin));
}

/**
 * Score tests of a difference of two groups; `null` where one is empty. Shrunk by sqrt((N - 1) / N) with
 * the interval that does the same. Sources: farrington1990, miettinen1985
 */
export function differenceTests(
  first: Share,
  second: Share,
  method: DifferenceMethod,
  level: number,
): MarginTests | null {
  if (first.total === 0 || second.total === 0) return null;
  const shrink = method === "miettinen_nurminen" ? shrinkOf(first, second) : 1;
  const effect = differenceInterval(first, second, method, level);
  return testsOf(
    effect,
    method,
    (margin) => shrink * differenceScore(first.count, first.total, second.count, second.total, margin),
  );
}

/** Score tests of a ratio of two groups; `null` where it is 0 divided by 0. Sources: koopman1984, miettinen1985 */
export function ratioTests(
  first: Share,
  second: Share,
  method: RatioMethod,
  level: number,
): MarginTests | null {
  const effect = ratioInterval(first, second, method, level);
  if (effect.kind === "not_estimable") return null;
  const shrink = method === "miettinen_nurminen" ? shrinkOf(first, second) : 1;
  return testsOf(effect, effect.used, (margin) => {
    const apart = first.count / first.total - (margin * second.count) / second.total;
    return Math.sign(apart) * shrink * Math.sqrt(ratioChiSquare(first, second, margin));
  });
}

function shrinkOf(first: Share, second: Share): number {
  const people = first.total + second.total;
  return Math.sqrt((people - 1) / people);
}
