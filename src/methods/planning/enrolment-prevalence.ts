import { InputError } from "../../core/input-error.ts";
import { betaQuantile } from "../../numeric/beta-quantile.ts";
import type { BetaShape } from "../decision/beta-binomial.ts";
import type { EnrolmentInput } from "./enrolment-input.ts";

/** What is known of the prevalence: the values at which the worst is looked for, or a beta distribution. */
export type PrevalenceShape =
  | { readonly kind: "ends"; readonly low: number; readonly high: number }
  | { readonly kind: "beta"; readonly shape: BetaShape };

/** Counts of an earlier survey give a beta distribution with Jeffreys prior. */
export function shapeOf(prevalence: EnrolmentInput["prevalence"]): PrevalenceShape {
  switch (prevalence.kind) {
    case "fixed":
      return { kind: "ends", low: prevalence.value, high: prevalence.value };
    case "beta":
      return { kind: "beta", shape: { a: prevalence.a, b: prevalence.b } };
    case "counts": {
      const { positive, total } = prevalence;
      if (total < 1) throw new InputError(["input", "prevalence", "total"], "1 or more", total);
      if (positive > total) {
        throw new InputError(["input", "prevalence", "positive"], `at most the total, ${total}`, positive);
      }
      return { kind: "beta", shape: { a: positive + 0.5, b: total - positive + 0.5 } };
    }
    case "range": {
      const { low, high } = prevalence;
      if (low > high)
        throw new InputError(["input", "prevalence", "high"], `at least the low end, ${low}`, high);
      return { kind: "ends", low, high };
    }
  }
}

/** Mean and central 95 % of a beta distribution; middle and ends of a range. */
export function describePrevalence(prevalence: PrevalenceShape) {
  if (prevalence.kind === "ends") {
    const { low, high } = prevalence;
    return { mean: low === high ? low : (low + high) / 2, lower: low, upper: high };
  }
  const { a, b } = prevalence.shape;
  return { mean: a / (a + b), lower: betaQuantile(0.025, a, b), upper: betaQuantile(0.025, a, b, "upper") };
}
