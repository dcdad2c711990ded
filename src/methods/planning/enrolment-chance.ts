import { type Chance, chanceAt, type EnrolmentQuestion, type Kind } from "./chance-at-prevalence.ts";
import { averagedOverBeta } from "./enrolment-average.ts";

/** All three chances. */
export function chanceOf(question: EnrolmentQuestion, total: number): Chance {
  return {
    positives: chanceFor("positives", question, total),
    negatives: chanceFor("negatives", question, total),
    both: chanceFor("both", question, total),
  };
}

/**
 * One of the chances. Of a range, positives are judged at its low end, negatives at its high end, and both at the
 * worse of the two ends: as a function of the prevalence that chance first rises, then falls.
 */
export function chanceFor(kind: Kind, question: EnrolmentQuestion, total: number): number {
  const { prevalence } = question;
  if (prevalence.kind === "beta") return averagedOverBeta(kind, question, prevalence.shape, total);
  const at = (present: number) => chanceAt(kind, question, total, { present, absent: 1 - present });
  if (kind === "positives") return at(prevalence.low);
  if (kind === "negatives") return at(prevalence.high);
  return prevalence.low === prevalence.high
    ? at(prevalence.low)
    : Math.min(at(prevalence.low), at(prevalence.high));
}
