import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { Limits } from "./intervals/limits.ts";
import { proportionInterval } from "./proportion-interval.ts";
import { scoreDifferenceLimits } from "./score-difference.ts";

export const DIFFERENCE_METHODS = ["newcombe", "wald", "agresti_caffo", "mee", "miettinen_nurminen"] as const;
export type DifferenceMethod = (typeof DIFFERENCE_METHODS)[number];

/** So many of so many. */
export interface Share {
  readonly count: number;
  readonly total: number;
}

/**
 * Difference of two independent proportions, first minus second, with its interval.
 *
 * `newcombe`: the hybrid of the two score intervals (square and add); keeps to -1..1 and has a width
 * even at 0 and 1. `wald`: plus or minus z standard errors, cut to -1..1; has no width where both
 * proportions are 0 or 1. `agresti_caffo`: Wald's after adding one of each kind to both groups, cut to
 * -1..1, not centred on the estimate. `mee` and `miettinen_nurminen`: the differences that a score test
 * does not reject, the latter a little wider.
 *
 * @param truncate `false` leaves limits beyond -1..1 as the formula gives them (Wald, Agresti and Caffo)
 * @returns all `null` where a total is 0
 * Sources: newcombe1998difference, method 10; agresti2000; mee1984; miettinen1985
 */
export function differenceInterval(
  first: Share,
  second: Share,
  method: DifferenceMethod,
  level: number,
  truncate = true,
): Estimate {
  if (first.total === 0 || second.total === 0) return NOT_ESTIMABLE;
  const value = first.count / first.total - second.count / second.total;
  const { lower, upper } = LIMITS[method](first, second, level);
  if (!truncate) return { value, lower, upper };
  return { value, lower: Math.max(-1, lower), upper: Math.min(1, upper) };
}

type DifferenceLimits = (first: Share, second: Share, level: number) => Limits;

const LIMITS: Readonly<Record<DifferenceMethod, DifferenceLimits>> = {
  newcombe,
  wald,
  agresti_caffo: (first, second, level) => wald(oneOfEachAdded(first), oneOfEachAdded(second), level),
  mee: (first, second, level) => scoreDifferenceLimits(first, second, level, 1),
  miettinen_nurminen: (first, second, level) => {
    const people = first.total + second.total;
    return scoreDifferenceLimits(first, second, level, Math.sqrt((people - 1) / people));
  },
};

function oneOfEachAdded({ count, total }: Share): Share {
  return { count: count + 1, total: total + 2 };
}

function wald(first: Share, second: Share, level: number): Limits {
  const here = first.count / first.total;
  const there = second.count / second.total;
  const variance = (here * (1 - here)) / first.total + (there * (1 - there)) / second.total;
  const reach = normalQuantile((1 - level) / 2, "upper") * Math.sqrt(variance);
  return { lower: here - there - reach, upper: here - there + reach };
}

function newcombe(first: Share, second: Share, level: number): Limits {
  const here = first.count / first.total;
  const there = second.count / second.total;
  const score = { method: "wilson", level } as const;
  const one = proportionInterval(first.count, first.total, score);
  const other = proportionInterval(second.count, second.total, score);
  return {
    lower: here - there - Math.hypot(here - one.lower, other.upper - there),
    upper: here - there + Math.hypot(one.upper - here, there - other.lower),
  };
}
