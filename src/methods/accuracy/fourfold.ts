import * as v from "valibot";
import { choice, estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { differenceInterval } from "../proportion/difference-interval.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { differenceMethod, type FourCounts, fourCounts, ratioMethod } from "./fields.ts";
import { fourfoldExamples } from "./fourfold-examples.ts";
import { accuracyRatios, halfAddedRatios } from "./ratios.ts";

const Input = v.strictObject(fourCounts);
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  ratioInterval: ratioMethod(),
  differenceInterval: differenceMethod(),
  zeroCells: v.optional(
    choice(["none", "add_half"], "add_half: also show the ratios after adding a half to every cell"),
    "none",
  ),
});
const Side = v.strictObject({
  lower: quantity("proportion", "lower side of the region"),
  upper: quantity("proportion", "upper side of the region"),
});
const ratios = {
  positiveLikelihoodRatio: estimate(
    "ratio",
    "P(reactive | condition present) / P(reactive | condition absent)",
  ),
  negativeLikelihoodRatio: estimate(
    "ratio",
    "P(non-reactive | condition present) / P(non-reactive | condition absent)",
  ),
  diagnosticOddsRatio: estimate("ratio", "odds of a reactive result with the condition over those without"),
};
const Values = v.strictObject({
  sensitivity: proportionEstimate("P(reactive | condition present)"),
  specificity: proportionEstimate("P(non-reactive | condition absent)"),
  referencePrevalence: proportionEstimate("reference-positive among the people of this study"),
  apparentPrevalence: proportionEstimate("reactive among the people of this study"),
  apparentPpv: proportionEstimate("reference-positive among the reactive people of this study"),
  apparentNpv: proportionEstimate("reference-negative among the non-reactive people of this study"),
  overallAccuracy: proportionEstimate("right results among the people of this study"),
  ...ratios,
  youden: estimate("statistic", "sensitivity + specificity - 1"),
  jointRegion: v.pipe(
    v.strictObject({
      level: quantity("probability", "level of the region as a whole"),
      componentLevel: quantity("probability", "level of each side: the square root"),
      sensitivity: Side,
      specificity: Side,
    }),
    v.description("rectangle that holds sensitivity and specificity together"),
  ),
  halfAdded: v.pipe(
    v.nullable(v.strictObject(ratios)),
    v.description("the ratios after adding a half to every cell; null unless asked for and a cell is 0"),
  ),
});
export type FourfoldInput = v.InferOutput<typeof Input>;
export type FourfoldOptions = v.InferOutput<typeof Options>;
export type FourfoldValues = v.InferOutput<typeof Values>;

/**
 * Everything a fourfold table says about a test: sensitivity, specificity, likelihood ratios and more.
 *
 * @param counts  four counts of people; invalid results are already treated (see
 *   `accuracy.invalid_treatments`)
 * @param options interval of proportions, of ratios (`log` or `score`) and of the difference (Youden)
 * @returns proportions in 0..1. `null` with a note: a margin of 0 (`no_positives`, `no_negatives`,
 *   `no_reactive`, `no_nonreactive`), an infinite ratio (`unbounded`). The apparent predictive values
 *   belong to this study's mix of people: for a programme use `predictive.at_prevalence`
 */
export function fourfoldAccuracy(counts: FourfoldInput, options: FourfoldOptions): Finding<FourfoldValues> {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const positives = truePositives + falseNegatives;
  const negatives = falsePositives + trueNegatives;
  const reactive = truePositives + falsePositives;
  const nonreactive = falseNegatives + trueNegatives;
  const people = positives + negatives;
  const share = (part: number, whole: number) => estimateProportion(part, whole, options);
  const { notes, ...plainRatios } = accuracyRatios(counts, options.ratioInterval, options.level);
  const half = halfAdded(counts, options);
  const values: FourfoldValues = {
    sensitivity: share(truePositives, positives),
    specificity: share(trueNegatives, negatives),
    referencePrevalence: share(positives, people),
    apparentPrevalence: share(reactive, people),
    apparentPpv: share(truePositives, reactive),
    apparentNpv: share(trueNegatives, nonreactive),
    overallAccuracy: share(truePositives + trueNegatives, people),
    ...plainRatios,
    youden: differenceInterval(
      { count: truePositives, total: positives },
      { count: falsePositives, total: negatives },
      options.differenceInterval,
      options.level,
    ),
    jointRegion: jointRegion(counts, options),
    halfAdded: half.values,
  };
  return {
    values,
    notes: [...marginNotes(positives, negatives, reactive, nonreactive), ...notes, ...half.notes],
  };
}

/** Each side at the square root of the level: both hold together at the level. Source: pepe2003 */
function jointRegion(counts: FourCounts, options: FourfoldOptions): FourfoldValues["jointRegion"] {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const componentLevel = Math.sqrt(options.level);
  const settings = { method: options.method, level: componentLevel };
  const { lower, upper } = estimateProportion(truePositives, truePositives + falseNegatives, settings);
  const specificity = estimateProportion(trueNegatives, trueNegatives + falsePositives, settings);
  return {
    level: options.level,
    componentLevel,
    sensitivity: { lower, upper },
    specificity: { lower: specificity.lower, upper: specificity.upper },
  };
}

function halfAdded(
  counts: FourCounts,
  options: FourfoldOptions,
): { values: FourfoldValues["halfAdded"]; notes: Note[] } {
  const cells = [counts.truePositives, counts.falsePositives, counts.falseNegatives, counts.trueNegatives];
  if (options.zeroCells === "none" || cells.every((cell) => cell > 0)) return { values: null, notes: [] };
  const message = "a half was added to every cell: for display only, the numbers depend on that convention";
  return {
    values: halfAddedRatios(counts, options.level),
    notes: [note("half_added", "halfAdded", message)],
  };
}

function marginNotes(positives: number, negatives: number, reactive: number, nonreactive: number): Note[] {
  const margins: [number, string, string, string][] = [
    [positives, "no_positives", "sensitivity", "nobody was reference-positive"],
    [positives, "no_positives", "jointRegion.sensitivity", "nobody was reference-positive"],
    [negatives, "no_negatives", "specificity", "nobody was reference-negative"],
    [negatives, "no_negatives", "jointRegion.specificity", "nobody was reference-negative"],
    [reactive, "no_reactive", "apparentPpv", "nobody was reactive"],
    [nonreactive, "no_nonreactive", "apparentNpv", "nobody was non-reactive"],
  ];
  const notes = margins
    .filter(([people]) => people === 0)
    .map(([, code, path, message]) => note(code, path, `${message}: it can't be estimated`));
  if (positives === 0 || negatives === 0) {
    const message = "it needs both reference-positive and reference-negative people";
    notes.push(note("not_estimable", "youden", message));
  }
  if (positives + negatives === 0) {
    for (const path of ["referencePrevalence", "apparentPrevalence", "overallAccuracy"]) {
      notes.push(note("no_observations", path, "nothing was observed"));
    }
  }
  return notes;
}

export const fourfold = defineMethod({
  id: "accuracy.fourfold",
  version: 1,
  title: "Accuracy from a fourfold table",
  question: "How good is the test against the reference?",
  formula:
    "sensitivity = TP / (TP + FN); specificity = TN / (TN + FP); LR+ = sensitivity / (1 - specificity); LR- = (1 - sensitivity) / specificity; odds ratio = TP TN / (FP FN); Youden = sensitivity + specificity - 1. Log limits of a ratio of a/n to b/m: exp(log ratio ± z sqrt(1/a - 1/n + 1/b - 1/m)); of the odds ratio: exp(log OR ± z sqrt(1/TP + 1/FP + 1/FN + 1/TN))",
  caution:
    "counts people, one result each; needs a reference standard, applied to all regardless of the test. Apparent predictive values and accuracy hold only for this study's mix of people",
  sources: [
    "altman1994",
    "simel1991",
    "koopman1984",
    "woolf1955",
    "youden1950",
    "newcombe1998difference",
    "pepe2003",
  ],
  input: Input,
  options: Options,
  values: Values,
  run: fourfoldAccuracy,
  examples: fourfoldExamples,
});
