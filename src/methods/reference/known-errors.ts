import type { CrossedCounts, ErrorCovariance, KnownAccuracy } from "./known-errors-fields.ts";

/** A table of kit against reference, as shares of all people. */
export type CrossedShares = CrossedCounts;

/** What is supposed of the reference. */
export interface KnownErrors {
  readonly reference: KnownAccuracy;
  readonly covariance: ErrorCovariance;
}

/** A correction by formula; nothing keeps it within 0..1. */
export interface Correction {
  readonly prevalence: number;
  readonly sensitivity: number;
  readonly specificity: number;
}

export function totalOf({ bothReactive, kitOnly, referenceOnly, neither }: CrossedCounts): number {
  return bothReactive + kitOnly + referenceOnly + neither;
}

/** @param counts at least one person */
export function sharesOf(counts: CrossedCounts): CrossedShares {
  const total = totalOf(counts);
  return {
    bothReactive: counts.bothReactive / total,
    kitOnly: counts.kitOnly / total,
    referenceOnly: counts.referenceOnly / total,
    neither: counts.neither / total,
  };
}

/** The same with positive and negative, present and absent exchanged: a specificity becomes a sensitivity. */
export function mirroredCounts(counts: CrossedCounts): CrossedCounts {
  return {
    bothReactive: counts.neither,
    kitOnly: counts.referenceOnly,
    referenceOnly: counts.kitOnly,
    neither: counts.bothReactive,
  };
}

/** As `mirroredCounts`; a covariance keeps its sign, since both results are turned. */
export function mirroredErrors({ reference, covariance }: KnownErrors): KnownErrors {
  return {
    reference: { sensitivity: reference.specificity, specificity: reference.sensitivity },
    covariance: { diseased: covariance.nondiseased, nondiseased: covariance.diseased },
  };
}

/** Sensitivity + specificity - 1: 0 or less where the reference says nothing of the truth. */
export function informationOf({ sensitivity, specificity }: KnownAccuracy): number {
  return sensitivity + specificity - 1;
}

/**
 * What the kit gets right behind the errors of the reference. With independent errors the kit's
 * sensitivity hangs on the reference's specificity alone, and the other way round.
 *
 * @param shares of all people, adding up to 1
 * @returns `null` where the reference says nothing, or nobody or everybody would have the condition
 * Source: staquet1981, gart1966; covariances vacek1985
 */
export function correctionOf(shares: CrossedShares, errors: KnownErrors): Correction | null {
  const information = informationOf(errors.reference);
  if (!(information > 0)) return null;
  const referencePositive = shares.bothReactive + shares.referenceOnly;
  const referenceNegative = shares.kitOnly + shares.neither;
  const present = referencePositive - (1 - errors.reference.specificity);
  const absent = referenceNegative - (1 - errors.reference.sensitivity);
  if (!(present > 0) || !(absent > 0)) return null;
  return {
    prevalence: present / information,
    sensitivity: sensitivityBehind(shares, errors, present / information),
    specificity: sensitivityBehind(mirroredCounts(shares), mirroredErrors(errors), absent / information),
  };
}

function sensitivityBehind(
  { bothReactive, kitOnly }: CrossedShares,
  { reference, covariance }: KnownErrors,
  prevalence: number,
): number {
  const together = prevalence * covariance.diseased + (1 - prevalence) * covariance.nondiseased;
  const found = reference.specificity * bothReactive - (1 - reference.specificity) * kitOnly - together;
  return found / informationOf(reference) / prevalence;
}

/** The worst reference that the table allows, if its errors are independent of the kit's. */
export interface WorstReference {
  /** `null` where nobody was observed. */
  readonly sensitivity: number | null;
  readonly specificity: number | null;
}

/**
 * A reference below either gives some corrected cell a negative number of people.
 * Source: follows from the corrected cells being 0 or more.
 */
export function worstReference(counts: CrossedCounts): WorstReference {
  const { bothReactive, kitOnly, referenceOnly, neither } = counts;
  const largest = (...pairs: [number, number][]) => {
    const shares = pairs
      .filter(([part, rest]) => part + rest > 0)
      .map(([part, rest]) => part / (part + rest));
    return shares.length === 0 ? null : Math.max(...shares);
  };
  return {
    sensitivity: largest([bothReactive, kitOnly], [referenceOnly, neither]),
    specificity: largest([kitOnly, bothReactive], [neither, referenceOnly]),
  };
}
