import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { UncertainShare } from "../algorithms/uncertain-fields.ts";
import { simulated } from "../predictive/simulated.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import type { CorrectedInput, CorrectedOptions, CorrectedValues } from "./corrected.ts";
import { type DrawnReference, drawnCorrections } from "./drawn-correction.ts";
import { type Correction, correctionOf, type KnownErrors, sharesOf } from "./known-errors.ts";
import type { CrossedCounts, ErrorCovariance } from "./known-errors-fields.ts";
import {
  allowedBy,
  type Limits,
  sensitivityError,
  sensitivityLimits,
  specificityError,
  specificityLimits,
} from "./known-errors-limits.ts";

/** The values that need at least one person. */
export type Corrected = Omit<CorrectedValues, "apparent" | "interval" | "admissible">;
type Chosen = CorrectedOptions & { readonly interval: CorrectedValues["interval"] };
type Parts = Corrected["corrected"] & { readonly prevalence: Estimate };

/** @param counts may be expected numbers: score limits take any */
export function apparentOf(counts: CrossedCounts, level: number): CorrectedValues["apparent"] {
  const { bothReactive, kitOnly, referenceOnly, neither } = counts;
  const share = (part: number, rest: number): Estimate => {
    const total = part + rest;
    if (!(total > 0)) return NOT_ESTIMABLE;
    if (total < 1) return { ...NOT_ESTIMABLE, value: part / total };
    return { ...proportionInterval(part, total, { method: "wilson", level }), value: part / total };
  };
  return {
    sensitivity: share(bothReactive, referenceOnly),
    specificity: share(neither, kitOnly),
    prevalence: share(bothReactive + referenceOnly, kitOnly + neither),
  };
}

/** The correction with the reference at its centre, and all its intervals. */
export function correctedAt(
  { counts, reference: stated }: CorrectedInput,
  reference: DrawnReference,
  covariance: ErrorCovariance,
  options: Chosen,
): Corrected {
  const centre = { sensitivity: reference.sensitivity.centre, specificity: reference.specificity.centre };
  const errors: KnownErrors = { reference: centre, covariance };
  const raw = correctionOf(sharesOf(counts), errors);
  const draws = drawn(counts, reference, covariance, options);
  const likelihood = {
    sensitivity: withLimits(raw?.sensitivity, sensitivityLimits(counts, errors, options.level)),
    specificity: withLimits(raw?.specificity, specificityLimits(counts, errors, options.level)),
  };
  const variance = {
    sensitivity: varianceOf(stated.sensitivity),
    specificity: varianceOf(stated.specificity),
  };
  const sensitivityWidth = sensitivityError(counts, errors, variance);
  const specificityWidth = specificityError(counts, errors, variance);
  const delta = {
    sensitivityError: sensitivityWidth,
    specificityError: specificityWidth,
    sensitivity: deltaEstimate(raw?.sensitivity, sensitivityWidth, options.level),
    specificity: deltaEstimate(raw?.specificity, specificityWidth, options.level),
  };
  const value = {
    sensitivity: insideOf(raw?.sensitivity, allowedBy(centre.sensitivity, covariance.diseased)),
    specificity: insideOf(raw?.specificity, allowedBy(centre.specificity, covariance.nondiseased)),
  };
  const limits = { likelihood, delta, simulated: draws, auto: likelihood }[options.interval];
  return {
    corrected: {
      sensitivity: { ...limits.sensitivity, value: value.sensitivity },
      specificity: { ...limits.specificity, value: value.specificity },
    },
    prevalence: { ...draws.prevalence, value: insideOf(raw?.prevalence) },
    formula: raw ?? { sensitivity: null, specificity: null, prevalence: null },
    likelihood,
    delta,
    simulated: draws,
    correlation: correlationOf(raw, errors),
  };
}

const ANY: Limits = { lower: 0, upper: 1 };

/** Within what is allowed, but for rounding. */
function insideOf(value: number | undefined, allowed: Limits | null = ANY): number | null {
  if (value === undefined || allowed === null || value < 0 || value > 1) return null;
  return value >= allowed.lower - ROUNDING && value <= allowed.upper + ROUNDING ? value : null;
}

const ROUNDING = 1e-9;

function withLimits(value: number | undefined, limits: Limits | null): Estimate {
  return limits === null ? NOT_ESTIMABLE : { value: insideOf(value), ...limits };
}

function deltaEstimate(value: number | undefined, error: number | null, level: number): Estimate {
  if (value === undefined || error === null) return NOT_ESTIMABLE;
  const reach = normalQuantile((1 - level) / 2, "upper") * error;
  if (value + reach < 0 || value - reach > 1) return NOT_ESTIMABLE;
  return { value: insideOf(value), lower: Math.max(0, value - reach), upper: Math.min(1, value + reach) };
}

function drawn(
  counts: CrossedCounts,
  reference: DrawnReference,
  covariance: ErrorCovariance,
  options: CorrectedOptions,
): Corrected["simulated"] {
  const found = drawnCorrections(counts, reference, covariance, options.draws, options.seed);
  const { undefinedDraws, cutDraws } = found;
  const summary = (draws: Float64Array): Estimate => {
    if (draws.length < 2) return NOT_ESTIMABLE;
    const { median, lower, upper } = simulated(draws, options.level);
    return { value: median.value, lower: lower.value, upper: upper.value };
  };
  const parts: Parts = {
    sensitivity: summary(found.sensitivity),
    specificity: summary(found.specificity),
    prevalence: summary(found.prevalence),
  };
  return { ...parts, undefinedDraws, cutDraws };
}

function varianceOf(share: UncertainShare): number {
  if (share.kind === "value") return 0;
  if (share.kind === "range") return Math.pow(share.high - share.low, 2) / 12;
  const [a, b] =
    share.kind === "beta" ? [share.a, share.b] : [share.right + 0.5, share.total - share.right + 0.5];
  return (a * b) / (Math.pow(a + b, 2) * (a + b + 1));
}

/** `null` where the kit or the reference does not vary, or the values leave 0..1. */
function correlationOf(
  raw: Correction | null,
  { reference, covariance }: KnownErrors,
): Corrected["correlation"] {
  const phi = (stated: number, kit: number, own: number) => {
    const spread = kit * (1 - kit) * own * (1 - own);
    return spread > 0 ? stated / Math.sqrt(spread) : null;
  };
  if (raw === null) return { diseased: null, nondiseased: null };
  return {
    diseased: phi(covariance.diseased, raw.sensitivity, reference.sensitivity),
    nondiseased: phi(covariance.nondiseased, raw.specificity, reference.specificity),
  };
}
