import type { Estimate } from "../core/estimate.ts";
import type { Pooled } from "./document.ts";
import type { MeasureName } from "./measures.ts";

type Models = Pick<Pooled, "bivariate" | "univariate">;

/** What the model that is to be preferred says of one measure. */
export interface Told {
  readonly by: "bivariate" | "univariate";
  readonly summary: Estimate;
  readonly prediction: Estimate;
  readonly logit: number | null;
  readonly error: number | null;
  readonly between: number | null;
  readonly groups: number;
}

/** Fewer groups tell hardly anything of a correlation (common practice, no source). */
const FEW = 5;

/**
 * Which of the two models is to be read: both measures together where the groups can tell how they hang
 * together, else each measure by itself; `null` where neither found a middle.
 */
export function preferredModel(models: Models, measure: MeasureName): Told["by"] | null {
  const { bivariate: pair, univariate: alone } = models;
  const hasPair = pair != null && pair.summary[measure].proportion.value !== null;
  const hasAlone = alone != null && alone[measure].binomial.proportion.value !== null;
  if (!hasPair) return hasAlone ? "univariate" : null;
  const correlation = pair.betweenStudies.correlation.value;
  const sound =
    pair.fit.converged &&
    (pair.studies ?? 0) >= FEW &&
    (correlation === null || Math.abs(correlation) < 1) &&
    pair.summary[measure].standardError !== null;
  return sound || !hasAlone ? "bivariate" : "univariate";
}

/** `null` where neither model found a middle. */
export function toldOf(models: Models, measure: MeasureName): Told | null {
  const by = preferredModel(models, measure);
  const { bivariate: pair, univariate: alone } = models;
  if (by === "bivariate" && pair !== null) {
    const at = pair.summary[measure];
    return {
      by,
      summary: at.proportion,
      prediction: pair.prediction[measure],
      logit: at.logit.value,
      error: at.standardError,
      between: pair.betweenStudies[measure].value,
      groups: pair.studies ?? 0,
    };
  }
  if (by === null || alone === null) return null;
  const { binomial, studies } = alone[measure];
  return {
    by: "univariate",
    summary: binomial.profile,
    prediction: { value: binomial.proportion.value, ...binomial.prediction },
    logit: binomial.logOdds.value,
    error: binomial.standardError,
    between: binomial.betweenSd.value,
    groups: studies,
  };
}
