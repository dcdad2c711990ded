import type { Share } from "../proportion/difference-interval.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import { type ResultRegion, regionAsFar, regionAtLeast } from "./exact-region.ts";
import { type Supremum, supremum } from "./nuisance.ts";
import { regionProbability } from "./region-probability.ts";

/** P-values of the exact unconditional test of no difference. */
export interface ExactProbabilities {
  readonly twoSided: number;
  readonly greater: number;
  readonly less: number;
  /** Common proportion at which the two-sided p-value is largest. */
  readonly commonProportion: number;
}

/**
 * The exact unconditional test of two independent proportions, for callers without a schema.
 *
 * @param restriction 0: every common proportion is tried; above: only those in its exact interval at this
 *   error, which is added to the p-values
 * Sources: barnard1947, berger1994 (restriction)
 */
export function exactProbabilities(first: Share, second: Share, restriction: number): ExactProbabilities {
  const twoSided = largest(regionAsFar(first, second), first, second, restriction);
  return {
    twoSided: twoSided.value,
    greater: largest(regionAtLeast(first, second, 0), first, second, restriction).value,
    less: largest(regionAtLeast(second, first, 0), second, first, restriction).value,
    commonProportion: twoSided.share,
  };
}

/** The largest probability of a region under no difference, plus the error of the restriction. */
function largest(region: ResultRegion, first: Share, second: Share, restriction: number): Supremum {
  const count = first.count + second.count;
  const total = first.total + second.total;
  const { lower, upper } =
    restriction === 0 ? { lower: 0, upper: 1 } : proportionInterval(count, total, { level: 1 - restriction });
  const probability = regionProbability(region, first.total, second.total);
  const range = { difference: 0, least: lower, most: upper };
  const { value, share } = supremum(probability, range, [first.total, second.total]);
  return { value: Math.min(1, value + restriction), share };
}
