import { betaQuantile } from "../../../numeric/beta-quantile.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * The exact interval: each limit is the proportion at which a result as extreme as the one seen has
 * just the probability left outside. Never covers less than it says; often covers more.
 * Source: clopper1934, in the form of beta quantiles.
 */
export const clopperPearson: IntervalRule = {
  lower: (count, total, outside) =>
    count === 0 ? 0 : betaQuantile(outside, count, total - count + 1, "lower"),
  upper: (count, total, outside) =>
    count === total ? 1 : betaQuantile(outside, count + 1, total - count, "upper"),
};
