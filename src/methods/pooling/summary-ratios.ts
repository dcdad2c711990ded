import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import type { BivariateValues } from "./bivariate-fields.ts";
import type { LogitPoint, Scatter } from "./bivariate-regions.ts";
import { expit } from "./logit.ts";

/** The number with this logarithm, or `null` where it is too large for any number. */
function finite(log: number): number | null {
  const value = Math.exp(log);
  return Number.isFinite(value) ? value : null;
}

/** Notes on ratios too large to be told. */
export function ratioNotes(ratios: BivariateValues["ratios"]): Note[] {
  return (["positive", "negative", "diagnosticOdds"] as const).flatMap((ratio) =>
    (["value", "lower", "upper"] as const)
      .filter((part) => ratios[ratio][part] === null)
      .map((part) => note("unbounded", `ratios.${ratio}.${part}`, "too large to be told as a number")),
  );
}

/** Likelihood ratios and diagnostic odds ratio at a summary point, limits by the delta method on the log scale. */
export function summaryRatios(
  { first, second }: LogitPoint,
  scatter: Scatter | null,
  reach: number,
): BivariateValues["ratios"] {
  const sensitivity = expit(first);
  const specificity = expit(second);
  const around = (log: number, one: number, two: number): Estimate => {
    if (scatter === null) return { value: finite(log), lower: null, upper: null };
    const variance = one * one * scatter.first + two * two * scatter.second + 2 * one * two * scatter.both;
    const by = reach * Math.sqrt(Math.max(0, variance));
    return { value: finite(log), lower: finite(log - by), upper: finite(log + by) };
  };
  return {
    positive: around(Math.log(sensitivity) - Math.log(expit(-second)), 1 - sensitivity, specificity),
    negative: around(Math.log(expit(-first)) - Math.log(specificity), -sensitivity, specificity - 1),
    diagnosticOdds: around(first + second, 1, 1),
  };
}
