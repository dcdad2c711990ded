import type { Share } from "../proportion/difference-interval.ts";
import { differenceScore } from "../proportion/score-difference.ts";

/**
 * A set of possible results of two groups: for each first count, the second counts below `below` and
 * those from `from` on. The score rises with the first count and falls with the second, so both borders
 * rise with the first count.
 */
export interface ResultRegion {
  readonly below: Int32Array;
  readonly from: Int32Array;
}

/** Scores this close count as equal: a tie is as extreme as the result seen. */
const TIE = 1e-10;

/** Results whose score, at the supposed difference, is the one seen or larger. */
export function regionAtLeast(first: Share, second: Share, supposed: number): ResultRegion {
  const score = scoreAt(first, second, supposed);
  const bar = lowered(score(first.count, second.count));
  return {
    below: climb(first.total, second.total, (one, other) => score(one, other) >= bar),
    from: new Int32Array(first.total + 1).fill(second.total + 1),
  };
}

/** Results whose score under no difference is as far from 0 as the one seen, or farther. */
export function regionAsFar(first: Share, second: Share): ResultRegion {
  const score = scoreAt(first, second, 0);
  const bar = lowered(Math.abs(score(first.count, second.count)));
  return {
    below: climb(first.total, second.total, (one, other) => score(one, other) >= bar),
    from: climb(first.total, second.total, (one, other) => score(one, other) > -bar),
  };
}

/** Results in either of two regions. */
export function union(one: ResultRegion, other: ResultRegion): ResultRegion {
  return {
    below: one.below.map((border, at) => Math.max(border, other.below[at] ?? 0)),
    from: one.from.map((border, at) => Math.min(border, other.from[at] ?? border)),
  };
}

function scoreAt(first: Share, second: Share, supposed: number) {
  return (one: number, other: number) => differenceScore(one, first.total, other, second.total, supposed);
}

function lowered(score: number): number {
  return score - TIE * Math.max(1, Math.abs(score) === Number.POSITIVE_INFINITY ? 1 : Math.abs(score));
}

/** For each first count, the first second count that is not inside; walks the border once. */
function climb(
  firstTotal: number,
  secondTotal: number,
  inside: (firstCount: number, secondCount: number) => boolean,
): Int32Array {
  const border = new Int32Array(firstTotal + 1);
  let at = 0;
  for (let firstCount = 0; firstCount <= firstTotal; firstCount += 1) {
    while (at <= secondTotal && inside(firstCount, at)) at += 1;
    border[firstCount] = at;
  }
  return border;
}
