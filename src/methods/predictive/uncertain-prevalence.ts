import { randomBeta } from "d3-random";
import * as v from "valibot";
import type { Estimate } from "../../core/estimate.ts";
import { count, draws, estimate, level, openProportion, quantity, seed } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { randomStream } from "../../core/random.ts";
import { predictiveValues } from "./bayes.ts";
import { type BetaShape, betaFromInterval } from "./beta-from-interval.ts";
import { requireParts, studyCounts } from "./fields.ts";
import { type Simulated, simulated } from "./simulated.ts";

const Counted = v.strictObject({
  count: count("people with the condition in the survey of prevalence"),
  total: count("people in that survey"),
});
const Stated = v.strictObject({
  mean: openProportion("prevalence, best guess"),
  lower: openProportion("lower limit of the prevalence"),
  upper: openProportion("upper limit of the prevalence"),
  level: level(),
});
const Input = v.strictObject({
  ...studyCounts,
  prevalence: v.pipe(
    v.union([Counted, Stated], "expected count and total, or mean, lower and upper"),
    v.description("counts of a survey, or a best guess with its limits"),
  ),
});
const Options = v.strictObject({
  level: level(),
  target: v.optional(v.nullable(openProportion("a PPV wanted: its probability is then given")), null),
  draws: draws("number of random draws", 20_000, 5_000_000),
  seed: seed(1),
});
const Drawn = (meaning: string) =>
  v.strictObject({
    interval: estimate("proportion", `${meaning}: median and percentiles of the draws`),
    mean: quantity("proportion", `${meaning}: mean of the draws`),
    monteCarloError: v.pipe(
      v.strictObject({
        mean: quantity("proportion", "standard error of the mean from the finite number of draws"),
        median: quantity("proportion", "the same of the median"),
        lower: quantity("proportion", "the same of the lower limit"),
        upper: quantity("proportion", "the same of the upper limit"),
      }),
      v.description("what another seed would change"),
    ),
  });
const Values = v.strictObject({
  ppv: Drawn("P(condition present | reactive)"),
  npv: Drawn("P(condition absent | non-reactive)"),
  targetProbability: v.pipe(
    v.nullable(
      v.strictObject({
        value: quantity("probability", "probability that the PPV reaches the target"),
        monteCarloError: quantity("probability", "its standard error from the finite number of draws"),
      }),
    ),
    v.description("null unless a target was given"),
  ),
  draws: count("number of random draws"),
});
export type UncertainPrevalenceInput = v.InferOutput<typeof Input>;
export type UncertainPrevalenceOptions = v.InferOutput<typeof Options>;
export type UncertainPrevalenceValues = v.InferOutput<typeof Values>;

/**
 * Predictive values where the prevalence is itself uncertain: sensitivity, specificity and prevalence
 * are drawn at random from what is known of each, and Bayes' rule is applied to every draw.
 *
 * Sensitivity, specificity and a counted prevalence have Jeffreys posteriors; a stated prevalence is a
 * beta distribution with that mean and that probability between the limits.
 *
 * @returns medians with percentile intervals, and the Monte Carlo error of each. Same seed, same numbers
 * Source: brown2001 for the Jeffreys prior
 */
export function predictiveByDraws(
  input: UncertainPrevalenceInput,
  options: UncertainPrevalenceOptions,
): Finding<UncertainPrevalenceValues> {
  requireParts(input);
  const draw = drawers(input, options.seed);
  const ppv = new Float64Array(options.draws);
  const npv = new Float64Array(options.draws);
  let reached = 0;
  for (let index = 0; index < options.draws; index += 1) {
    const point = predictiveValues(draw.sensitivity(), draw.specificity(), draw.prevalence());
    ppv[index] = point.ppv ?? 1;
    npv[index] = point.npv ?? 1;
    if (options.target !== null && (point.ppv ?? 1) >= options.target) reached += 1;
  }
  const share = reached / options.draws;
  const targetProbability =
    options.target === null
      ? null
      : { value: share, monteCarloError: Math.sqrt((share * (1 - share)) / options.draws) };
  const values = {
    ppv: shaped(simulated(ppv, options.level)),
    npv: shaped(simulated(npv, options.level)),
    targetProbability,
    draws: options.draws,
  };
  return { values, notes: notesOn(input) };
}

function drawers(input: UncertainPrevalenceInput, seed: number) {
  const { truePositives, positives, trueNegatives, negatives } = input;
  const beta = ({ a, b }: BetaShape, task: number) => randomBeta.source(randomStream(seed, task))(a, b);
  return {
    sensitivity: beta(jeffreysPosterior(truePositives, positives), 0),
    specificity: beta(jeffreysPosterior(trueNegatives, negatives), 1),
    prevalence: beta(prevalenceShape(input.prevalence), 2),
  };
}

function jeffreysPosterior(seen: number, total: number): BetaShape {
  return { a: seen + 0.5, b: total - seen + 0.5 };
}

function prevalenceShape(prevalence: UncertainPrevalenceInput["prevalence"]): BetaShape {
  if ("mean" in prevalence) return betaFromInterval(prevalence);
  if (prevalence.count > prevalence.total) {
    const place = ["input", "prevalence", "count"];
    throw new InputError(place, `at most the total, ${prevalence.total}`, prevalence.count);
  }
  return jeffreysPosterior(prevalence.count, prevalence.total);
}

function shaped({ mean, median, lower, upper }: Simulated): UncertainPrevalenceValues["ppv"] {
  const interval: Estimate = { value: median.value, lower: lower.value, upper: upper.value };
  return {
    interval,
    mean: mean.value,
    monteCarloError: { mean: mean.error, median: median.error, lower: lower.error, upper: upper.error },
  };
}

function notesOn(input: UncertainPrevalenceInput): Note[] {
  const notes: Note[] = [];
  const { prevalence } = input;
  const empty: [boolean, string][] = [
    [input.positives === 0, "sensitivity"],
    [input.negatives === 0, "specificity"],
    [!("mean" in prevalence) && prevalence.total === 0, "prevalence"],
  ];
  for (const [holds, what] of empty) {
    if (!holds) continue;
    const message = `nothing is known of the ${what}: its prior, spread over 0 to 1, was drawn from`;
    notes.push(note("prior_only", "ppv", message), note("prior_only", "npv", message));
  }
  return notes;
}

const STUDY = { truePositives: 96, positives: 104, trueNegatives: 192, negatives: 196 };

export const uncertainPrevalence = defineMethod({
  id: "predictive.uncertain_prevalence",
  version: 1,
  title: "Predictive values at an uncertain prevalence",
  question: "How far can a result be trusted when the prevalence is not known exactly?",
  formula:
    "draw Se, Sp and a counted prevalence from beta(count + 1/2, total - count + 1/2), a stated prevalence from the beta distribution with its mean and limits; PPV and NPV by Bayes' rule for each draw; median and percentiles of the draws",
  caution:
    "numbers change a little with the seed: see the Monte Carlo error. The three quantities are drawn independently",
  sources: ["brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: predictiveByDraws,
  examples: [
    {
      name: "30 of 1,000 in a survey",
      input: { ...STUDY, prevalence: { count: 30, total: 1000 } },
      options: { target: 0.5 },
      expect: {
        "ppv.interval.value": 0.5736,
        "ppv.interval.lower": 0.3526,
        "ppv.interval.upper": 0.8123,
        "npv.interval.lower": 0.9951,
        "targetProbability.value": 0.7246,
      },
      tolerance: { decimals: 2 },
      source: "no publication: same draws elsewhere",
      recomputedBy: "R 4.2.2 rbeta, 4 million draws, seed 1; agreement to 0.01",
    },
    {
      name: "a prevalence all but known: near predictive.at_prevalence",
      input: {
        truePositives: 240,
        positives: 418,
        trueNegatives: 288,
        negatives: 375,
        prevalence: { mean: 0.03, lower: 0.0299, upper: 0.0301 },
      },
      expect: { "ppv.interval.lower": 0.0589, "ppv.interval.upper": 0.0856, "npv.interval.lower": 0.9809 },
      tolerance: { decimals: 2 },
      source: "mercaldo2007",
      recomputedBy: "R 4.2.2: delta method on the logit scale",
      memory: true,
    },
  ],
});
