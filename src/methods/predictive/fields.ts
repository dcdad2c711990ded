import * as v from "valibot";
import { choice, count } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";

/** What a study says about sensitivity and specificity: so many right of so many. */
export const studyCounts = {
  truePositives: count("reactive among the reference-positive people of the study"),
  positives: count("reference-positive people of the study"),
  trueNegatives: count("non-reactive among the reference-negative people of the study"),
  negatives: count("reference-negative people of the study"),
};

export interface StudyCounts {
  readonly truePositives: number;
  readonly positives: number;
  readonly trueNegatives: number;
  readonly negatives: number;
}

/** @throws InputError where a part is larger than its whole */
export function requireParts({ truePositives, positives, trueNegatives, negatives }: StudyCounts): void {
  if (truePositives > positives) {
    throw new InputError(["input", "truePositives"], `at most positives, ${positives}`, truePositives);
  }
  if (trueNegatives > negatives) {
    throw new InputError(["input", "trueNegatives"], `at most negatives, ${negatives}`, trueNegatives);
  }
}

export const PREDICTIVE_METHODS = ["logit", "adjusted_logit", "standard"] as const;
export type PredictiveMethod = (typeof PREDICTIVE_METHODS)[number];

export function predictiveMethod() {
  return v.optional(choice(PREDICTIVE_METHODS, "kind of interval of a predictive value"), "logit");
}
