import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chanceOf, drawSummary } from "./draw-summary.ts";
import { RESULT, WIDTH } from "./path-evaluator.ts";
import { type UncertainAt, uncertainAt } from "./uncertain-at.ts";
import { type DrawnSlice, preparedFor, uncertainDraws } from "./uncertain-draws.ts";
import { uncertainExamples } from "./uncertain-examples.ts";
import {
  type UncertainInput as Asked,
  type UncertainOptions as Chosen,
  requireLosses,
  UncertainInput,
  UncertainOptions,
} from "./uncertain-input.ts";
import { UncertainValues, type UncertainValues as Values } from "./uncertain-values.ts";

/**
 * What algorithms do where the kits, the prices and the prevalence are not known exactly: every uncertain
 * quantity is drawn at random, and each draw is put through every algorithm exactly.
 *
 * Counts have Jeffreys posteriors, ranges are uniform. All algorithms see the same draws, so that they are
 * compared on equal terms; the quantities are drawn independently of one another.
 *
 * @param input   kits with what is known of each, algorithms, dependence, prevalences, costs, criteria
 * @param options level of the percentile limits, number of draws, seed
 * @returns percentiles of the draws; probabilities of reaching the criteria and of being best. Same seed, same
 *   numbers, whatever the order or the grouping of the draws
 * @throws InputError where the dependence is not possible with the kits at their medians
 * Behaves badly where the dependence is itself unknown: it is held as stated in every draw
 * Source: brown2001 for the Jeffreys posterior
 */
export function uncertainOutcomes(input: Asked, options: Chosen): Finding<Values> {
  requireLosses(input);
  const prepared = preparedFor(input);
  const slice = uncertainDraws(prepared, options.seed, 0, options.draws);
  const places = input.prevalences.map((_, at) => uncertainAt(input, options.level, prepared, slice, at));
  const algorithms = input.algorithms.map(({ id }, algorithm) => {
    const by = (part: number) => {
      const place = algorithm * WIDTH + part;
      const draws = Float64Array.from({ length: slice.count }, (_, draw) => {
        return slice.results[draw * prepared.size + place] as number;
      });
      return drawSummary(draws, options.level);
    };
    return {
      id,
      sensitivity: by(RESULT.diseased.positive),
      specificity: by(RESULT.nondiseased.negative),
      at: places.map((place) => place.algorithms[algorithm] as UncertainAt["algorithms"][number]),
    };
  });
  const noneBest = places.map(({ none }, at) => ({
    label: input.prevalences[at]?.label ?? "",
    chance: chanceOf(none, slice.count),
  }));
  return { values: { algorithms, noneBest, draws: options.draws }, notes: notesOn(places, slice, input) };
}

function notesOn(places: readonly UncertainAt[], { cut, count }: DrawnSlice, { dependence }: Asked): Note[] {
  const notes = places.flatMap(({ undefinedIn }, at) =>
    undefinedIn.map(({ algorithm, measure }) => {
      const who = measure === "ppv" ? "positive" : "negative";
      const message = `draws in which nobody ends ${who} are left out; they do not reach a criterion`;
      return note("undefined_draws", `algorithms.${algorithm}.at.${at}.${measure}`, message);
    }),
  );
  if (dependence.kind === "independent") {
    const message = "runs are taken to err independently, which they seldom do: PPVs then look too good";
    notes.push(note("independence", "algorithms", message));
  }
  if (cut > 0) {
    const message = `in ${cut} of ${count} draws the kits drawn do not allow an error correlation stated; the nearest that they allow was used`;
    notes.push(note("dependence_cut", "algorithms", message));
  }
  return notes;
}

export const algorithmsUncertain = defineMethod({
  id: "algorithms.uncertain",
  version: 1,
  title: "Algorithms with uncertain kits, prices and prevalence",
  question:
    "How sure is it that an algorithm reaches what is asked of it, and that it is the best of several?",
  formula:
    "draw every share given by counts from beta(right + 1/2, total - right + 1/2), every range uniformly; for each draw the exact probabilities of positive, negative and inconclusive by truth, PPV and NPV by Bayes' rule; cost = per person + price × mean devices + settling × inconclusive; best = lowest cost (or cost + losses) among those that meet the criteria",
  caution:
    "numbers change a little with the seed: see the errors. The quantities are drawn independently, the dependence between runs is held as stated. An algorithm that is best in most draws is not much better for that: look at the differences too",
  sources: ["brown2001"],
  input: UncertainInput,
  options: UncertainOptions,
  values: UncertainValues,
  run: uncertainOutcomes,
  examples: uncertainExamples,
});
