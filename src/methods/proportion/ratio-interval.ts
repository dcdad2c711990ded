import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { findRoot } from "../../numeric/root.ts";
import type { Share } from "./difference-interval.ts";

export const RATIO_METHODS = ["log", "score", "miettinen_nurminen"] as const;
export type RatioMethod = (typeof RATIO_METHODS)[number];

/** A ratio with its interval; a limit or value that is infinite is `null` and listed as such. */
export interface RatioEstimate extends Estimate {
  /** `infinite`: the second proportion is 0, the ratio has no upper limit. */
  readonly kind: "finite" | "infinite" | "not_estimable";
  /** The interval used: `score` where the log method has no answer. */
  readonly used: RatioMethod;
}

/**
 * Ratio of two independent proportions, first over second, with its interval.
 *
 * `log`: normal on the log scale; has no answer with a count of 0, and no width when both proportions
 * are 1: the score interval is then taken. `score`: the ratios a score test would not reject; gives a
 * lower limit even when the second count is 0, and an upper one when the first is 0.
 * `miettinen_nurminen`: the same, its chi-square shrunk by (N - 1) / N and so a little wider.
 *
 * Sources: simel1991 (log), koopman1984 (score), miettinen1985
 */
export function ratioInterval(
  first: Share,
  second: Share,
  method: RatioMethod,
  level: number,
): RatioEstimate {
  if (first.total === 0 || second.total === 0 || (first.count === 0 && second.count === 0)) {
    return { ...NOT_ESTIMABLE, kind: "not_estimable", used: method };
  }
  const z = normalQuantile((1 - level) / 2, "upper");
  const variance = 1 / first.count - 1 / first.total + (1 / second.count - 1 / second.total);
  if (method === "miettinen_nurminen") {
    const people = first.total + second.total;
    return { ...scoreInterval(first, second, (z * z * people) / (people - 1)), used: method };
  }
  if (method === "score" || !(variance > 0 && Number.isFinite(variance))) {
    return scoreInterval(first, second, z * z);
  }
  const value = first.count / first.total / (second.count / second.total);
  const factor = Math.exp(z * Math.sqrt(variance));
  return { value, lower: value / factor, upper: value * factor, kind: "finite", used: "log" };
}

function scoreInterval(first: Share, second: Share, allowed: number): RatioEstimate {
  const value = second.count === 0 ? null : first.count / first.total / (second.count / second.total);
  const observed = value === null ? null : Math.log(value);
  // At the ratio seen the statistic is 0: rounding must not push it above a very small allowance.
  const excess = (logRatio: number) =>
    (logRatio === observed ? 0 : ratioChiSquare(first, second, Math.exp(logRatio))) - allowed;
  // Where the ratio is 0 or infinite, a place well inside the interval is found by going outwards.
  let inside = Math.log(
    (first.count + 0.5) / (first.total + 1) / ((second.count + 0.5) / (second.total + 1)),
  );
  if (observed !== null && Number.isFinite(observed)) inside = observed;
  while (excess(inside) > 0) inside += value === 0 ? -1 : 1;
  return {
    value,
    lower: first.count === 0 ? 0 : Math.exp(crossing(excess, inside, -1)),
    upper: second.count === 0 ? null : Math.exp(crossing(excess, inside, 1)),
    kind: value === null ? "infinite" : "finite",
    used: "score",
  };
}

/** Where the statistic passes what is allowed, going from inside in one direction. */
function crossing(excess: (logRatio: number) => number, inside: number, direction: 1 | -1): number {
  let step = 0.5;
  while (excess(inside + direction * step) <= 0) step *= 2;
  const outside = inside + direction * step;
  return findRoot(excess, Math.min(inside, outside), Math.max(inside, outside)).root;
}

/**
 * Koopman's chi-square of both counts at the ratio given, the second proportion being the most likely
 * one under that ratio: the smaller solution of
 * ratio N p² - (first + ratio second + ratio n1 + n0) p + (first + second) = 0.
 * The complements 1 - p are written so that none is lost near 1.
 */
export function ratioChiSquare(first: Share, second: Share, ratio: number): number {
  const both = first.count + second.count;
  const linear = first.count + second.total + ratio * (second.count + first.total);
  const root = Math.sqrt(Math.max(0, linear * linear - 4 * ratio * (first.total + second.total) * both));
  const sum = linear + root;
  const share = (2 * both) / sum;
  const productFirst = 4 * ratio * both * (ratio - 1) * (first.total - first.count);
  const productSecond = 4 * both * (1 - ratio) * (second.total - second.count);
  const restFirst = complement(linear - 2 * ratio * both, root, sum, productFirst);
  const restSecond = complement(linear - 2 * both, root, sum, productSecond);
  return squaredResidual(first, ratio * share, restFirst) + squaredResidual(second, share, restSecond);
}

/** (difference + root) / sum; by (root² - difference²) = product where the difference is negative. */
function complement(difference: number, root: number, sum: number, product: number): number {
  return difference >= 0 ? (difference + root) / sum : product / (root - difference) / sum;
}

function squaredResidual({ count, total }: Share, share: number, rest: number): number {
  const residual = rest < share ? total - count - total * rest : count - total * share;
  return residual === 0 ? 0 : (residual * residual) / (total * share * rest);
}
