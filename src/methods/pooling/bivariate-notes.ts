import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import type { BivariateOptions, BivariateValues, Likelihood } from "./bivariate-fields.ts";
import type { Fit } from "./bivariate-model.ts";
import { type Spread, spreadOf } from "./loadings.ts";

/** Fewer studies than this tell little of how much studies differ (common practice, no source). */
const FEW = 5;
/** Fewer places than this are an approximation that shows. */
const COARSE = 7;

/** What to mind about a fit: too few studies, borders, an unfinished search. */
export function fitNotes(
  fit: Fit,
  studies: number,
  likelihood: Likelihood,
  { points, interval }: BivariateOptions,
): Note[] {
  const notes: Note[] = [...borderNotes(spreadOf(fit.loadings))];
  if (studies < FEW) {
    const message = `${studies} studies tell little of how much studies differ, and hardly of the correlation: prefer pooling.univariate for each proportion`;
    notes.push(note("few_studies", "betweenStudies", message));
  }
  if (!fit.converged) {
    notes.push(note("not_converged", "fit.converged", "the search ended before it stood at a maximum"));
  }
  if (likelihood.kind === "binomial" && points < COARSE) {
    const message = `with ${points} of the places per dimension the integral is rough: 15 give it in full`;
    notes.push(note("few_points", "fit.logLikelihood", message));
  }
  if (likelihood.kind !== "binomial") {
    const message =
      "logits of observed proportions are taken as normal with known variances: near 0 or 1, and with few people, that draws the summary towards 1/2. Prefer the binomial likelihood";
    notes.push(note("normal_approximation", "summary", message));
  }
  if (interval === "wald" && studies < 20) {
    const message =
      "Wald limits of the summary point are somewhat narrow with few studies; profile limits allow for the spread being estimated";
    notes.push(note("wald_with_few_studies", "summary", message));
  }
  return notes;
}

function borderNotes({ first, second, correlation }: Spread): Note[] {
  const notes: Note[] = [];
  const still = [...(first === 0 ? ["sensitivity"] : []), ...(second === 0 ? ["specificity"] : [])];
  for (const measure of still) {
    const message = `the standard deviation is at its border, 0: these studies differ in ${measure} no more than chance explains, which is no proof that they are alike`;
    notes.push(note("boundary", `betweenStudies.${measure}`, message));
  }
  if (correlation === null) {
    const message = `${still.join(" and ")} does not vary between studies: there is no correlation and no summary curve`;
    notes.push(
      ...notesAt("boundary", ["betweenStudies.correlation", "hierarchical", "regions.curve"], message),
    );
  } else if (Math.abs(correlation) === 1) {
    const message = `the correlation is at its border, ${correlation}: the studies can't tell it, and standard errors that take it as known are too small. Prefer pooling.univariate for each proportion, or more studies`;
    notes.push(note("boundary", "betweenStudies.correlation", message));
  }
  if (correlation !== null && correlation > 0) {
    const message =
      "sensitivity and specificity are high in the same studies: they differ by more than the threshold, and the summary curve is no choice of thresholds";
    notes.push(note("positive_correlation", "regions.curve", message));
  }
  return notes;
}

/** Why limits of the spread are absent or at a border. */
export function spreadNotes(spread: BivariateValues["betweenStudies"], asked: boolean): Note[] {
  const measures = ["sensitivity", "specificity", "correlation"] as const;
  if (!asked) {
    const paths = measures.flatMap((measure) => [
      `betweenStudies.${measure}.lower`,
      `betweenStudies.${measure}.upper`,
    ]);
    return notesAt("not_asked", paths, "limits of the spread were not asked for");
  }
  const notes: Note[] = [];
  for (const measure of ["sensitivity", "specificity"] as const) {
    if (spread[measure].upper !== null) continue;
    const message = "the data allow for any spread, however large: no upper limit";
    notes.push(note("unbounded", `betweenStudies.${measure}.upper`, message));
  }
  const { value, lower, upper } = spread.correlation;
  if (value !== null && (lower === -1 || upper === 1)) {
    const ends = lower === -1 && upper === 1 ? "any correlation is" : "a correlation at its border is";
    const message = `${ends} within the limits: the studies say little about it`;
    notes.push(note("limit_at_border", "betweenStudies.correlation", message));
  }
  return notes;
}
