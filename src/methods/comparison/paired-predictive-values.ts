import * as v from "valibot";
import { estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { note } from "../../core/note.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { pairedCounts } from "./fields.ts";
import type { PairedCounts } from "./paired-counts.ts";
import { contrastOf, type ResultHolders } from "./predictive-contrast.ts";
import { predictiveExamples } from "./predictive-examples.ts";

const Input = v.strictObject({
  positives: v.pipe(v.strictObject(pairedCounts), v.description("the reference-positive people")),
  negatives: v.pipe(v.strictObject(pairedCounts), v.description("the reference-negative people")),
});
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const Test = v.strictObject({
  chiSquare: quantity("statistic", "chi-square, 1 degree of freedom"),
  pValue: quantity("probability", "its p-value"),
});
const contrast = (what: string) =>
  v.pipe(
    v.strictObject({
      first: proportionEstimate(`${what} of the first test in this study`),
      second: proportionEstimate(`${what} of the second test in this study`),
      difference: estimate("proportion", "first minus second, normal"),
      ratio: estimate("ratio", "first over second, normal on the log scale"),
      generalisedScore: v.pipe(Test, v.description("generalised score test of equal values")),
      weightedScore: v.pipe(Test, v.description("weighted generalised score test of equal values")),
    }),
    v.description(`${what}: the two tests compared`),
  );
const Values = v.strictObject({
  ppv: contrast("positive predictive value"),
  npv: contrast("negative predictive value"),
});
export type PairedPredictiveInput = v.InferOutput<typeof Input>;
export type PairedPredictiveOptions = v.InferOutput<typeof Options>;
export type PairedPredictiveValues = v.InferOutput<typeof Values>;

/**
 * Predictive values of two tests on the same people: do they differ?
 *
 * McNemar's test does not answer this: the people with a reactive result are not the same for both
 * tests. The numbers hold for this study's mix of reference-positive and -negative people only.
 *
 * @param input people by both results, among the reference-positive and among the reference-negative
 * @returns `null` with a note: nobody with that result on a test (`no_such_result`), all such results
 *   right or all wrong (`no_variation`), an infinite ratio (`unbounded`). Tests that agree in everybody:
 *   chi-square 0, p = 1, limits `null`, notes `no_discordance` and `no_width`
 * Sources: kosinski2013, leisenring2000, moskowitz2006
 */
export function comparePredictiveValues(
  input: PairedPredictiveInput,
  options: PairedPredictiveOptions,
): Finding<PairedPredictiveValues> {
  const { positives, negatives } = input;
  const parts = {
    ppv: contrastOf({ right: positives, wrong: negatives }, options.level, "ppv"),
    npv: contrastOf(nonReactive(input), options.level, "npv"),
  };
  const shown = ({ first, second, notes: _, ...rest }: typeof parts.ppv) => ({
    first: estimateProportion(first.count, first.total, options),
    second: estimateProportion(second.count, second.total, options),
    ...rest,
  });
  const values = { ppv: shown(parts.ppv), npv: shown(parts.npv) };
  const notes = [...parts.ppv.notes, ...parts.npv.notes];
  const discordant = [positives, negatives].reduce((sum, row) => sum + row.firstOnly + row.secondOnly, 0);
  if (discordant === 0) {
    const message = "both tests agree in everybody, as when a test is compared with itself: nothing differs";
    notes.push(note("no_discordance", "ppv", message), note("no_discordance", "npv", message));
  }
  return { values, notes };
}

/** Non-reactive on both is reactive on neither, on the first only is reactive on the second only. */
function nonReactive({ positives, negatives }: PairedPredictiveInput): ResultHolders {
  const mirrored = ({ neither, firstOnly, secondOnly }: PairedCounts) => ({
    both: neither,
    firstOnly: secondOnly,
    secondOnly: firstOnly,
  });
  return { right: mirrored(negatives), wrong: mirrored(positives) };
}

export const pairedPredictiveValues = defineMethod({
  id: "comparison.paired_predictive_values",
  version: 1,
  title: "Predictive values of two tests on the same people",
  question: "Do two tests differ in their predictive values?",
  formula:
    "PPV = right / all reactive results of a test. Difference and log ratio ± z sqrt(sum of squared influences of the persons). Weighted generalised score: (PPV1 - PPV2)² / ((p (1 - p) - 2 C) (1/n1 + 1/n2)), p the share of right among all n1 + n2 reactive results, C = (right on both (1 - p)² + wrong on both p²) / (n1 + n2); generalised score: (sum over results of right (z - mean z))² / sum over persons of (sum over their results of (right - p)(z - mean z))², z the test. NPV alike",
  caution:
    "holds for this study's mix of people: where reference-positives were recruited on purpose the predictive values mean nothing, compare likelihood ratios or take a prevalence from outside. The limits are large-sample ones. McNemar's test does not compare predictive values",
  sources: ["kosinski2013", "leisenring2000", "moskowitz2006", "pepe2003"],
  input: Input,
  options: Options,
  values: Values,
  run: comparePredictiveValues,
  examples: predictiveExamples,
});
