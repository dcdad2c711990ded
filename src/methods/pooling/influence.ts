import type { Estimate } from "../../core/estimate.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { endless, type Hindrance, hindrance, peopled } from "./bivariate-checks.ts";
import { oneLevel } from "./bivariate-data.ts";
import { fitFreely, posed } from "./bivariate-fit.ts";
import { covarianceOf, type Fit, type FitStart } from "./bivariate-model.ts";
import type { LogitPoint, Scatter } from "./bivariate-regions.ts";
import { NO_SUMMARY, scatterAt, summaryAt } from "./bivariate-summary.ts";
import { influenceExamples } from "./influence-examples.ts";
import {
  type InfluenceInput as Asked,
  type InfluenceOptions as Chosen,
  InfluenceInput,
  InfluenceOptions,
  InfluenceValues,
  type InfluenceValues as Values,
} from "./influence-fields.ts";
import { spreadOf } from "./loadings.ts";
import { predictedScore } from "./predicted-score.ts";
import { requireStudies, type Study } from "./study-fields.ts";

type Left = Values["without"][number];
type Verdict = Values["whole"]["verdict"];

/** What a fit says of the summary point; `null` where there is none. */
interface Told {
  readonly fit: Fit;
  readonly middle: LogitPoint;
  readonly scatter: Scatter | null;
  readonly sensitivity: Estimate;
  readonly specificity: Estimate;
}

/**
 * Does one study carry the result?
 *
 * The bivariate model is fitted again without each study in turn. A study's own result is then held against what
 * the others predict for it.
 *
 * @param input   one table per study; a criterion for the lower limits, or `null`
 * @param options level, places of the quadrature
 * @returns `null` with a note for a study without which there is no fit (`too_few_studies`, `no_variation`,
 *   `zero_counts`), and for everything where all studies together have none
 * @throws InputError for a label given twice
 * Takes as many fits as studies: seconds for a hundred, half a minute for five hundred
 * Sources: cook1977 for the distance, dunn1996 for the residuals
 */
export function studyInfluence(input: Asked, options: Chosen): Finding<Values> {
  requireStudies(input.studies);
  const notes: Note[] = [];
  const studies = peopled(input.studies);
  const fault = hindrance(studies, input.likelihood, oneLevel(studies.length));
  if (fault !== null) return nothing(input, fault.code, fault.message);
  const all = told(studies, input, options, null);
  const lost = endless(all.fit);
  if (lost !== null) return nothing(input, lost.code, lost.message);
  const whole = verdictOf(all, input.criterion);
  if (all.scatter === null) {
    notes.push(
      ...notesAt("singular", ["whole", "without"], "the information is singular: no standard errors"),
    );
  }
  const without = input.studies.map((study, place) =>
    leftOut(study, place, studies, all, whole, input, options, notes),
  );
  const far = without.reduce<Left | null>(
    (most, entry) => ((entry.distance ?? -1) > (most?.distance ?? -1) ? entry : most),
    null,
  );
  if (far === null) notes.push(note("not_estimable", "farthest", "no study could be left out"));
  return {
    values: {
      whole: { sensitivity: all.sensitivity, specificity: all.specificity, verdict: whole },
      without,
      farthest: far?.label ?? null,
    },
    notes: [...notes, ...changeNotes(without)],
  };
}

function told(
  studies: readonly Study[],
  { likelihood }: Asked,
  { level, points }: Chosen,
  start: FitStart | null,
): Told {
  const none = oneLevel(studies.length);
  const { model } = posed(studies, likelihood, points, none, none);
  const fit = fitFreely(model, start ?? model.begin);
  const covariance = covarianceOf(model, fit);
  const limits = { level, interval: "wald" as const };
  return {
    fit,
    middle: { first: fit.means[0] as number, second: fit.means[1] as number },
    scatter: scatterAt(model, covariance, 0, 1),
    sensitivity: summaryAt(model, fit, 0, covariance, limits).proportion,
    specificity: summaryAt(model, fit, 1, covariance, limits).proportion,
  };
}

function leftOut(
  study: Study,
  place: number,
  studies: readonly Study[],
  all: Told,
  whole: Verdict,
  input: Asked,
  options: Chosen,
  notes: Note[],
): Left {
  const rest = studies.filter((other) => other !== study);
  const fault =
    rest.length === studies.length
      ? { code: "no_observations", message: `nobody was seen in ${study.label}` }
      : hindrance(rest, input.likelihood, oneLevel(rest.length));
  const absent = ({ code, message }: Hindrance): Left => {
    notes.push(note(code, `without.${place}`, `without ${study.label}: ${message}`));
    return notLeftOut(study.label);
  };
  if (fault !== null) return absent(fault);
  const there = told(rest, input, options, all.fit);
  const lost = endless(there.fit);
  if (lost !== null) return absent(lost);
  const spread = spreadOf(there.fit.loadings);
  const verdict = verdictOf(there, input.criterion);
  if (spread.correlation === null) {
    const message = `without ${study.label} sensitivity or specificity does not vary: no correlation`;
    notes.push(note("boundary", `without.${place}.spread.correlation`, message));
  }
  if (!there.fit.converged) {
    const message = `without ${study.label} the search ended before it stood at a maximum`;
    notes.push(note("not_converged", `without.${place}`, message));
  }
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = study;
  const path = `without.${place}.residual`;
  return {
    label: study.label,
    sensitivity: there.sensitivity,
    specificity: there.specificity,
    verdict,
    changesVerdict: changes(whole, verdict),
    distance: distanceOf(all, there.middle),
    spread: { sensitivity: spread.first, specificity: spread.second, correlation: spread.correlation },
    residual: {
      sensitivity: residual(truePositives, falseNegatives, there, "first", `${path}.sensitivity`, notes),
      specificity: residual(trueNegatives, falsePositives, there, "second", `${path}.specificity`, notes),
    },
  };
}

function residual(
  right: number,
  wrong: number,
  there: Told,
  side: "first" | "second",
  path: string,
  notes: Note[],
): number | null {
  if (right + wrong === 0 || there.scatter === null) {
    const message =
      right + wrong === 0 ? "nobody of this kind in the study" : "no standard errors without it";
    notes.push(note("no_residual", path, message));
    return null;
  }
  const variance = there.scatter[side] + Math.pow(spreadOf(there.fit.loadings)[side], 2);
  return predictedScore(right, right + wrong, there.middle[side], Math.sqrt(variance));
}

/** Half the squared distance between two summary points, in units of the covariance of the first (cook1977). */
function distanceOf({ middle, scatter }: Told, moved: LogitPoint): number | null {
  if (scatter === null) return null;
  const [x, y] = [moved.first - middle.first, moved.second - middle.second];
  const { first, second, both } = scatter;
  const determinant = first * second - both * both;
  return (second * x * x - 2 * both * x * y + first * y * y) / determinant / 2;
}

function verdictOf({ sensitivity, specificity }: Told, criterion: Asked["criterion"]): Verdict {
  if (criterion === null) return "not_asked";
  if (sensitivity.lower === null || specificity.lower === null) return "not_estimable";
  const met = sensitivity.lower >= criterion.sensitivity && specificity.lower >= criterion.specificity;
  return met ? "met" : "not_met";
}

function changes(whole: Verdict, without: Verdict): boolean {
  const decided = (verdict: Verdict) => verdict === "met" || verdict === "not_met";
  return decided(whole) && decided(without) && whole !== without;
}

function changeNotes(without: Values["without"]): Note[] {
  const changing = without.filter(({ changesVerdict }) => changesVerdict).map(({ label }) => label);
  if (changing.length === 0) return [];
  const message = `without ${changing.join(", or without ")} the verdict would be another`;
  return [note("verdict_changes", "whole.verdict", message)];
}

const NOTHING = NO_SUMMARY.proportion;

function notLeftOut(label: string): Left {
  return {
    label,
    sensitivity: NOTHING,
    specificity: NOTHING,
    verdict: "not_estimable",
    changesVerdict: false,
    distance: null,
    spread: { sensitivity: null, specificity: null, correlation: null },
    residual: { sensitivity: null, specificity: null },
  };
}

function nothing({ studies }: Asked, code: string, message: string): Finding<Values> {
  return {
    values: {
      whole: { sensitivity: NOTHING, specificity: NOTHING, verdict: "not_estimable" },
      without: studies.map(({ label }) => notLeftOut(label)),
      farthest: null,
    },
    notes: notesAt(code, ["whole", "without", "farthest"], message),
  };
}

export const influence = defineMethod({
  id: "pooling.influence",
  version: 1,
  title: "What if one study were left out?",
  question: "Does one site or study carry the pooled result?",
  formula:
    "the bivariate model without study i: summary point m(i); distance = (m(i) - m)ᵀ C⁻¹ (m(i) - m) / 2 with C the covariance of m; residual = normal score of P(fewer right) + P(as many) / 2 in the study left out, its logit normal with mean m(i) and variance standard error² + spread²",
  caution:
    "a study that stands out is a reason to look at it, not to leave it out. Two studies that lean the same way hide one another. With few studies each moves the summary much",
  sources: ["cook1977", "dunn1996"],
  input: InfluenceInput,
  options: InfluenceOptions,
  values: InfluenceValues,
  run: studyInfluence,
  examples: influenceExamples,
});
