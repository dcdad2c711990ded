import { gammaQuantile } from "../../numeric/gamma-quantile.ts";
import { incompleteGamma } from "../../numeric/incomplete-gamma.ts";

interface Stream {
  readonly perDay: number;
  readonly opensAfterDays: number;
}

/** A stretch of days during which the same sites are open; the last one has no end. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** People a day, all open sites together; above 0. */
  readonly rate: number;
  /** People expected before it. */
  readonly before: number;
}
export type Arrivals = readonly Stretch[];

/** The stretches of all sites together, beginning with the day on which the first one opens. */
export function arrivalsOf(sites: readonly Stream[]): Arrivals {
  const days = [...new Set(sites.map(({ opensAfterDays }) => opensAfterDays))].sort((a, b) => a - b);
  let before = 0;
  return days.map((from, at) => {
    const open = sites.filter(({ opensAfterDays }) => opensAfterDays <= from);
    const rate = open.reduce((sum, { perDay }) => sum + perDay, 0);
    const stretch = { from, to: days[at + 1] ?? Number.POSITIVE_INFINITY, rate, before };
    before += rate * (stretch.to - from);
    return stretch;
  });
}

/** The days after which `total` people have come with the probability wanted. */
export function daysAt(arrivals: Arrivals, total: number, assurance: number): number {
  const people = gammaQuantile(assurance, total);
  const stretch = arrivals.findLast(({ before }) => before <= people) as Stretch;
  return stretch.from + (people - stretch.before) / stretch.rate;
}

/**
 * The mean of the days from `since` until `total` people have come, 0 where they have come before.
 *
 * The people expected by the day of the last one are gamma distributed with the total as shape, and the day is
 * linear in them within a stretch: means over each stretch are differences of incomplete gamma functions.
 */
export function meanDaysOpen(arrivals: Arrivals, total: number, since: number): number {
  let days = 0;
  for (const { from, to, rate, before } of arrivals) {
    if (to <= since) continue;
    const start = Math.max(from, since);
    const low = before + rate * (start - from);
    days += partialMean(total, low, before + rate * (to - from)) / rate;
  }
  const firstOpens = arrivals[0]?.from ?? 0;
  return days + Math.max(0, firstOpens - since);
}

/** The mean of min(G, high) - min(G, low) for a gamma variable G of this shape; `high` may be infinite. */
function partialMean(shape: number, low: number, high: number): number {
  return Math.max(0, meanAbove(shape, low) - meanAbove(shape, high));
}

/** The mean of the part of G that lies above a limit. */
function meanAbove(shape: number, limit: number): number {
  if (limit === Number.POSITIVE_INFINITY) return 0;
  return shape * incompleteGamma(shape + 1, limit, "upper") - limit * incompleteGamma(shape, limit, "upper");
}
