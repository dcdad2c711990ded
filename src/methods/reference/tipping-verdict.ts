import { type Verdict, verdictOf } from "../proportion/criterion.ts";
import {
  correctionOf,
  type KnownErrors,
  mirroredCounts,
  mirroredErrors,
  sharesOf,
  totalOf,
} from "./known-errors.ts";
import type { CrossedCounts } from "./known-errors-fields.ts";
import { allowedBy, sensitivityLimits } from "./known-errors-limits.ts";
import type { TippingInput, TippingOptions } from "./tipping.ts";

/** A corrected accuracy and what it means for the criterion. */
export interface Judged {
  /** `null` where the formula leaves what is possible, or has no value. */
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly verdict: Verdict;
  /** Whether no corrected number of people is negative. */
  readonly fits: boolean;
}

type Asked = Pick<TippingInput, "counts" | "criterion">;

const NOTHING: Judged = { value: null, lower: null, upper: null, verdict: "not_estimable", fits: false };

/** The verdict under one supposed reference. */
export function judgedAt({ counts, criterion }: Asked, errors: KnownErrors, options: TippingOptions): Judged {
  if (totalOf(counts) === 0) return NOTHING;
  const turned = criterion.measure === "specificity";
  const people = turned ? mirroredCounts(counts) : counts;
  const supposed = turned ? mirroredErrors(errors) : errors;
  const correction = correctionOf(sharesOf(people), supposed);
  if (correction === null) return NOTHING;
  const value = isPossible(correction.sensitivity, supposed) ? correction.sensitivity : null;
  const fits = value !== null && isPossible(correction.specificity, mirroredErrors(supposed));
  const limits = limitsOf(people, supposed, options);
  const deciding = options.rule === "point" ? { lower: value, upper: value } : limits;
  return { value, ...limits, verdict: verdictOf(deciding, criterion.threshold, criterion.direction), fits };
}

function limitsOf(people: CrossedCounts, errors: KnownErrors, { level, sides }: TippingOptions) {
  const twoSided = sides === "one" ? 2 * level - 1 : level;
  return sensitivityLimits(people, errors, twoSided) ?? { lower: null, upper: null };
}

const ROUNDING = 1e-9;

function isPossible(sensitivity: number, { reference, covariance }: KnownErrors): boolean {
  const allowed = allowedBy(reference.sensitivity, covariance.diseased);
  if (allowed === null) return false;
  return sensitivity >= allowed.lower - ROUNDING && sensitivity <= allowed.upper + ROUNDING;
}
