import { randomBinomial } from "d3-random";
import type { ProportionEstimate } from "../../core/estimate.ts";
import type { RandomSource } from "../../core/random.ts";
import { binomialCdf, binomialQuantile } from "../../numeric/binomial.ts";
import { twoSidedBinomial } from "../proportion/exact-test.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";

/** A count against what was to be expected. */
export interface JudgedCount {
  readonly share: ProportionEstimate;
  readonly lower: number;
  readonly upper: number;
  readonly twoSided: number;
  readonly asMany: number;
  readonly asFew: number;
}

/** Against a known share: exact binomial. */
export function judgedBy(seen: number, total: number, share: number, level: number): JudgedCount {
  const outside = (1 - level) / 2;
  return {
    share: estimateProportion(seen, total, { method: "clopper_pearson", level }),
    lower: binomialQuantile(outside, total, share),
    upper: binomialQuantile(1 - outside, total, share),
    twoSided: twoSidedBinomial(seen, total, share),
    asMany: binomialCdf(seen - 1, total, share, "upper"),
    asFew: binomialCdf(seen, total, share),
  };
}

/**
 * Against a share of which draws are given: the tails are means of binomial tails over the draws, the limits
 * those of one count drawn for each; two-sided: twice the smaller tail.
 */
export function judgedByDraws(
  seen: number,
  total: number,
  shares: Float64Array,
  level: number,
  random: RandomSource,
): JudgedCount {
  const binomial = randomBinomial.source(random);
  const counts = new Float64Array(shares.length);
  let [asMany, asFew] = [0, 0];
  for (const [place, share] of shares.entries()) {
    asMany += binomialCdf(seen - 1, total, share, "upper");
    asFew += binomialCdf(seen, total, share);
    counts[place] = binomial(total, share)();
  }
  asMany /= shares.length;
  asFew /= shares.length;
  counts.sort();
  return {
    share: estimateProportion(seen, total, { method: "clopper_pearson", level }),
    ...centralOf(counts, level),
    twoSided: Math.min(1, 2 * Math.min(asMany, asFew)),
    asMany: Math.min(1, asMany),
    asFew: Math.min(1, asFew),
  };
}

/** Central limits of sorted draws: the draws at these ranks. */
export function centralOf(sorted: Float64Array, level: number): { lower: number; upper: number } {
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))] as number;
  return { lower: at((1 - level) / 2), upper: at((1 + level) / 2) };
}
