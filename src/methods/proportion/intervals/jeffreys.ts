import { betaQuantile } from "../../../numeric/beta-quantile.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * Equal-tailed credible interval under the prior beta(1/2, 1/2); the lower limit is 0 when nothing
 * was counted and the upper limit 1 when everything was, the other limit keeping its own tail.
 * Source: brown2001, section 3.1.
 */
export const jeffreys: IntervalRule = {
  lower: (count, total, outside) =>
    count === 0 ? 0 : betaQuantile(outside, count + 0.5, total - count + 0.5, "lower"),
  upper: (count, total, outside) =>
    count === total ? 1 : betaQuantile(outside, count + 0.5, total - count + 0.5, "upper"),
};
