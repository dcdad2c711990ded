import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import { endless, hindrance, peopled, requireBivariate } from "./bivariate-checks.ts";
import { covariateParts } from "./bivariate-covariate.ts";
import { oneLevel } from "./bivariate-data.ts";
import { bivariateExamples } from "./bivariate-examples.ts";
import {
  type BivariateInput as Asked,
  BivariateInput,
  BivariateOptions,
  BivariateValues,
  type BivariateOptions as Chosen,
  type BivariateValues as Values,
} from "./bivariate-fields.ts";
import { fitFreely, type Posed, posed } from "./bivariate-fit.ts";
import { covarianceOf, type Fit } from "./bivariate-model.ts";
import { fitNotes, spreadNotes } from "./bivariate-notes.ts";
import { spreadLimits } from "./bivariate-profile.ts";
import { ellipse, type LogitPoint, reachOf, type Scatter, summaryCurve } from "./bivariate-regions.ts";
import { NO_SUMMARY, scatterAt, summaryAt, summaryNotes } from "./bivariate-summary.ts";
import { hierarchicalEstimates, NO_CURVE } from "./hierarchical.ts";
import { spreadOf } from "./loadings.ts";
import { asProportion } from "./logit.ts";
import { noShrunken, shrunkenOf } from "./shrunken.ts";
import type { Study } from "./study-fields.ts";
import { ratioNotes, summaryRatios } from "./summary-ratios.ts";

/**
 * How good is the kit over several sites or studies, and how much do they differ?
 *
 * Logit sensitivity and logit specificity of the studies come from a bivariate normal distribution, whose middle is
 * the summary point; the counts are binomial given them. Spread that runs to its border (a standard deviation of 0,
 * a correlation of 1 or -1) is reported there with the note `boundary`.
 *
 * @param input   one table per study, what tells studies apart, and the likelihood
 * @param options level, kind of limits, places of the quadrature
 * @returns `null` with a note where fewer than two studies have people of a kind (`too_few_studies`), where no result
 *   of a kind is wrong in any study (`no_variation`), or where a logit is infinite (`zero_counts`), or where studies
 *   have no common middle (`no_maximum`)
 * @throws InputError for a label given twice, levels that don't fit the studies, or profile limits by `normal_reml`
 * Behaves badly with fewer than five studies, and where studies are no sample of the places that the kit will be
 * used in
 * Sources: reitsma2005, chu2006 for the exact likelihood, harbord2007 for the curve, higgins2009 for predictions
 */
export function bivariatePooled(input: Asked, options: Chosen): Finding<Values> {
  requireBivariate(input, options);
  const studies = peopled(input.studies);
  const none = oneLevel(studies.length);
  const fault = hindrance(studies, input.likelihood, none);
  if (fault !== null) return withoutFit(input, studies.length, fault.code, fault.message);
  const question = posed(studies, input.likelihood, options.points, none, none);
  const fit = fitFreely(question.model);
  const lost = endless(fit);
  if (lost !== null) return withoutFit(input, studies.length, lost.code, lost.message);
  const notes = [...leftOut(input, studies), ...fitNotes(fit, studies.length, input.likelihood, options)];
  const values = valuesOf(input, studies, options, question, fit, notes);
  return { values, notes };
}

function valuesOf(
  input: Asked,
  studies: readonly Study[],
  options: Chosen,
  question: Posed,
  fit: Fit,
  notes: Note[],
): Values {
  const { model } = question;
  const covariance = covarianceOf(model, fit);
  const scatter = scatterAt(model, covariance, 0, 1);
  if (scatter === null) {
    const paths = ["summary", "ratios", "hierarchical", "prediction", "regions"];
    notes.push(...notesAt("singular", paths, "the information is singular: no standard errors"));
  }
  const middle = { first: fit.means[0] as number, second: fit.means[1] as number };
  const normal = normalQuantile((1 + options.level) / 2);
  const betweenStudies = spreadPart(question, fit, options);
  notes.push(...spreadNotes(betweenStudies, options.spread === "profile"));
  const sensitivity = summaryAt(model, fit, 0, covariance, options);
  const specificity = summaryAt(model, fit, 1, covariance, options);
  notes.push(
    ...summaryNotes(sensitivity, "summary.sensitivity"),
    ...summaryNotes(specificity, "summary.specificity"),
  );
  const ratios = summaryRatios(middle, scatter, normal);
  if (scatter !== null) notes.push(...ratioNotes(ratios));
  return {
    studies: studies.length,
    summary: { sensitivity, specificity, covariance: scatter?.both ?? null },
    betweenStudies,
    ...reaching(studies, options, middle, scatter, fit, notes),
    ratios,
    hierarchical: hierarchicalEstimates(middle.first, middle.second, fit.loadings, covariance, normal),
    shrunken: shrunkenOf(input.studies, studies, model, fit, normal, notes),
    covariate: covariatePart(input, studies, options, notes),
    fit: {
      logLikelihood: fit.logLikelihood,
      parameters: 5,
      iterations: fit.iterations,
      converged: fit.converged,
    },
  };
}

function spreadPart(question: Posed, fit: Fit, { spread, level }: Chosen): Values["betweenStudies"] {
  if (spread === "profile") return spreadLimits(question, fit, 1, level);
  const { first, second, correlation } = spreadOf(fit.loadings);
  const bare = (value: number | null) => ({ value, lower: null, upper: null });
  return { sensitivity: bare(first), specificity: bare(second), correlation: bare(correlation) };
}

/** Predictions and regions: what reaches beyond the summary point. */
function reaching(
  studies: readonly Study[],
  options: Chosen,
  middle: LogitPoint,
  scatter: Scatter | null,
  fit: Fit,
  notes: Note[],
): Pick<Values, "prediction" | "regions"> {
  const reach = reachOf(options, studies.length);
  const spread = spreadOf(fit.loadings);
  const { a, b } = fit.loadings;
  if (reach.interval === null) {
    const message = "two studies leave no degree of freedom: no predictions and no regions by t and F";
    notes.push(...notesAt("too_few_studies", ["prediction", "regions"], message));
  }
  const total = scatter && {
    first: scatter.first + Math.pow(spread.first, 2),
    second: scatter.second + Math.pow(spread.second, 2),
    both: scatter.both + a * b,
  };
  const around = (value: number, variance: number | undefined) => {
    if (variance === undefined || reach.interval === null) {
      return asProportion({ value, lower: null, upper: null });
    }
    const by = reach.interval * Math.sqrt(variance);
    return asProportion({ value, lower: value - by, upper: value + by });
  };
  const lines = scatter !== null && total !== null && reach.ellipse !== null;
  return {
    prediction: {
      sensitivity: around(middle.first, total?.first),
      specificity: around(middle.second, total?.second),
    },
    regions: {
      confidence: lines ? ellipse(middle, scatter, reach.ellipse) : [],
      prediction: lines ? ellipse(middle, total, reach.ellipse) : [],
      curve: summaryCurve(studies, middle, spread),
    },
  };
}

function covariatePart(
  { studies: all, covariate, likelihood }: Asked,
  studies: readonly Study[],
  options: Chosen,
  notes: Note[],
): Values["covariate"] {
  if (covariate === null) return null;
  const levels = covariate.levels.filter((_, place) => studies.includes(all[place] as Study));
  return covariateParts(studies, { name: covariate.name, levels }, likelihood, options, notes);
}

function leftOut({ studies }: Asked, kept: readonly Study[]): Note[] {
  return studies.flatMap((study, place) =>
    kept.includes(study)
      ? []
      : [note("no_observations", `shrunken.${place}`, `nobody was seen in ${study.label}: left out`)],
  );
}

function withoutFit(input: Asked, studies: number, code: string, message: string): Finding<Values> {
  const nothing = { value: null, lower: null, upper: null };
  const paths = [
    "summary",
    "betweenStudies",
    "prediction",
    "ratios",
    "hierarchical",
    "regions",
    "shrunken",
    "fit",
  ];
  const withCovariate = input.covariate === null ? paths : [...paths, "covariate"];
  return {
    values: {
      studies,
      summary: { sensitivity: NO_SUMMARY, specificity: NO_SUMMARY, covariance: null },
      betweenStudies: { sensitivity: nothing, specificity: nothing, correlation: nothing },
      prediction: { sensitivity: nothing, specificity: nothing },
      ratios: { positive: nothing, negative: nothing, diagnosticOdds: nothing },
      hierarchical: NO_CURVE,
      regions: { confidence: [], prediction: [], curve: [] },
      shrunken: noShrunken(input.studies),
      covariate: null,
      fit: { logLikelihood: null, parameters: 5, iterations: 0, converged: false },
    },
    notes: notesAt(code, withCovariate, message),
  };
}

export const bivariate = defineMethod({
  id: "pooling.bivariate",
  version: 1,
  title: "Sensitivity and specificity pooled over studies",
  question: "How good is the kit over several sites or studies, and how much do they differ?",
  formula:
    "(logit sensitivity, logit specificity) of a study ~ bivariate normal, means the summary point, standard deviations and correlation the spread; counts binomial given these, integrated out by adaptive Gauss-Hermite quadrature; or observed logits normal with variances 1 / right + 1 / wrong, by full or restricted likelihood. Limits of the spread where 2 (log-likelihood lost) = chi-square quantile. New study: mean ± t (studies - 2) sqrt(standard error² + spread²); regions by 2 F (2, studies - 2). Curve: logit sensitivity = accuracy exp(-shape / 2) + exp(-shape) logit(1 - specificity), shape = ln(spread of specificity / spread of sensitivity)",
  caution:
    "a summary point is no answer where studies differ much: read the between-study spread and the prediction for a new study first. With few studies the correlation often ends at -1 or 1, which is said by a note. A covariate compares studies, not people, and what tells studies apart may be something else. Empirical Bayes limits take means and spread as known",
  sources: ["reitsma2005", "chu2006", "harbord2007", "higgins2009", "liu1994", "louis1982", "harville1977"],
  input: BivariateInput,
  options: BivariateOptions,
  values: BivariateValues,
  run: bivariatePooled,
  examples: bivariateExamples,
});
