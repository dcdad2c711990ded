import type { Estimate } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";

/** Sensitivity or specificity: its value, and how many people it comes from; `null` where it is known. */
export interface Accuracy {
  readonly value: number;
  readonly people: number | null;
}

/** A survey with an imperfect test. */
export interface Survey {
  readonly count: number;
  readonly total: number;
  readonly sensitivity: Accuracy;
  readonly specificity: Accuracy;
}

/** The true prevalence behind an apparent one; may leave 0..1. Source: rogan1978 */
export function roganGladen(apparent: number, sensitivity: number, specificity: number): number {
  return (apparent + (specificity - 1)) / (sensitivity + (specificity - 1));
}

/** Standard error of the true prevalence; the uncertainty of known accuracies is 0. Source: rogan1978 */
export function deltaError({ count, total, sensitivity, specificity }: Survey): number {
  const apparent = count / total;
  const truth = roganGladen(apparent, sensitivity.value, specificity.value);
  return Math.sqrt(
    varianceOf(
      spread(apparent, total),
      truth,
      spreadOf(sensitivity),
      spreadOf(specificity),
      sensitivity.value + specificity.value - 1,
    ),
  );
}

/** What the interval of Lang and Reiczigel is made of. */
export interface Adjusted {
  readonly centre: number;
  readonly shift: number;
  readonly interval: Estimate;
}

/**
 * The interval of Lang and Reiczigel: every proportion is drawn a little towards 1/2 (the apparent
 * prevalence by z² people, each estimated accuracy by two), and the whole interval is shifted. Not cut
 * to 0..1. A known accuracy is one from endlessly many people. `null` where the accuracies so drawn
 * say nothing (their sum is 1 or less).
 * Source: lang2014, the formula being recalled
 */
export function langReiczigel(survey: Survey, level: number): Adjusted | null {
  const z = normalQuantile((1 - level) / 2, "upper");
  const square = z * z;
  const people = survey.total + square;
  const apparent = (survey.count + square / 2) / people;
  const sensitivity = drawnIn(survey.sensitivity);
  const specificity = drawnIn(survey.specificity);
  const youden = sensitivity.value + specificity.value - 1;
  if (!(youden > 0)) return null;
  const centre = roganGladen(apparent, sensitivity.value, specificity.value);
  const bySensitivity = spreadOf(sensitivity);
  const bySpecificity = spreadOf(specificity);
  const shift = 2 * square * (centre * bySensitivity - (1 - centre) * bySpecificity);
  const variance = varianceOf(spread(apparent, people), centre, bySensitivity, bySpecificity, youden);
  const reach = z * Math.sqrt(variance);
  const middle = centre + shift;
  return { centre, shift, interval: { value: centre, lower: middle - reach, upper: middle + reach } };
}

function drawnIn({ value, people }: Accuracy): Accuracy {
  return people === null
    ? { value, people }
    : { value: (people * value + 1) / (people + 2), people: people + 2 };
}

function spread(share: number, people: number): number {
  return (share * (1 - share)) / people;
}

function spreadOf({ value, people }: Accuracy): number {
  return people === null ? 0 : spread(value, people);
}

function varianceOf(
  byApparent: number,
  truth: number,
  bySensitivity: number,
  bySpecificity: number,
  youden: number,
): number {
  return (
    (byApparent + truth * truth * bySensitivity + Math.pow(1 - truth, 2) * bySpecificity) / (youden * youden)
  );
}
