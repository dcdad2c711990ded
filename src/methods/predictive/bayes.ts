/** Predictive values by Bayes' rule; `null` where nobody would have that result. */
export interface PredictiveValues {
  readonly ppv: number | null;
  readonly npv: number | null;
}

/**
 * Predictive values of a test at a prevalence, sensitivity and specificity being known.
 * All arguments are proportions in 0..1.
 */
export function predictiveValues(
  sensitivity: number,
  specificity: number,
  prevalence: number,
): PredictiveValues {
  const truePositive = prevalence * sensitivity;
  const falsePositive = (1 - prevalence) * (1 - specificity);
  const trueNegative = (1 - prevalence) * specificity;
  const falseNegative = prevalence * (1 - sensitivity);
  const reactive = truePositive + falsePositive;
  const nonreactive = trueNegative + falseNegative;
  return {
    ppv: reactive > 0 ? truePositive / reactive : null,
    npv: nonreactive > 0 ? trueNegative / nonreactive : null,
  };
}
