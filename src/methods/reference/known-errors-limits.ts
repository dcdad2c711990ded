import { normalQuantile } from "../../numeric/normal.ts";
import { findRoot } from "../../numeric/root.ts";
import {
  type CrossedShares,
  correctionOf,
  informationOf,
  type KnownErrors,
  mirroredCounts,
  mirroredErrors,
  sharesOf,
  totalOf,
} from "./known-errors.ts";
import type { CrossedCounts } from "./known-errors-fields.ts";

export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Sensitivities of the kit that the table does not contradict: twice the loss of the log
 * likelihood is at most the quantile of chi-square with one degree of freedom. The reference's accuracy is
 * taken as known. A perfect reference gives the likelihood ratio interval of a plain proportion.
 *
 * @param counts at least one person
 * @returns within 0..1; `null` where the formula has no value, or nothing fits both the table and the covariance
 * Source: the constrained likelihood by its dual, owen1988
 */
export function sensitivityLimits(counts: CrossedCounts, errors: KnownErrors, level: number): Limits | null {
  const correction = correctionOf(sharesOf(counts), errors);
  if (correction === null) return null;
  const most = Math.pow(normalQuantile((1 - level) / 2, "upper"), 2);
  // At the estimate itself nothing is lost; rounding must not say otherwise in a lopsided table.
  const excess = (supposed: number) =>
    supposed === correction.sensitivity ? -most : likelihoodRatio(counts, errors, supposed) - most;
  const inside = Math.min(1, Math.max(0, correction.sensitivity));
  if (excess(inside) > 0) return null;
  const limits = {
    lower: excess(0) <= 0 ? 0 : findRoot(excess, 0, inside).root,
    upper: excess(1) <= 0 ? 1 : findRoot(excess, inside, 1).root,
  };
  const allowed = allowedBy(errors.reference.sensitivity, errors.covariance.diseased);
  const fits = allowed !== null && limits.lower <= allowed.upper && limits.upper >= allowed.lower;
  return fits ? limits : null;
}

/**
 * Sensitivities that a kit can have whose results have this covariance with the reference's among the
 * diseased; the same of specificities among the nondiseased. `null` where no kit can.
 * Source: frechet1951, solved for one share
 */
export function allowedBy(reference: number, covariance: number): Limits | null {
  const size = Math.abs(covariance);
  if (size === 0) return { lower: 0, upper: 1 };
  const [near, far] = covariance > 0 ? [1 - reference, reference] : [reference, 1 - reference];
  if (!(near > 0) || !(far > 0)) return null;
  const [lower, upper] = [size / near, 1 - size / far];
  return lower > upper ? null : { lower, upper };
}

/** The same of the specificity. */
export function specificityLimits(counts: CrossedCounts, errors: KnownErrors, level: number): Limits | null {
  return sensitivityLimits(mirroredCounts(counts), mirroredErrors(errors), level);
}

/** Twice the loss of the log likelihood at a supposed sensitivity; a large number where it can't be. */
export function likelihoodRatio(counts: CrossedCounts, errors: KnownErrors, supposed: number): number {
  const weights = balanceOf(errors, supposed);
  const pairs: [number, number][] = [
    [counts.bothReactive, weights.bothReactive],
    [counts.kitOnly, weights.kitOnly],
    [counts.referenceOnly, weights.referenceOnly],
    [counts.neither, weights.neither],
  ];
  const balance = pairs.reduce((sum, [people, weight]) => sum + people * weight, 0);
  if (balance === 0) return 0;
  const heaviest = Math.max(...pairs.map(([, weight]) => weight));
  const lightest = Math.min(...pairs.map(([, weight]) => weight));
  // The multiplier may grow until a cell's divisor 1 + multiplier x weight is 0.
  const end = balance > 0 ? -1 / lightest : -1 / heaviest;
  if ((balance > 0 && lightest >= 0) || (balance < 0 && heaviest <= 0)) return IMPOSSIBLE;
  const slope = (multiplier: number) =>
    pairs.reduce(
      (sum, [people, weight]) => sum + (people > 0 ? (people * weight) / (1 + multiplier * weight) : 0),
      0,
    );
  const multiplier = turningPoint(slope, balance, end);
  return 2 * pairs.reduce((sum, [people, weight]) => sum + logPart(people, multiplier * weight), 0);
}

/** More than any table can lose. */
const IMPOSSIBLE = 1e15;

function logPart(people: number, shift: number): number {
  return people > 0 ? people * Math.log1p(shift) : 0;
}

/**
 * Where the slope changes its sign on the way from 0 to the end, or the end if it does not: then the
 * cell that ends it is empty in the table and gets people under the supposed sensitivity.
 */
function turningPoint(slope: (multiplier: number) => number, balance: number, end: number): number {
  const close = end * (1 - 1e-12);
  const last = slope(close);
  if (!Number.isFinite(last) || last > 0 === balance > 0) return close;
  return findRoot(slope, 0, close).root;
}

/** Weights of the four cells whose mean over all people is 0 if the kit has the supposed sensitivity. */
function balanceOf({ reference, covariance }: KnownErrors, supposed: number): CrossedShares {
  const shift = (covariance.diseased - covariance.nondiseased) / informationOf(reference);
  const raised = supposed + shift;
  const base = raised * (1 - reference.specificity) - covariance.nondiseased;
  return {
    bothReactive: reference.specificity - raised + base,
    kitOnly: reference.specificity - 1 + base,
    referenceOnly: base - raised,
    neither: base,
  };
}

/** Uncertainty of the reference, as variances. */
export interface ReferenceVariance {
  readonly sensitivity: number;
  readonly specificity: number;
}

/**
 * Standard error of the corrected sensitivity by the delta method: the table is multinomial, the reference's
 * accuracies vary independently of it.
 * Source: derivatives of the closed form (staquet1981), worked out for this project
 */
export function sensitivityError(
  counts: CrossedCounts,
  errors: KnownErrors,
  variance: ReferenceVariance,
): number | null {
  const shares = sharesOf(counts);
  const correction = correctionOf(shares, errors);
  if (correction === null) return null;
  const { prevalence, sensitivity } = correction;
  const information = informationOf(errors.reference);
  const weights = balanceOf(errors, sensitivity);
  const cells = ["bothReactive", "kitOnly", "referenceOnly", "neither"] as const;
  const squares = cells.reduce((sum, cell) => sum + shares[cell] * Math.pow(weights[cell], 2), 0);
  const scale = information * prevalence;
  const { diseased, nondiseased } = errors.covariance;
  const { bothReactive, kitOnly } = shares;
  const bySensitivity = (diseased - nondiseased) / (information * information);
  const bySpecificity =
    (bothReactive +
      kitOnly -
      sensitivity +
      (diseased - nondiseased) * (prevalence / information - 1 / information)) /
    scale;
  return Math.sqrt(
    squares / (totalOf(counts) * (scale * scale)) +
      bySensitivity * bySensitivity * variance.sensitivity +
      bySpecificity * bySpecificity * variance.specificity,
  );
}

/** The same of the specificity. */
export function specificityError(
  counts: CrossedCounts,
  errors: KnownErrors,
  { sensitivity, specificity }: ReferenceVariance,
): number | null {
  const mirrored = { sensitivity: specificity, specificity: sensitivity };
  return sensitivityError(mirroredCounts(counts), mirroredErrors(errors), mirrored);
}
