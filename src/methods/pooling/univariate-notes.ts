import { type Note, note } from "../../core/note.ts";
import type { InterceptFit } from "./random-intercept-fit.ts";
import type { BinomialValues } from "./univariate-fields.ts";

const FEW = 5;
/** A change of the log-likelihood that could be seen in the results. */
const ROUGH = 1e-4;

/** What to mind in a random intercept that was found. */
export function interceptNotes(
  fit: InterceptFit,
  studies: number,
  { profile, betweenSd }: BinomialValues,
  points: number,
): Note[] {
  const notes: Note[] = [];
  if (studies < FEW) {
    const message = `${studies} studies: how far they scatter is hardly known, and Wald limits of the mean are too narrow`;
    notes.push(note("few_studies", "binomial.betweenSd", message));
  }
  if (studies === 2) {
    notes.push(note("two_studies", "binomial.prediction", "two studies leave no degree of freedom"));
  }
  if (fit.betweenSd === 0) {
    const message =
      "estimated at its boundary, 0: the studies scatter no more than chance; that is no proof that they are alike, see its upper limit";
    notes.push(note("boundary", "binomial.betweenSd", message));
  }
  if (!fit.converged) {
    notes.push(note("not_converged", "binomial", "the search ended before it stood at a maximum"));
  }
  const limits = {
    "binomial.profile.lower": profile.lower,
    "binomial.profile.upper": profile.upper,
    "binomial.betweenSd.upper": betweenSd.upper,
  };
  for (const [path, limit] of Object.entries(limits)) {
    if (limit === null) notes.push(note("unbounded", path, "the likelihood never falls far enough"));
  }
  if (fit.quadratureError > ROUGH) {
    const how = points === 1 ? "Laplace's approximation" : `the quadrature with ${points} places`;
    const message = `${how} is off by ${fit.quadratureError.toPrecision(2)} in the log-likelihood: ask for more places`;
    notes.push(note("rough_quadrature", "binomial.logLikelihood", message));
  }
  return notes;
}
