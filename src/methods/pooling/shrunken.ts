import { type Note, note } from "../../core/note.ts";
import type { BivariateValues } from "./bivariate-fields.ts";
import type { BivariateModel, Fit, Logit } from "./bivariate-model.ts";
import { asProportion } from "./logit.ts";
import type { Study } from "./study-fields.ts";

type Shrunken = BivariateValues["shrunken"];

const peopleOf = ({ label, truePositives, falsePositives, falseNegatives, trueNegatives }: Study) => ({
  label,
  diseased: truePositives + falseNegatives,
  nondiseased: falsePositives + trueNegatives,
});

/**
 * Empirical Bayes estimates of every study: the mean of its logit given its counts, with limits by its standard
 * deviation, means and spread being taken as known.
 *
 * @param all  the studies asked about; those not `fitted` have `null`
 */
export function shrunkenOf(
  all: readonly Study[],
  fitted: readonly Study[],
  model: BivariateModel,
  fit: Fit,
  reach: number,
  notes: Note[],
): Shrunken {
  const { first, second } = model.logitsAt(fit.at);
  const around = (logit: Logit | undefined) => {
    if (logit === undefined) return { value: null, lower: null, upper: null };
    const { mean, deviation } = logit;
    return asProportion({ value: mean, lower: mean - reach * deviation, upper: mean + reach * deviation });
  };
  const message = "limits take the summary point and the spread as known: they are somewhat narrow";
  notes.push(note("empirical_bayes", "shrunken", message));
  return all.map((study) => {
    const place = fitted.indexOf(study);
    return { ...peopleOf(study), sensitivity: around(first[place]), specificity: around(second[place]) };
  });
}

export function noShrunken(all: readonly Study[]): Shrunken {
  const none = { value: null, lower: null, upper: null };
  return all.map((study) => ({ ...peopleOf(study), sensitivity: none, specificity: none }));
}
