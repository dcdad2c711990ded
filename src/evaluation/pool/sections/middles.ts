import type { PoolMeasure } from "../../../records/pool/pool-schema.ts";
import type { PoolAnswer, Pooling } from "../document.ts";
import type { LogitMiddle } from "../new-place.ts";

type Fits = Pick<Pooling, "bivariate" | "univariate">;

/** The model that gives the figures: the bivariate one where it has a fit. */
export function basisOf({ bivariate, univariate }: Fits): PoolAnswer["basis"] {
  if (bivariate.values.summary.sensitivity.logit.value !== null) return "bivariate";
  const alone = [univariate.sensitivity, univariate.specificity];
  return alone.some(({ values }) => values.binomial.logOdds.value !== null) ? "univariate" : null;
}

/** The middle of the studies on the logit scale; `null` where the model has none of this measure. */
export function middleOf(fits: Fits, basis: PoolAnswer["basis"], measure: PoolMeasure): LogitMiddle | null {
  if (basis === null) return null;
  const { summary, betweenStudies, studies } = fits.bivariate.values;
  const { binomial, studies: counted } = fits.univariate[measure].values;
  const [logit, standardError, betweenSd, people] =
    basis === "bivariate"
      ? [
          summary[measure].logit.value,
          summary[measure].standardError,
          betweenStudies[measure].value,
          studies ?? 0,
        ]
      : [binomial.logOdds.value, binomial.standardError, binomial.betweenSd.value, counted];
  if (logit === null || standardError === null || betweenSd === null) return null;
  return { logit, standardError, betweenSd, degreesOfFreedom: people - 2 };
}
