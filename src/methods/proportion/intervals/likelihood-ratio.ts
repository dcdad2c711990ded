import { normalQuantile } from "../../../numeric/normal.ts";
import { findRoot } from "../../../numeric/root.ts";
import type { IntervalRule } from "./limits.ts";

/**
 * The proportions whose likelihood is not too far below the highest: twice the log of the
 * likelihood ratio stays within z². Does not depend on the scale used; covers too little for
 * proportions very near 0 or 1.
 * Source: newcombe1998, method 10.
 */
export const likelihoodRatio: IntervalRule = {
  lower(count, total, outside) {
    if (count === 0) return 0;
    const z = normalQuantile(outside, "upper");
    if (count === total) return Math.exp(-(z * z) / (2 * total));
    const logOdds = solve(count, total, z * z, outermostLogOdds(count, total, z * z));
    return Math.exp(logShare(logOdds));
  },
  upper(count, total, outside) {
    if (count === total) return 1;
    const z = normalQuantile(outside, "upper");
    if (count === 0) return -Math.expm1(-(z * z) / (2 * total));
    const logOdds = solve(count, total, z * z, -outermostLogOdds(total - count, total, z * z));
    return Math.exp(logShare(logOdds));
  },
};

/** Log-odds at which the criterion is reached, between the estimate's and one certainly outside. */
function solve(count: number, total: number, allowed: number, outermost: number): number {
  const rest = total - count;
  const logCount = Math.log(count / total);
  const logRest = Math.log(rest / total);
  const excess = (logOdds: number) =>
    2 * (count * (logCount - logShare(logOdds)) + rest * (logRest - logShare(-logOdds))) - allowed;
  const estimate = Math.log(count / rest);
  return findRoot(excess, Math.min(estimate, outermost), Math.max(estimate, outermost)).root;
}

/**
 * Log-odds of estimate * exp(-allowed / (2 count) - 1): the failures can lower the criterion by at
 * most 2 count, because rest * log(1 - estimate) >= -count, so the criterion exceeds `allowed` there.
 */
function outermostLogOdds(count: number, total: number, allowed: number): number {
  const logOutermost = Math.log(count / total) - allowed / (2 * count) - 1;
  return logOutermost - Math.log1p(-Math.exp(logOutermost));
}

/** Log of the proportion that has these log-odds. */
function logShare(logOdds: number): number {
  return logOdds > 0 ? -Math.log1p(Math.exp(-logOdds)) : logOdds - Math.log1p(Math.exp(logOdds));
}
