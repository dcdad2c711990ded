import type { Estimate } from "../../core/estimate.ts";
import { tCdf, tQuantile } from "../../numeric/student-t.ts";

/** A middle on the logit scale, how surely it is known, and how far true values scatter around it. */
export interface LogitMiddle {
  readonly logit: number;
  readonly standardError: number;
  readonly betweenSd: number;
  readonly degreesOfFreedom: number;
}

const proportionOf = (logit: number) => 1 / (1 + Math.exp(-logit));

/** The scatter of a new true value around the middle. */
const scatterOf = ({ standardError, betweenSd }: LogitMiddle) => Math.hypot(standardError, betweenSd);

/**
 * Where the true value of a place not studied may lie, with the middle. Limits `null` without a degree of freedom.
 * Source: higgins2009, as in `pooling.bivariate`
 */
export function predictionAt(middle: LogitMiddle, level: number): Estimate {
  const { logit, degreesOfFreedom } = middle;
  const value = proportionOf(logit);
  if (degreesOfFreedom < 1) return { value, lower: null, upper: null };
  const reach = tQuantile((1 + level) / 2, degreesOfFreedom) * scatterOf(middle);
  return { value, lower: proportionOf(logit - reach), upper: proportionOf(logit + reach) };
}

/** The probability that the true value of a place not studied is at least so much; `null` where nothing bounds it. */
export function chanceAtLeast(middle: LogitMiddle, atLeast: number): number | null {
  const { logit, degreesOfFreedom } = middle;
  const scatter = scatterOf(middle);
  if (degreesOfFreedom < 1 || scatter === 0) return null;
  const needed = Math.log(atLeast / (1 - atLeast));
  return tCdf((needed - logit) / scatter, degreesOfFreedom, "upper");
}
