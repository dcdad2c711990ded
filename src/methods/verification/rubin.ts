import { normalQuantile } from "../../numeric/normal.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import type { Part } from "./extreme-cases.ts";

/** Several completed tables, put together. */
export interface Combined {
  readonly value: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly within: number;
  readonly between: number;
  readonly total: number;
  /** Share of the total variance that is due to what is missing. */
  readonly missingShare: number;
  /** `null` where the tables don't differ: as good as infinitely many. */
  readonly degrees: number | null;
}

/** Beyond so many degrees of freedom t is normal to all digits that matter. */
const AS_GOOD_AS_NORMAL = 1e9;

/**
 * Rubin's rules for one estimate and its variance from each completed table. At least 2 of them. Taken from the
 * first, so that tables that agree have no spread at all.
 */
export function rubin(estimates: readonly number[], variances: readonly number[]) {
  const number = estimates.length;
  const first = estimates[0] as number;
  const mean = first + estimates.reduce((sum, estimate) => sum + (estimate - first), 0) / number;
  const within = variances.reduce((sum, variance) => sum + variance, 0) / number;
  const between = estimates.reduce((sum, estimate) => sum + Math.pow(estimate - mean, 2), 0) / (number - 1);
  const added = (1 + 1 / number) * between;
  const total = within + added;
  const missingShare = total === 0 ? 0 : added / total;
  const degrees = added === 0 ? null : (number - 1) / (missingShare * missingShare);
  return { mean, within, between, total, missingShare, degrees };
}

/**
 * Limits on the scale of proportions, by the score interval. `null` where a completed table has nobody to
 * count; 0 to 1 where the tables say now 0, now 1.
 */
export function combinedScore(parts: readonly Part[], level: number): Combined | null {
  if (parts.some(({ total }) => total === 0)) return null;
  const shares = parts.map(({ count, total }) => count / total);
  const variances = parts.map(({ total }, at) => variance(shares[at] as number, total));
  const { mean, within, between, total, missingShare, degrees } = rubin(shares, variances);
  const people = parts.reduce((sum, part) => sum + part.total, 0) / parts.length;
  const kept = { value: mean, within, between, total, missingShare, degrees };
  if (within === 0 && between > 0) return { ...kept, lower: 0, upper: 1 };
  const grown = within === 0 ? 1 : total / within;
  const scaled = (Math.pow(quantile(level, degrees), 2) * grown) / people;
  const centre = (mean + scaled / 2) / (1 + scaled);
  const reach = Math.sqrt(scaled * (mean * (1 - mean) + scaled / 4)) / (1 + scaled);
  return { ...kept, lower: Math.max(0, centre - reach), upper: Math.min(1, centre + reach) };
}

/** Limits symmetric in log odds; `null` where a completed table has nobody on one side. */
export function combinedLogit(parts: readonly Part[], level: number): Combined | null {
  if (parts.some(({ count, total }) => count === 0 || count === total)) return null;
  const logits = parts.map(({ count, total }) => Math.log(count / (total - count)));
  const variances = parts.map(({ count, total }) => 1 / count + 1 / (total - count));
  const { mean, within, between, total, missingShare, degrees } = rubin(logits, variances);
  const reach = quantile(level, degrees) * Math.sqrt(total);
  const limits = { lower: share(mean - reach), upper: share(mean + reach) };
  return { value: share(mean), ...limits, within, between, total, missingShare, degrees };
}

function share(logit: number): number {
  return 1 / (1 + Math.exp(-logit));
}

function variance(share: number, total: number): number {
  return (share * (1 - share)) / total;
}

function quantile(level: number, degrees: number | null): number {
  const tail = (1 + level) / 2;
  if (degrees === null || degrees > AS_GOOD_AS_NORMAL) return normalQuantile(tail);
  return tQuantile(tail, degrees);
}
