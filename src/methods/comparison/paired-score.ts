import { type PairedCounts, peopleOf } from "./paired-counts.ts";

/**
 * The score statistic of a supposed difference of two proportions of the same people: observed less
 * supposed difference, over its standard error at the most likely probabilities that differ by just that
 * much. At 0 its square is McNemar's chi-square.
 *
 * `+-Infinity` where the supposed difference leaves no other result than one not seen; 0 where the
 * observed difference is the supposed one.
 *
 * @param counts   at least one person
 * @param supposed first minus second proportion, -1..1
 * Source: tango1998
 */
export function pairedScore(counts: PairedCounts, supposed: number): number {
  const { firstOnly, secondOnly } = counts;
  const people = peopleOf(counts);
  const apart = (firstOnly - secondOnly) / people - supposed;
  if (apart === 0) return 0;
  const variance =
    supposed < 0
      ? restrictedVariance(secondOnly, firstOnly, people, -supposed)
      : restrictedVariance(firstOnly, secondOnly, people, supposed);
  return apart / Math.sqrt(variance);
}

/**
 * With the supposed difference 0 or more: the probability q of the less frequent kind of discordance is
 * the larger root of 2 n q² + (...) q - less supposed (1 - supposed), written without cancellation.
 */
function restrictedVariance(more: number, less: number, people: number, supposed: number): number {
  const linear = (2 * people + less - more) * supposed - more - less;
  const constant = less * supposed * (1 - supposed);
  const root = Math.sqrt(linear * linear + 8 * people * constant);
  const share = linear > 0 ? (2 * constant) / (linear + root) : (root - linear) / (4 * people);
  return (2 * share + supposed * (1 - supposed)) / people;
}
