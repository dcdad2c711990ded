import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import type { Counted } from "./random-intercept.ts";
import { type InterceptFit, interceptFit } from "./random-intercept-fit.ts";
import { requireStudies } from "./study-fields.ts";
import { univariateExamples } from "./univariate-examples.ts";
import {
  Input,
  Options,
  type UnivariateInput,
  type UnivariateOptions,
  type UnivariateValues,
  Values,
} from "./univariate-fields.ts";
import { interceptNotes } from "./univariate-notes.ts";
import {
  approximated,
  binomialOf,
  commonOf,
  equalityOf,
  NO_BINOMIAL,
  proportionAt,
} from "./univariate-parts.ts";

export type { UnivariateInput, UnivariateOptions, UnivariateValues };

/**
 * One proportion over sites or studies: sensitivity, specificity, the share of invalid results.
 *
 * The log odds of the studies are taken as normal around a mean; the counts are binomial, which needs no
 * correction of zeros. Beside it: one proportion common to all, and the usual pooling of log odds.
 *
 * @param input   how many of how many in each study; what is added to zeros in the approximation
 * @param options level of all limits; places of the quadrature
 * @returns proportions in 0..1 and log odds. `null` with a note: `one_study`; `all_alike` where all or none of
 *   the people are counted (the pooled exact interval remains); `all_or_none` where that holds in each study
 *   alone, so that nothing bounds the scatter; `zero_count` for the approximation without correction
 * @throws InputError where two studies bear one label or a count exceeds its total
 * Behaves badly with fewer than five studies: the scatter is hardly known, limits of the mean are too narrow
 * Sources: hamza2008; pinheiro1995 for the quadrature; higgins2009 for prediction limits
 */
export function pooledProportion(
  input: UnivariateInput,
  options: UnivariateOptions,
): Finding<UnivariateValues> {
  requireCounts(input.studies);
  const used = input.studies.filter(({ total }) => total > 0);
  const notes = emptyNotes(input.studies);
  const common = commonOf(used, options, notes);
  const absent = whyNoFit(used);
  const fit = absent === null ? interceptFit(used, options.points, options.level) : null;
  const values: UnivariateValues = {
    studies: used.length,
    binomial: fit === null ? NO_BINOMIAL : binomialOf(fit, used.length, options.level),
    common,
    equality: equalityOf(fit, common.logLikelihood),
    approximate: approximated(input, used, options.level, notes),
    list: listOf(input, used, fit, options.level),
  };
  if (absent !== null) notes.push(...notesAt(absent.code, ["binomial", "equality", "list"], absent.message));
  if (fit !== null) notes.push(...interceptNotes(fit, used.length, values.binomial, options.points));
  return { values, notes };
}

function requireCounts(studies: UnivariateInput["studies"]): void {
  requireStudies(studies);
  studies.forEach(({ count, total }, place) => {
    if (count <= total) return;
    throw new InputError(["input", "studies", place, "count"], `at most the total, ${total}`, count);
  });
}

function emptyNotes(studies: UnivariateInput["studies"]): Note[] {
  return studies.flatMap(({ total, label }, place) =>
    total > 0 ? [] : [note("no_observations", `list.${place}`, `nobody in ${label}: left out`)],
  );
}

/** Why the random intercept can't be had, or `null`. */
function whyNoFit(studies: readonly Counted[]): { code: string; message: string } | null {
  if (studies.length === 0) return { code: "no_observations", message: "nobody was observed" };
  if (studies.length === 1) {
    return { code: "one_study", message: "one study says nothing of how studies scatter" };
  }
  const mixed = studies.some(({ count, total }) => count > 0 && count < total);
  if (mixed) return null;
  const alike =
    studies.every(({ count }) => count === 0) || studies.every((study) => study.count === study.total);
  return alike
    ? {
        code: "all_alike",
        message:
          "all people have the same result: the log odds are without bound. All people together, with exact limits, stand under common",
      }
    : {
        code: "all_or_none",
        message: "in each study all people or none are counted: nothing bounds the scatter between studies",
      };
}

function listOf(
  { studies }: UnivariateInput,
  used: readonly Counted[],
  fit: InterceptFit | null,
  level: number,
): UnivariateValues["list"] {
  return studies.map((study) => {
    const likeliest = fit?.likeliest[used.indexOf(study)];
    return {
      label: study.label,
      proportion: estimateProportion(study.count, study.total, { level }),
      shrunken: likeliest === undefined ? null : proportionAt(likeliest),
    };
  });
}

export const univariate = defineMethod({
  id: "pooling.univariate",
  version: 1,
  title: "One proportion over sites or studies",
  question: "What is the proportion over sites or studies, and how far apart do they lie?",
  formula:
    "count ~ binomial(total, p), ln(p / (1 - p)) = mean + tau z, z standard normal and integrated out by adaptive Gauss–Hermite quadrature; likeliest mean and tau, Wald limits of the mean on the log odds, profile limits where 2 (log-likelihood lost) = chi-square quantile, 1 degree of freedom. Average: mean of p over z. Prediction: mean ± t(studies - 2) sqrt(tau² + error²). Equality: twice the log-likelihood of tau over tau = 0, half of chi-square's tail. Approximate: as pooling.inverse_variance on ln(count / rest), variance 1 / count + 1 / rest",
  caution:
    "sensitivity and specificity hang together through the cutoff: pool them by pooling.bivariate where studies are enough. With fewer than five studies the scatter is hardly known. The proportion of a typical study is not the average over studies. The approximation is biased towards one half for rare or common events and small studies",
  sources: ["hamza2008", "pinheiro1995", "self1987", "higgins2009", "dersimonian1986", "knapp2003"],
  input: Input,
  options: Options,
  values: Values,
  run: pooledProportion,
  examples: univariateExamples,
});
