import { incompleteBeta } from "../../../numeric/incomplete-beta.ts";
import { findRoot } from "../../../numeric/root.ts";
import { clopperPearson } from "./clopper-pearson.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * The exact interval with only half the probability of the result itself counted. Shorter than
 * Clopper and Pearson's, covers the stated level on average, may fall a little below it.
 * The limits of the exact interval at this count and at its neighbour enclose each root.
 * Source: newcombe1998, method 6.
 */
export const midP: IntervalRule = {
  lower(count, total, outside) {
    if (count === 0) return 0;
    if (count === total) return Math.exp(Math.log(2 * outside) / total);
    const beyond = (share: number) =>
      (incompleteBeta(share, count, total - count + 1, "lower") +
        incompleteBeta(share, count + 1, total - count, "lower")) /
        2 -
      outside;
    return between(
      beyond,
      clopperPearson.lower(count, total, outside),
      clopperPearson.lower(count + 1, total, outside),
    );
  },
  upper(count, total, outside) {
    if (count === total) return 1;
    if (count === 0) return -Math.expm1(Math.log(2 * outside) / total);
    const beyond = (share: number) =>
      (incompleteBeta(share, count + 1, total - count, "upper") +
        incompleteBeta(share, count, total - count + 1, "upper")) /
        2 -
      outside;
    return between(
      beyond,
      clopperPearson.upper(count - 1, total, outside),
      clopperPearson.upper(count, total, outside),
    );
  },
};

function between(beyond: (share: number) => number, low: number, high: number): number {
  return findRoot(beyond, low, high).root;
}
