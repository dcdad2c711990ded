import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { predictiveValues } from "./bayes.ts";
import type { PredictiveMethod, StudyCounts } from "./fields.ts";

/** Predictive values at one prevalence, with what has to be said about them. */
export interface PredictiveFinding {
  readonly ppv: Estimate;
  readonly npv: Estimate;
  /** The values the intervals are built around: those of the adjusted rates where these were used. */
  readonly centre: { readonly ppv: number | null; readonly npv: number | null };
  readonly notes: readonly Note[];
}

/** Sensitivity and specificity with the numbers of people behind them. */
export interface Rates {
  readonly sensitivity: number;
  readonly specificity: number;
  readonly positives: number;
  readonly negatives: number;
}

/**
 * Predictive values at a stated prevalence from the counts of a study, for callers without a schema.
 * The prevalence is taken as known. Where a study saw no error of a kind (or nothing else) the plain
 * logit interval has no answer; the adjusted one is then taken for both values.
 * Source: mercaldo2007
 */
export function predictiveInterval(
  counts: StudyCounts,
  prevalence: number,
  method: PredictiveMethod,
  level: number,
): PredictiveFinding {
  if (counts.positives === 0 || counts.negatives === 0) return notEstimable(counts);
  const observed = ratesOf(counts);
  const point = predictiveValues(observed.sensitivity, observed.specificity, prevalence);
  if (prevalence === 0 || prevalence === 1) return atTheEnd(point, prevalence);
  const z = normalQuantile((1 - level) / 2, "upper");
  if (method === "standard") return standardInterval(observed, prevalence, z);
  const extreme = isExtreme(observed);
  const adjusted = method === "adjusted_logit" || extreme;
  const rates = adjusted ? adjustedRates(counts, z) : observed;
  const centre = predictiveValues(rates.sensitivity, rates.specificity, prevalence);
  const notes: Note[] = [];
  const ppv = widened(
    point.ppv,
    logitInterval(logitPpv(rates, prevalence), ppvVariance(rates), z),
    "ppv",
    notes,
  );
  const npv = widened(
    point.npv,
    logitInterval(logitNpv(rates, prevalence), npvVariance(rates), z),
    "npv",
    notes,
  );
  if (extreme && method === "logit") {
    const message =
      "the study saw only right, or only wrong, results of a kind: adjusted logit interval instead";
    notes.unshift(note("adjusted_logit", "ppv", message), note("adjusted_logit", "npv", message));
  }
  return { ppv, npv, centre, notes };
}

export function ratesOf({ truePositives, positives, trueNegatives, negatives }: StudyCounts): Rates {
  return {
    sensitivity: truePositives / positives,
    specificity: trueNegatives / negatives,
    positives,
    negatives,
  };
}

/** z²/2 people added to each kind of result. */
export function adjustedRates(
  { truePositives, positives, trueNegatives, negatives }: StudyCounts,
  z: number,
): Rates {
  const added = z * z;
  return {
    sensitivity: (truePositives + added / 2) / (positives + added),
    specificity: (trueNegatives + added / 2) / (negatives + added),
    positives: positives + added,
    negatives: negatives + added,
  };
}

export function isExtreme({ sensitivity, specificity }: Rates): boolean {
  return [sensitivity, specificity].some((rate) => rate === 0 || rate === 1);
}

/** Variance of the log of sensitivity / (1 - specificity): that of the logit of the PPV. */
export function ppvVariance({ sensitivity, specificity, positives, negatives }: Rates): number {
  return (1 - sensitivity) / (sensitivity * positives) + specificity / ((1 - specificity) * negatives);
}

function npvVariance({ sensitivity, specificity, positives, negatives }: Rates): number {
  return sensitivity / ((1 - sensitivity) * positives) + (1 - specificity) / (specificity * negatives);
}

function logitPpv({ sensitivity, specificity }: Rates, prevalence: number): number {
  return Math.log((sensitivity / (1 - specificity)) * (prevalence / (1 - prevalence)));
}

function logitNpv({ sensitivity, specificity }: Rates, prevalence: number): number {
  return Math.log((specificity / (1 - sensitivity)) * ((1 - prevalence) / prevalence));
}

function logitInterval(logit: number, variance: number, z: number): { lower: number; upper: number } {
  const reach = z * Math.sqrt(variance);
  return { lower: 1 / (1 + Math.exp(reach - logit)), upper: 1 / (1 + Math.exp(-reach - logit)) };
}

/** The interval of adjusted rates leaves out an observed 0 or 1: it is drawn out to it, and says so. */
function widened(
  value: number | null,
  { lower, upper }: { lower: number; upper: number },
  path: string,
  notes: Note[],
): Estimate {
  if (value === null) {
    notes.push(noSuchResult(path));
    return { value, lower, upper };
  }
  if (lower <= value && value <= upper) return { value, lower, upper };
  notes.push(note("limit_extended", path, "the limit was drawn out to the observed value"));
  return { value, lower: Math.min(lower, value), upper: Math.max(upper, value) };
}

/** Delta method on the plain scale; limits cut to 0..1. */
function standardInterval(rates: Rates, prevalence: number, z: number): PredictiveFinding {
  const { sensitivity, specificity, positives, negatives } = rates;
  const point = predictiveValues(sensitivity, specificity, prevalence);
  const sensitivityVariance = (sensitivity * (1 - sensitivity)) / positives;
  const specificityVariance = (specificity * (1 - specificity)) / negatives;
  const mix = prevalence * (1 - prevalence);
  const reactive = prevalence * sensitivity + (1 - prevalence) * (1 - specificity);
  const nonreactive = (1 - prevalence) * specificity + prevalence * (1 - sensitivity);
  const notes: Note[] = [];
  const interval = (value: number | null, bySensitivity: number, bySpecificity: number, path: string) => {
    if (value === null) {
      notes.push(noSuchResult(path));
      return NOT_ESTIMABLE;
    }
    const reach =
      z *
      Math.sqrt(
        bySensitivity * bySensitivity * sensitivityVariance +
          bySpecificity * bySpecificity * specificityVariance,
      );
    if (reach === 0) notes.push(note("no_width", path, "this interval has no width here: not certainty"));
    if (value - reach < 0 || value + reach > 1) {
      notes.push(note("truncated", path, "the formula's limit lies outside 0 to 1 and was cut"));
    }
    return { value, lower: Math.max(0, value - reach), upper: Math.min(1, value + reach) };
  };
  const ppv = interval(
    point.ppv,
    (mix * (1 - specificity)) / (reactive * reactive),
    (mix * sensitivity) / (reactive * reactive),
    "ppv",
  );
  const npv = interval(
    point.npv,
    (mix * specificity) / (nonreactive * nonreactive),
    (mix * (1 - sensitivity)) / (nonreactive * nonreactive),
    "npv",
  );
  return { ppv, npv, centre: point, notes: withCentre(point, notes) };
}

/** Nobody, or everybody, has the condition: the predictive values follow without any test. */
function atTheEnd(point: { ppv: number | null; npv: number | null }, prevalence: number): PredictiveFinding {
  const message =
    prevalence === 0
      ? "nobody has the condition: a reactive result is always false"
      : "everybody has the condition: a non-reactive result is always false";
  const notes = (["ppv", "npv"] as const).map((path) =>
    point[path] === null ? noSuchResult(path) : note("prevalence_at_end", path, message),
  );
  const certain = (value: number | null) => ({ value, lower: value, upper: value });
  return { ppv: certain(point.ppv), npv: certain(point.npv), centre: point, notes: withCentre(point, notes) };
}

function noSuchResult(path: string): Note {
  return note("no_such_result", path, "by the observed rates nobody would have this result");
}

/** An absent centre has the same reason as an absent value. */
function withCentre(centre: PredictiveFinding["centre"], notes: readonly Note[]): Note[] {
  const absent = (["ppv", "npv"] as const).filter((path) => centre[path] === null);
  return [...notes, ...absent.map((path) => noSuchResult(`centre.${path}`))];
}

function notEstimable({ positives }: StudyCounts): PredictiveFinding {
  const whose = positives === 0 ? "reference-positive" : "reference-negative";
  const message = `the study has no ${whose} people: predictive values can't be estimated`;
  return {
    ppv: NOT_ESTIMABLE,
    npv: NOT_ESTIMABLE,
    centre: { ppv: null, npv: null },
    notes: [
      note("no_observations", "ppv", message),
      note("no_observations", "npv", message),
      note("no_observations", "centre", message),
    ],
  };
}
