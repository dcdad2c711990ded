import * as v from "valibot";
import type { Estimate } from "../../core/estimate.ts";
import { count, estimate, level, proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { requireParts, studyCounts } from "./fields.ts";

const Input = v.strictObject({
  ...studyCounts,
  prevalence: proportion("prevalence where the test is to be used"),
  tested: count("people to be tested"),
});
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const Expected = {
  truePositives: "reactive people with the condition",
  falseNegatives: "missed: non-reactive people with the condition",
  falsePositives: "reactive people without the condition",
  trueNegatives: "non-reactive people without the condition",
  reactive: "reactive people",
  nonreactive: "non-reactive people",
} as const;
const Values = v.strictObject({
  withCondition: quantity("people", "people with the condition among those tested"),
  withoutCondition: quantity("people", "people without the condition among those tested"),
  truePositives: estimate("people", Expected.truePositives),
  falseNegatives: estimate("people", Expected.falseNegatives),
  falsePositives: estimate("people", Expected.falsePositives),
  trueNegatives: estimate("people", Expected.trueNegatives),
  reactive: estimate("people", Expected.reactive),
  nonreactive: estimate("people", Expected.nonreactive),
  rounded: v.pipe(
    v.nullable(
      v.strictObject({
        withCondition: count("people with the condition"),
        withoutCondition: count("people without the condition"),
        truePositives: count(Expected.truePositives),
        falseNegatives: count(Expected.falseNegatives),
        falsePositives: count(Expected.falsePositives),
        trueNegatives: count(Expected.trueNegatives),
        reactive: count(Expected.reactive),
        nonreactive: count(Expected.nonreactive),
      }),
    ),
    v.description("whole people for display: every sum adds up"),
  ),
});
export type ExpectedCountsInput = v.InferOutput<typeof Input>;
export type ExpectedCountsOptions = v.InferOutput<typeof Options>;
export type ExpectedCountsValues = v.InferOutput<typeof Values>;

/**
 * What to expect among so many people tested at a prevalence: right and false results of both kinds.
 *
 * Limits come from those of sensitivity and specificity; those of the sums (reactive, non-reactive)
 * by square and add of the two.
 *
 * @param input   the study's counts of people, prevalence in 0..1 taken as known, people to be tested
 * @returns people, not rounded; beside them whole numbers that add up; `null` with a note where the
 *   study has nobody of a kind
 * Source: zou2008 for the limits of a sum
 */
export function expectedCountsOf(
  input: ExpectedCountsInput,
  options: ExpectedCountsOptions,
): Finding<ExpectedCountsValues> {
  requireParts(input);
  if (!Number.isSafeInteger(input.tested)) throw new InputError(["input", "tested"], "a count", input.tested);
  const withCondition = input.tested * input.prevalence;
  const withoutCondition = input.tested - withCondition;
  const sensitivity = estimateProportion(input.truePositives, input.positives, options);
  const specificity = estimateProportion(input.trueNegatives, input.negatives, options);
  const truePositives = scaled(sensitivity, withCondition);
  const trueNegatives = scaled(specificity, withoutCondition);
  const falseNegatives = scaled(mirrored(sensitivity), withCondition);
  const falsePositives = scaled(mirrored(specificity), withoutCondition);
  const values = {
    withCondition,
    withoutCondition,
    truePositives,
    falseNegatives,
    falsePositives,
    trueNegatives,
    reactive: added(truePositives, falsePositives),
    nonreactive: added(trueNegatives, falseNegatives),
    rounded: roundedCounts(input.tested, withCondition, truePositives.value, falsePositives.value),
  };
  return { values, notes: notesOn(input) };
}

function mirrored({ value, lower, upper }: Estimate): Estimate {
  if (value === null || lower === null || upper === null) return { value: null, lower: null, upper: null };
  return { value: 1 - value, lower: 1 - upper, upper: 1 - lower };
}

function scaled({ value, lower, upper }: Estimate, people: number): Estimate {
  const times = (share: number | null) => (share === null ? null : share * people);
  return { value: times(value), lower: times(lower), upper: times(upper) };
}

/** Sum of two independent estimates: the distances to their limits add as squares. */
function added(one: Estimate, other: Estimate): Estimate {
  if (one.value === null || other.value === null) return { value: null, lower: null, upper: null };
  const value = one.value + other.value;
  const below = Math.hypot(one.value - (one.lower ?? 0), other.value - (other.lower ?? 0));
  const above = Math.hypot((one.upper ?? 0) - one.value, (other.upper ?? 0) - other.value);
  return { value, lower: value - below, upper: value + above };
}

/** Rounds three numbers and takes the others as differences, so that all sums hold. */
function roundedCounts(
  tested: number,
  withCondition: number,
  truePositives: number | null,
  falsePositives: number | null,
): ExpectedCountsValues["rounded"] {
  if (truePositives === null || falsePositives === null) return null;
  const present = Math.round(withCondition);
  const absent = tested - present;
  const right = Math.min(present, Math.round(truePositives));
  const wrong = Math.min(absent, Math.round(falsePositives));
  return {
    withCondition: present,
    withoutCondition: absent,
    truePositives: right,
    falseNegatives: present - right,
    falsePositives: wrong,
    trueNegatives: absent - wrong,
    reactive: right + wrong,
    nonreactive: tested - right - wrong,
  };
}

function notesOn({ positives, negatives }: ExpectedCountsInput): Note[] {
  const paths = [
    ...(positives === 0 ? ["truePositives", "falseNegatives"] : []),
    ...(negatives === 0 ? ["falsePositives", "trueNegatives"] : []),
    ...(positives === 0 || negatives === 0 ? ["reactive", "nonreactive", "rounded"] : []),
  ];
  return paths.map((path) => note("no_observations", path, "the study has nobody of one reference status"));
}

export const expectedCounts = defineMethod({
  id: "predictive.expected_counts",
  version: 1,
  title: "Expected results in a programme",
  question: "Of so many people tested, how many results will be reactive, false, or missed?",
  formula:
    "TP = N p Se; FN = N p (1 - Se); FP = N (1 - p)(1 - Sp); TN = N (1 - p) Sp; limits from those of Se and Sp; of a sum: sum ± sqrt(distance² + distance²)",
  caution:
    "the limits tell how well sensitivity and specificity are known, not the chance among the people tested nor the uncertainty of the prevalence",
  sources: ["zou2008", "altman1994"],
  input: Input,
  options: Options,
  values: Values,
  run: expectedCountsOf,
  examples: [
    {
      name: "liver scan in 1,000 people at a quarter",
      input: {
        truePositives: 231,
        positives: 258,
        trueNegatives: 54,
        negatives: 86,
        prevalence: 0.25,
        tested: 1000,
      },
      expect: {
        "truePositives.value": 223.837209302326,
        "truePositives.lower": 212.849416476803,
        "truePositives.upper": 232.473355106911,
        "falsePositives.value": 279.06976744186,
        "reactive.value": 502.906976744186,
        "rounded.truePositives": 224,
        "rounded.falseNegatives": 26,
        "rounded.falsePositives": 279,
        "rounded.reactive": 503,
      },
      tolerance: { relative: 1e-8 },
      source: "altman1994",
      recomputedBy: "R 4.2.2: 250 times qbeta limits",
      memory: true,
    },
    {
      name: "100,000 people at 5 %, 99 % and 98 %: 1,900 false positives",
      input: {
        truePositives: 99,
        positives: 100,
        trueNegatives: 98,
        negatives: 100,
        prevalence: 0.05,
        tested: 100_000,
      },
      expect: {
        "truePositives.value": 4950,
        "falsePositives.value": 1900,
        "reactive.value": 6850,
        "rounded.nonreactive": 93150,
      },
      tolerance: { relative: 1e-9 },
      source: "no publication: 100,000 × .05 × .99 and 100,000 × .95 × .02",
    },
  ],
});
