import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";

/** Shares of all people enrolled; they add up to 1. */
interface Shares {
  readonly positiveShare: number;
  readonly negativeShare: number;
  readonly unusable: number;
}

/** Results more than this many standard deviations from the mean have no weight worth adding. */
const FAR = 9;
/** Masses from here on lose digits. */
const TINY = 1e-280;

/**
 * P(fewer positives than needed and fewer negatives than needed) among so many enrolled: the sum over the
 * positives of their binomial mass times the binomial tail of the negatives among the others. With one more
 * positive one fewer is left, and the tail grows by the mass at its border times the negatives' share.
 *
 * @param total at least the people needed of both kinds together
 */
export function bothShort(positives: number, negatives: number, total: number, shares: Shares): number {
  const { positiveShare, negativeShare, unusable } = shares;
  if (positives === 0 || negatives === 0 || unusable === 0) return 0;
  const mean = total * positiveShare;
  const reach = FAR * Math.sqrt(mean * (1 - positiveShare)) + FAR * FAR;
  const first = Math.max(0, Math.floor(mean - reach));
  const last = Math.min(positives - 1, Math.ceil(mean + reach));
  if (first > last) return 0;
  const share = negativeShare / (negativeShare + unusable);
  const others = unusable / (negativeShare + unusable);
  const odds = positiveShare / (1 - positiveShare);
  const border = negatives - 1;
  let mass = binomialMass(first, total, positiveShare);
  let left = total - first;
  let edge = binomialMass(border, left, share);
  let tail = binomialCdf(border, left, share, "lower");
  let sum = mass * tail;
  for (let count = first + 1; count <= last; count += 1) {
    mass =
      mass < TINY ? binomialMass(count, total, positiveShare) : mass * ((total - count + 1) / count) * odds;
    left -= 1;
    edge =
      edge < TINY ? binomialMass(border, left, share) : (edge * (left + 1 - border)) / ((left + 1) * others);
    tail += share * edge;
    sum += mass * tail;
  }
  return sum;
}
