import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { notesAt } from "../notes-at.ts";
import { endless, type Hindrance, hindrance } from "./bivariate-checks.ts";
import { type Levels, levelsOf, oneLevel } from "./bivariate-data.ts";
import type { BivariateOptions, BivariateValues, Likelihood } from "./bivariate-fields.ts";
import { fitFreely, posed } from "./bivariate-fit.ts";
import { covarianceOf, type Fit } from "./bivariate-model.ts";
import { NO_SUMMARY, scatterAt, summaryAt, summaryNotes } from "./bivariate-summary.ts";
import { spreadOf } from "./loadings.ts";
import type { Covariate, Study } from "./study-fields.ts";

type Parts = NonNullable<BivariateValues["covariate"]>;
type Test = Parts["both"];
const NO_TEST: Test = { chiSquare: null, degreesOfFreedom: null, p: null };

/**
 * A summary point per level, the spread within levels being the same, and likelihood-ratio tests of whether the
 * points are the same. Tests are by full maximum likelihood even where the fit is by the restricted one, which can't
 * compare models whose means differ.
 *
 * @param studies   studies with people in them, and `levels` of the covariate in the same order
 */
export function covariateParts(
  studies: readonly Study[],
  covariate: Covariate,
  likelihood: Likelihood,
  options: BivariateOptions,
  notes: Note[],
): Parts {
  const levels = levelsOf(covariate.levels);
  const counted = levels.labels.map((label, place) => ({
    label,
    studies: levels.of.filter((level) => level === place).length,
  }));
  const fault = tooFew(levels, studies) ?? hindrance(studies, likelihood, levels);
  const absent = ({ code, message }: Hindrance): Parts => {
    notes.push(...notesAt(code, ["covariate"], message));
    return absentParts(covariate.name, counted);
  };
  if (fault !== null) return absent(fault);
  const { model } = posed(studies, likelihood, options.points, levels, levels);
  const fit = fitFreely(model);
  const lost = endless(fit);
  if (lost !== null) return absent(lost);
  const covariance = covarianceOf(model, fit);
  const size = levels.labels.length;
  const spread = spreadOf(fit.loadings);
  notes.push(...levelNotes(fit, counted, covariance === null));
  const parts = counted.map((entry, place) => ({
    ...entry,
    sensitivity: summaryAt(model, fit, place, covariance, options),
    specificity: summaryAt(model, fit, size + place, covariance, options),
    covariance: scatterAt(model, covariance, place, size + place)?.both ?? null,
  }));
  parts.forEach(({ sensitivity, specificity }, place) => {
    notes.push(...summaryNotes(sensitivity, `covariate.levels.${place}.sensitivity`));
    notes.push(...summaryNotes(specificity, `covariate.levels.${place}.specificity`));
  });
  return {
    name: covariate.name,
    levels: parts,
    betweenStudies: {
      sensitivity: spread.first,
      specificity: spread.second,
      correlation: spread.correlation,
    },
    logLikelihood: fit.logLikelihood,
    ...tests(studies, likelihood, options.points, levels, fit),
  };
}

function levelNotes(
  fit: Fit,
  counted: readonly { label: string; studies: number }[],
  singular: boolean,
): Note[] {
  const notes: Note[] = [];
  for (const { label, studies } of counted) {
    if (studies >= 2) continue;
    const message = `level ${label} has one study alone: its summary point rests on the spread of the others`;
    notes.push(note("few_studies", "covariate.levels", message));
  }
  if (!fit.converged) {
    notes.push(
      note("not_converged", "covariate", "the search with a point per level ended before its maximum"),
    );
  }
  if (singular) {
    notes.push(note("singular", "covariate.levels", "the information is singular: no standard errors"));
  }
  const { correlation } = spreadOf(fit.loadings);
  if (correlation === null || Math.abs(correlation) === 1) {
    const message =
      correlation === null
        ? "within levels sensitivity or specificity does not vary: there is no correlation"
        : `within levels the correlation is at its border, ${correlation}`;
    notes.push(note("boundary", "covariate.betweenStudies.correlation", message));
  }
  return notes;
}

function tooFew(levels: Levels, studies: readonly Study[]) {
  const { length } = levels.labels;
  if (length >= 2 && length < studies.length && length <= MOST_LEVELS) return null;
  const message =
    length < 2
      ? "all studies have the same level: nothing to compare"
      : `${length} levels for ${studies.length} studies: at most ${MOST_LEVELS}, and fewer than studies, can be compared`;
  return { code: length < 2 ? "one_level" : "too_many_levels", message };
}
const MOST_LEVELS = 12;

function absentParts(name: string, counted: readonly { label: string; studies: number }[]): Parts {
  return {
    name,
    levels: counted.map((entry) => ({
      ...entry,
      sensitivity: NO_SUMMARY,
      specificity: NO_SUMMARY,
      covariance: null,
    })),
    betweenStudies: { sensitivity: null, specificity: null, correlation: null },
    logLikelihood: null,
    both: NO_TEST,
    sensitivityAlone: NO_TEST,
    specificityAlone: NO_TEST,
  };
}

function tests(
  studies: readonly Study[],
  likelihood: Likelihood,
  points: number,
  levels: Levels,
  full: Fit,
): Pick<Parts, "both" | "sensitivityAlone" | "specificityAlone"> {
  const by: Likelihood =
    likelihood.kind === "normal_reml" ? { kind: "normal_ml", correction: likelihood.correction } : likelihood;
  const one = oneLevel(studies.length);
  const height = (first: Levels, second: Levels) =>
    fitFreely(posed(studies, by, points, first, second).model).logLikelihood;
  const highest = by === likelihood ? full.logLikelihood : height(levels, levels);
  const added = levels.labels.length - 1;
  const against = (first: Levels, second: Levels, degreesOfFreedom: number): Test => {
    const chiSquare = Math.max(0, 2 * (highest - height(first, second)));
    return { chiSquare, degreesOfFreedom, p: chiSquareCdf(chiSquare, degreesOfFreedom, "upper") };
  };
  return {
    both: against(one, one, 2 * added),
    sensitivityAlone: against(one, levels, added),
    specificityAlone: against(levels, one, added),
  };
}
