import type { Estimate } from "../../core/estimate.ts";
import type { BivariateValues } from "./bivariate-fields.ts";
import { type Loadings, type Spread, spreadOf } from "./loadings.ts";

export interface HierarchicalParameters {
  readonly shape: number;
  readonly accuracy: number;
  readonly threshold: number;
  readonly accuracyVariance: number;
  readonly thresholdVariance: number;
}

/**
 * The bivariate model written as a summary curve: shape, accuracy and threshold, which move along and across it.
 * `null` where sensitivity or specificity does not vary between studies: there is then no curve.
 *
 * @param first, second means of logit sensitivity and logit specificity
 * Source: harbord2007
 */
export function hierarchicalParameters(
  first: number,
  second: number,
  spread: Spread,
): HierarchicalParameters | null {
  const { first: one, second: two, correlation } = spread;
  if (one === 0 || two === 0 || correlation === null) return null;
  const stretch = Math.sqrt(two / one);
  return {
    shape: Math.log(two / one),
    accuracy: stretch * first + second / stretch,
    threshold: (stretch * first - second / stretch) / 2,
    accuracyVariance: 2 * one * two * (1 + correlation),
    thresholdVariance: (one * two * (1 - correlation)) / 2,
  };
}

export const NO_CURVE: BivariateValues["hierarchical"] = {
  shape: { value: null, lower: null, upper: null },
  accuracy: { value: null, lower: null, upper: null },
  threshold: { value: null, lower: null, upper: null },
  accuracyVariance: null,
  thresholdVariance: null,
};

/**
 * The same with limits by the delta method.
 *
 * @param covariance of (first mean, second mean, a, b, c), row by row; `null`: no limits
 * @param reach      normal quantile of the level
 */
export function hierarchicalEstimates(
  first: number,
  second: number,
  loadings: Loadings,
  covariance: Float64Array | null,
  reach: number,
): BivariateValues["hierarchical"] {
  const found = hierarchicalParameters(first, second, spreadOf(loadings));
  if (found === null) return NO_CURVE;
  const { shape, accuracy, threshold, accuracyVariance, thresholdVariance } = found;
  const { a, b, c } = loadings;
  const variance = b * b + c * c;
  const bend = [-1 / a, b / variance, c / variance];
  const stretch = Math.exp(shape / 2);
  const around = (value: number, slope: readonly number[]): Estimate => {
    if (covariance === null) return { value, lower: null, upper: null };
    const by = reach * Math.sqrt(Math.max(0, quadratic(covariance, slope)));
    return { value, lower: value - by, upper: value + by };
  };
  return {
    shape: around(shape, [0, 0, ...bend]),
    accuracy: around(accuracy, [stretch, 1 / stretch, ...bend.map((part) => part * threshold)]),
    threshold: around(threshold, [
      stretch / 2,
      -1 / (2 * stretch),
      ...bend.map((part) => (part * accuracy) / 4),
    ]),
    accuracyVariance,
    thresholdVariance,
  };
}

/** xᵀ M x. */
export function quadratic(matrix: Float64Array, x: readonly number[]): number {
  return x.reduce(
    (sum, one, row) =>
      sum +
      x.reduce((inner, two, column) => inner + one * two * (matrix[row * x.length + column] as number), 0),
    0,
  );
}
