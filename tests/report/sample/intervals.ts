import betaincinv from "@stdlib/math-base-special-betaincinv";
import type { Accuracy } from "../../../src/evaluation/document.ts";

/**
 * Intervals for the sample evaluation, computed by general-purpose libraries and textbook formulas,
 * so that the sample's numbers agree with one another without the project's own methods.
 */
type Proportion = Accuracy["sensitivity"];
type Estimate = Accuracy["youden"];

const NORMAL_975 = 1.959963984540054;

/** Clopper–Pearson limits as beta quantiles (common textbook form). */
export function exact(count: number, total: number): Proportion {
  if (total === 0) return { count, total, value: null, lower: null, upper: null };
  const lower = count === 0 ? 0 : betaincinv(0.025, count, total - count + 1);
  const upper = count === total ? 1 : betaincinv(0.975, count + 1, total - count);
  return { count, total, value: count / total, lower, upper };
}

/** Wilson score limits (closed form). */
export function wilson(count: number, total: number): Proportion {
  if (total === 0) return { count, total, value: null, lower: null, upper: null };
  const share = count / total;
  const squared = NORMAL_975 ** 2 / total;
  const middle = (share + squared / 2) / (1 + squared);
  const half =
    (NORMAL_975 * Math.sqrt((share * (1 - share)) / total + squared / (4 * total))) / (1 + squared);
  return {
    count,
    total,
    value: share,
    lower: Math.max(0, middle - half),
    upper: Math.min(1, middle + half),
  };
}

/** A ratio with its interval on the log scale; an open side is `null`. */
export function logRatio(value: number | null, variance: number): Estimate {
  if (value === null || value === 0) return { value, lower: null, upper: null };
  const factor = Math.exp(NORMAL_975 * Math.sqrt(variance));
  return { value, lower: value / factor, upper: value * factor };
}

/** Predictive values at one prevalence, with limits on the logit scale (delta method). */
export function predictive(
  sensitivity: Proportion,
  specificity: Proportion,
  prevalence: number,
): { ppv: Estimate; npv: Estimate } {
  const [se, sp] = [sensitivity.value ?? 0, specificity.value ?? 0];
  const varianceSe = (se * (1 - se)) / sensitivity.total;
  const varianceSp = (sp * (1 - sp)) / specificity.total;
  const ppv = (prevalence * se) / (prevalence * se + (1 - prevalence) * (1 - sp));
  const npv = ((1 - prevalence) * sp) / ((1 - prevalence) * sp + prevalence * (1 - se));
  return {
    ppv: onLogit(ppv, varianceSe / se ** 2 + varianceSp / (1 - sp) ** 2),
    npv: onLogit(npv, varianceSe / (1 - se) ** 2 + varianceSp / sp ** 2),
  };
}

function onLogit(value: number, variance: number): Estimate {
  const logit = Math.log(value / (1 - value));
  const half = NORMAL_975 * Math.sqrt(variance);
  const back = (x: number) => 1 / (1 + Math.exp(-x));
  return { value, lower: back(logit - half), upper: back(logit + half) };
}
