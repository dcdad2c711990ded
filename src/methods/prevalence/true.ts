import * as v from "valibot";
import type { Estimate } from "../../core/estimate.ts";
import {
  choice,
  count,
  draws,
  estimate,
  level,
  proportion,
  proportionEstimate,
  quantity,
  seed,
} from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { type Accuracy, deltaError, langReiczigel, roganGladen, type Survey } from "./corrected.ts";
import { drawnPrevalence } from "./drawn-prevalence.ts";
import { asKnown, cutTo, deltaInterval, type Estimated, unknownEstimate } from "./intervals.ts";
import { trueExamples } from "./true-examples.ts";
import { notesOn } from "./true-notes.ts";

const Known = v.strictObject({ value: proportion("known value") });
const Counted = v.strictObject({
  count: count("right results"),
  total: count("people of that kind it was estimated from"),
});
const accuracy = (meaning: string) =>
  v.pipe(
    v.union([Known, Counted], "expected a value, or count and total"),
    v.description(`${meaning}: a known value, or the counts of the study that estimated it`),
  );
const Input = v.strictObject({
  count: count("reactive people of the survey"),
  total: count("people of the survey"),
  sensitivity: accuracy("sensitivity"),
  specificity: accuracy("specificity"),
});
const INTERVALS = ["auto", "exact", "blaker", "wilson", "delta", "lang_reiczigel", "simulated"] as const;
const Options = v.strictObject({
  level: level(),
  interval: v.optional(
    choice(
      INTERVALS,
      "interval of the prevalence; auto: exact if both accuracies are known, else Lang and Reiczigel",
    ),
    "auto",
  ),
  truncate: v.optional(v.pipe(v.boolean(), v.description("cut estimate and limits to 0..1")), true),
  draws: draws("number of random draws", 20_000, 5_000_000),
  seed: seed(1),
});
const Values = v.strictObject({
  apparent: proportionEstimate("reactive people, as seen"),
  prevalence: estimate("proportion", "true prevalence with the interval chosen"),
  interval: choice(INTERVALS, "interval of the prevalence"),
  roganGladen: quantity("proportion", "true prevalence by the formula, which may leave 0..1"),
  treatedAsKnown: v.pipe(
    v.strictObject({
      standardError: quantity("proportion", "standard error if sensitivity and specificity were known"),
      exact: estimate("proportion", "from the exact limits of the apparent prevalence"),
      blaker: estimate("proportion", "from Blaker's exact limits"),
      wilson: estimate("proportion", "from the score limits"),
    }),
    v.description("as if sensitivity and specificity were known: too narrow where they are estimated"),
  ),
  delta: v.pipe(
    v.strictObject({
      standardError: quantity("proportion", "standard error with all that is estimated"),
      interval: estimate("proportion", "estimate plus or minus z standard errors"),
    }),
    v.description("delta method"),
  ),
  langReiczigel: v.pipe(
    v.strictObject({
      centre: quantity("proportion", "prevalence from proportions drawn towards 1/2"),
      shift: quantity("proportion", "shift of the interval"),
      interval: estimate("proportion", "adjusted interval"),
    }),
    v.description("interval of Lang and Reiczigel"),
  ),
  simulated: v.pipe(
    v.strictObject({
      interval: estimate("proportion", "median and percentiles of the draws"),
      lowerError: quantity("proportion", "standard error of the lower limit from the number of draws"),
      upperError: quantity("proportion", "the same of the upper limit"),
      undefinedDraws: count("draws that say nothing: sensitivity + specificity of 1 or less"),
    }),
    v.description("draws from the posteriors of all that is estimated, Jeffreys prior"),
  ),
});
export type TruePrevalenceInput = v.InferOutput<typeof Input>;
export type TruePrevalenceOptions = v.InferOutput<typeof Options>;
export type TruePrevalenceValues = v.InferOutput<typeof Values>;

/**
 * The true prevalence behind the apparent one, the test's sensitivity and specificity being known or
 * estimated.
 *
 * @param input   counts of the survey; each accuracy as a value or as the counts of its own study
 * @param options interval that the prevalence carries; draws and seed of the simulated one
 * @returns proportions in 0..1, cut with a note unless `truncate` is false. `null` with a note where
 *   sensitivity + specificity is 1 or less (the test tells nothing), or nothing was observed
 * Behaves badly where sensitivity + specificity is little above 1.
 * Sources: rogan1978, reiczigel2010, lang2014
 */
export function truePrevalence(
  input: TruePrevalenceInput,
  options: TruePrevalenceOptions,
): Finding<TruePrevalenceValues> {
  if (input.count > input.total) {
    throw new InputError(["input", "count"], `at most the total, ${input.total}`, input.count);
  }
  const sensitivity = accuracyOf(input.sensitivity, "sensitivity");
  const specificity = accuracyOf(input.specificity, "specificity");
  const apparent = estimateProportion(input.count, input.total, { level: options.level });
  const known = sensitivity?.people === null && specificity?.people === null;
  const automatic = known ? "exact" : "lang_reiczigel";
  const interval = options.interval === "auto" ? automatic : options.interval;
  const informative =
    sensitivity !== null && specificity !== null && sensitivity.value + specificity.value > 1;
  const survey =
    informative && input.total > 0
      ? { count: input.count, total: input.total, sensitivity, specificity }
      : null;
  const estimated = survey === null ? unknownEstimate() : estimatedFrom(survey, options);
  const chosen = chosenOf(estimated, interval);
  const point = estimated.roganGladen;
  const prevalence = { ...cutTo(chosen, options.truncate), value: cutPoint(point, options.truncate) };
  const values: TruePrevalenceValues = {
    apparent,
    prevalence,
    interval,
    ...cutAll(estimated, options.truncate),
  };
  return { values, notes: notesOn({ sensitivity, specificity, estimated, chosen, values, known }) };
}

function accuracyOf(given: TruePrevalenceInput["sensitivity"], name: string): Accuracy | null {
  if ("value" in given) return { value: given.value, people: null };
  if (given.count > given.total) {
    throw new InputError(["input", name, "count"], `at most the total, ${given.total}`, given.count);
  }
  return given.total === 0 ? null : { value: given.count / given.total, people: given.total };
}

function estimatedFrom(survey: Survey, options: TruePrevalenceOptions): Estimated {
  const { sensitivity, specificity } = survey;
  const point = roganGladen(survey.count / survey.total, sensitivity.value, specificity.value);
  const adjusted = langReiczigel(survey, options.level);
  const { summary, undefinedDraws } = drawnPrevalence(survey, options.draws, options.seed, options.level);
  const none: Estimate = { value: null, lower: null, upper: null };
  const standardError = deltaError(survey);
  return {
    roganGladen: point,
    treatedAsKnown: asKnown(survey, point, options.level),
    delta: { standardError, interval: deltaInterval(point, standardError, options.level) },
    langReiczigel: adjusted ?? { centre: null, shift: null, interval: none },
    simulated: {
      interval:
        summary === null
          ? none
          : { value: summary.median.value, lower: summary.lower.value, upper: summary.upper.value },
      lowerError: summary?.lower.error ?? null,
      upperError: summary?.upper.error ?? null,
      undefinedDraws,
    },
  };
}

function chosenOf(estimated: Estimated, interval: TruePrevalenceValues["interval"]): Estimate {
  if (interval === "delta") return estimated.delta.interval;
  if (interval === "lang_reiczigel") return estimated.langReiczigel.interval;
  if (interval === "simulated") return estimated.simulated.interval;
  return estimated.treatedAsKnown[interval === "auto" ? "exact" : interval];
}

function cutPoint(value: number | null, truncate: boolean): number | null {
  return value === null || !truncate ? value : Math.min(1, Math.max(0, value));
}

/** All limits cut to 0..1 where that is asked for; the raw estimate stays as the formula gives it. */
function cutAll(estimated: Estimated, truncate: boolean): Estimated {
  const { treatedAsKnown, delta, langReiczigel: adjusted } = estimated;
  return {
    ...estimated,
    treatedAsKnown: {
      ...treatedAsKnown,
      exact: cutTo(treatedAsKnown.exact, truncate),
      blaker: cutTo(treatedAsKnown.blaker, truncate),
      wilson: cutTo(treatedAsKnown.wilson, truncate),
    },
    delta: { ...delta, interval: cutTo(delta.interval, truncate) },
    langReiczigel: { ...adjusted, interval: cutTo(adjusted.interval, truncate) },
  };
}

export const prevalenceTrue = defineMethod({
  id: "prevalence.true",
  version: 1,
  title: "True prevalence from an imperfect test",
  question: "How many people truly have the condition, when the test errs?",
  formula:
    "true = (apparent + Sp - 1) / (Se + Sp - 1). Known accuracies: the same of the limits of the apparent prevalence. Delta: variance = [p (1 - p) / n + true² Se (1 - Se) / nSe + (1 - true)² Sp (1 - Sp) / nSp] / (Se + Sp - 1)². Lang and Reiczigel: the same with p from z² more people and Se, Sp from two more, half of them counted, shifted by 2 z² (true Se (1 - Se) / nSe - (1 - true) Sp (1 - Sp) / nSp)",
  caution:
    "accuracies must hold for the people surveyed: same specimen, readers, spectrum. An interval that takes estimated accuracies as known is far too narrow. At a low prevalence everything hangs on the specificity; an estimate below 0 says that specificity is higher than stated, or chance",
  sources: ["rogan1978", "reiczigel2010", "lang2014"],
  input: Input,
  options: Options,
  values: Values,
  run: truePrevalence,
  examples: trueExamples,
});
