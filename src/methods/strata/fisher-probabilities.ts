import { hypergeometricCdf, hypergeometricMass } from "../../numeric/hypergeometric.ts";
import type { Share } from "../proportion/difference-interval.ts";
import { noMoreProbable } from "../proportion/no-more-probable.ts";

/** The p-values of Fisher's exact test, given both margins. */
export interface FisherProbabilities {
  /** Tables no more probable than the one seen. */
  readonly twoSided: number;
  /** As many of the first group's, or more. */
  readonly greater: number;
  readonly less: number;
}

/**
 * Fisher's exact test of two independent proportions, for callers without a schema.
 * Source: fisher1935
 */
export function fisherProbabilities(first: Share, second: Share): FisherProbabilities {
  const both = first.count + second.count;
  const { total } = first;
  const rest = second.total;
  const least = Math.max(0, both - rest);
  const most = Math.min(both, total);
  const expectedMode = Math.floor(((both + 1) * (total + 1)) / (total + rest + 2));
  const twoSided = noMoreProbable(first.count, {
    least,
    most,
    mode: Math.min(most, Math.max(least, expectedMode)),
    mass: (result) => hypergeometricMass(result, total, rest, both),
    atMost: (result) => hypergeometricCdf(result, total, rest, both, "lower"),
    atLeast: (result) => hypergeometricCdf(result - 1, total, rest, both, "upper"),
  });
  return {
    twoSided,
    greater: hypergeometricCdf(first.count - 1, total, rest, both, "upper"),
    less: hypergeometricCdf(first.count, total, rest, both, "lower"),
  };
}
