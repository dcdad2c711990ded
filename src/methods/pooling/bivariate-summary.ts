import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { BivariateOptions, BivariateValues } from "./bivariate-fields.ts";
import type { BivariateModel, Fit } from "./bivariate-model.ts";
import { meanLimits } from "./bivariate-profile.ts";
import type { Scatter } from "./bivariate-regions.ts";
import { asProportion } from "./logit.ts";

export type Summary = BivariateValues["summary"]["sensitivity"];

export const NO_SUMMARY: Summary = {
  proportion: { value: null, lower: null, upper: null },
  logit: { value: null, lower: null, upper: null },
  standardError: null,
};

/**
 * The mean at one place of the fit as an estimate.
 *
 * @param covariance of all means and loadings, row by row; `null`: no Wald limits
 */
export function summaryAt(
  model: BivariateModel,
  fit: Fit,
  place: number,
  covariance: Float64Array | null,
  { level, interval }: Pick<BivariateOptions, "level" | "interval">,
): Summary {
  const value = fit.means[place] as number;
  const size = model.means + 3;
  const standardError = covariance === null ? null : Math.sqrt(covariance[place * (size + 1)] as number);
  const logit =
    interval === "profile"
      ? meanLimits(model, fit, place, standardError ?? 0.5, level)
      : waldLimits(value, standardError, level);
  const share = asProportion(logit);
  const proportion =
    interval === "profile" ? { ...share, lower: share.lower ?? 0, upper: share.upper ?? 1 } : share;
  return { proportion, logit, standardError };
}

/** Notes on logits that have no limit: the proportion's limit is then 0 or 1. */
export function summaryNotes({ logit, standardError }: Summary, path: string): Note[] {
  const message =
    "the likelihood stays high however far out: the logit has no limit here, the proportion 0 or 1";
  const open = (["lower", "upper"] as const).filter((side) => logit[side] === null);
  if (standardError === null) return [];
  return open.map((side) => note("unbounded", `${path}.logit.${side}`, message));
}

function waldLimits(value: number, standardError: number | null, level: number): Estimate {
  if (standardError === null) return { value, lower: null, upper: null };
  const by = normalQuantile((1 + level) / 2) * standardError;
  return { value, lower: value - by, upper: value + by };
}

/** Variances and covariance of the means at two places. */
export function scatterAt(
  model: BivariateModel,
  covariance: Float64Array | null,
  first: number,
  second: number,
): Scatter | null {
  if (covariance === null) return null;
  const size = model.means + 3;
  return {
    first: covariance[first * (size + 1)] as number,
    second: covariance[second * (size + 1)] as number,
    both: covariance[first * size + second] as number,
  };
}
