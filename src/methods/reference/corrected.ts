import * as v from "valibot";
import { NOT_ESTIMABLE } from "../../core/estimate.ts";
import { choice, count, draws, estimate, level, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { randomStream } from "../../core/random.ts";
import { shareToDraw } from "../algorithms/known-share.ts";
import { UncertainShare } from "../algorithms/uncertain-fields.ts";
import { correctedExamples } from "./corrected-examples.ts";
import { correctedNotes, emptyNotes } from "./corrected-notes.ts";
import { apparentOf, type Corrected, correctedAt } from "./corrected-parts.ts";
import { totalOf, worstReference } from "./known-errors.ts";
import { CrossedCounts, ErrorCovariance } from "./known-errors-fields.ts";

const Input = v.strictObject({
  counts: CrossedCounts,
  reference: v.pipe(
    v.strictObject({
      sensitivity: UncertainShare("P(reference positive | condition present)"),
      specificity: UncertainShare("P(reference negative | condition absent)"),
    }),
    v.description("what is known of the reference's own accuracy, from elsewhere"),
  ),
  covariance: ErrorCovariance,
});
const INTERVALS = ["auto", "likelihood", "delta", "simulated"] as const;
const Options = v.strictObject({
  level: level(),
  interval: v.optional(
    choice(
      INTERVALS,
      "interval of the corrected values; auto: likelihood if the reference is known, else simulated",
    ),
    "auto",
  ),
  draws: draws("number of random draws", 20_000, 2_000_000),
  seed: seed(1),
});
const Both = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: estimate("proportion", "sensitivity of the kit"),
      specificity: estimate("proportion", "specificity of the kit"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  apparent: v.pipe(
    v.strictObject({
      sensitivity: estimate("proportion", "share reactive among the reference positive, with score limits"),
      specificity: estimate(
        "proportion",
        "share non-reactive among the reference negative, with score limits",
      ),
      prevalence: estimate("proportion", "share of reference positive, with score limits"),
    }),
    v.description("as if the reference never erred"),
  ),
  corrected: Both("behind the errors of the reference, with the interval chosen"),
  prevalence: estimate("proportion", "prevalence behind the errors of the reference, limits from the draws"),
  interval: choice(INTERVALS, "interval chosen"),
  formula: v.pipe(
    v.strictObject({
      sensitivity: quantity("statistic", "sensitivity by the formula, which may leave 0..1"),
      specificity: quantity("statistic", "specificity by the formula, which may leave 0..1"),
      prevalence: quantity("statistic", "prevalence by the formula; null where it leaves 0..1"),
    }),
    v.description("what the formula gives, not cut"),
  ),
  likelihood: Both("values that the table does not contradict, the reference being what its centre says"),
  delta: v.pipe(
    v.strictObject({
      sensitivityError: quantity("statistic", "standard error of the sensitivity, reference included"),
      specificityError: quantity("statistic", "standard error of the specificity, reference included"),
      sensitivity: estimate("proportion", "estimate plus or minus z standard errors, cut to 0..1"),
      specificity: estimate("proportion", "estimate plus or minus z standard errors, cut to 0..1"),
    }),
    v.description("delta method"),
  ),
  simulated: v.pipe(
    v.strictObject({
      sensitivity: estimate("proportion", "median and percentiles of the draws"),
      specificity: estimate("proportion", "median and percentiles of the draws"),
      prevalence: estimate("proportion", "median and percentiles of the draws"),
      undefinedDraws: count("draws for which the formula has no value, left out"),
      cutDraws: count("draws of which something left 0..1 and was cut"),
    }),
    v.description("draws of the table (Dirichlet, Jeffreys prior) and of the reference"),
  ),
  admissible: v.pipe(
    v.strictObject({
      referenceSensitivity: quantity(
        "proportion",
        "lowest sensitivity of the reference that the table allows",
      ),
      referenceSpecificity: quantity(
        "proportion",
        "lowest specificity of the reference that the table allows",
      ),
    }),
    v.description(
      "the worst reference under which no corrected number of people is negative, errors independent",
    ),
  ),
  correlation: v.pipe(
    v.strictObject({
      diseased: quantity("statistic", "correlation (phi) that the covariance means among the diseased"),
      nondiseased: quantity("statistic", "the same among the nondiseased"),
    }),
    v.description("the stated covariances as correlations, at the corrected values"),
  ),
});
export type CorrectedInput = v.InferOutput<typeof Input>;
export type CorrectedOptions = v.InferOutput<typeof Options>;
export type CorrectedValues = v.InferOutput<typeof Values>;

/**
 * Sensitivity and specificity of a kit, corrected for errors of the reference that are known from elsewhere.
 *
 * @param input   people by kit and reference result (not necessarily whole); the reference's accuracy as value,
 *   counts, beta or range; covariance of both results among people of the same truth
 * @param options level, interval, draws and seed
 * @returns proportions in 0..1. Where the formula leaves 0..1 the value is `null` with a note, and its limits
 *   tell what would still fit. All `null` with a note where the reference says nothing of the truth
 * @throws InputError where a part exceeds its whole or a range runs backwards
 * Behaves badly where the condition is about as rare as the reference's false positives, and wherever the
 * stated accuracy of the reference is a guess: look at `reference.tipping`.
 * Sources: staquet1981, gart1966, vacek1985
 */
export function correctForReference(
  input: CorrectedInput,
  options: CorrectedOptions,
): Finding<CorrectedValues> {
  const { counts, covariance } = input;
  const reference = {
    sensitivity: shareToDraw(
      input.reference.sensitivity,
      ["input", "reference", "sensitivity"],
      randomStream(options.seed, 4),
    ),
    specificity: shareToDraw(
      input.reference.specificity,
      ["input", "reference", "specificity"],
      randomStream(options.seed, 5),
    ),
  };
  const known = !reference.sensitivity.uncertain && !reference.specificity.uncertain;
  const automatic = known ? "likelihood" : "simulated";
  const interval = options.interval === "auto" ? automatic : options.interval;
  const worst = worstReference(counts);
  const start = {
    apparent: apparentOf(counts, options.level),
    interval,
    admissible: { referenceSensitivity: worst.sensitivity, referenceSpecificity: worst.specificity },
  };
  if (totalOf(counts) === 0) return { values: { ...start, ...NOTHING }, notes: emptyNotes() };
  const found = correctedAt(input, reference, covariance, { ...options, interval });
  const values = { ...start, ...found };
  return { values, notes: correctedNotes(values, { input, reference, known, interval }) };
}

const NO_BOTH = { sensitivity: NOT_ESTIMABLE, specificity: NOT_ESTIMABLE };
const NOTHING: Corrected = {
  corrected: NO_BOTH,
  prevalence: NOT_ESTIMABLE,
  formula: { sensitivity: null, specificity: null, prevalence: null },
  likelihood: NO_BOTH,
  delta: { sensitivityError: null, specificityError: null, ...NO_BOTH },
  simulated: { ...NO_BOTH, prevalence: NOT_ESTIMABLE, undefinedDraws: 0, cutDraws: 0 },
  correlation: { diseased: null, nondiseased: null },
};

export const referenceCorrected = defineMethod({
  id: "reference.corrected",
  version: 1,
  title: "Accuracy corrected for known errors of the reference",
  question: "What are the kit's sensitivity and specificity, if the reference itself errs as stated?",
  formula:
    "with shares a (both reactive), b (kit only), c (reference only), d (neither) and J = SeR + SpR - 1: prevalence p = (a + c + SpR - 1) / J; Se = (SpR a - (1 - SpR) b - k) / (J p); Sp = (SeR d - (1 - SeR) c - k) / (J (1 - p)); k = p cov+ + (1 - p) cov-, 0 if the errors are independent. Limits: profile likelihood of the multinomial table, delta method, or draws",
  caution:
    "the correction is only as good as what is stated of the reference, and errors are rarely independent: a reference and a kit that miss the same early infections share their errors, and the formula with independence then flatters the kit. With independent errors the kit's sensitivity hangs on the reference's specificity alone. A value beyond 0..1 says that what is stated can't all be true, or chance",
  sources: ["staquet1981", "gart1966", "vacek1985", "owen1988"],
  input: Input,
  options: Options,
  values: Values,
  run: correctForReference,
  examples: correctedExamples,
});
