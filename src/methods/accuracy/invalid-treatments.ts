import * as v from "valibot";
import { choice, count, level, proportionEstimate } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { fourCounts } from "./fields.ts";

export const INVALID_TREATMENTS = ["set_aside", "failure", "reactive", "nonreactive"] as const;
export type InvalidTreatment = (typeof INVALID_TREATMENTS)[number];

const Input = v.strictObject({
  ...fourCounts,
  invalidPositives: count("people: test invalid, reference positive"),
  invalidNegatives: count("people: test invalid, reference negative"),
});
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const Values = v.strictObject({
  treatments: v.pipe(
    v.array(
      v.strictObject({
        treatment: choice(INVALID_TREATMENTS, "what an invalid result counts as"),
        sensitivity: proportionEstimate("P(reactive | condition present) under this treatment"),
        specificity: proportionEstimate("P(non-reactive | condition absent) under this treatment"),
      }),
    ),
    v.description("four entries: set aside, failure (wrong for everybody), reactive, non-reactive"),
  ),
  yield: proportionEstimate("valid results among people tested"),
  invalidRate: proportionEstimate("invalid results among people tested"),
  invalidRatePositives: proportionEstimate("invalid results among the reference-positive"),
  invalidRateNegatives: proportionEstimate("invalid results among the reference-negative"),
});
export type InvalidTreatmentsInput = v.InferOutput<typeof Input>;
export type InvalidTreatmentsOptions = v.InferOutput<typeof Options>;
export type InvalidTreatmentsValues = v.InferOutput<typeof Values>;

/**
 * Sensitivity and specificity under four treatments of invalid results, side by side.
 *
 * @param counts six counts of people: each person's final result
 * @returns proportions in 0..1; `null` with a note where a treatment leaves nobody
 * Source: simel1987
 */
export function invalidTreatmentsOf(
  counts: InvalidTreatmentsInput,
  options: InvalidTreatmentsOptions,
): Finding<InvalidTreatmentsValues> {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const { invalidPositives, invalidNegatives } = counts;
  const share = (part: number, whole: number) => estimateProportion(part, whole, options);
  const validPositives = truePositives + falseNegatives;
  const validNegatives = trueNegatives + falsePositives;
  const positives = validPositives + invalidPositives;
  const negatives = validNegatives + invalidNegatives;
  const detected = share(truePositives, positives);
  const cleared = share(trueNegatives, negatives);
  const orDetected = share(truePositives + invalidPositives, positives);
  const orCleared = share(trueNegatives + invalidNegatives, negatives);
  const invalid = invalidPositives + invalidNegatives;
  const tested = positives + negatives;
  const values: InvalidTreatmentsValues = {
    treatments: [
      {
        treatment: "set_aside",
        sensitivity: share(truePositives, validPositives),
        specificity: share(trueNegatives, validNegatives),
      },
      { treatment: "failure", sensitivity: detected, specificity: cleared },
      { treatment: "reactive", sensitivity: orDetected, specificity: cleared },
      { treatment: "nonreactive", sensitivity: detected, specificity: orCleared },
    ],
    yield: share(tested - invalid, tested),
    invalidRate: share(invalid, tested),
    invalidRatePositives: share(invalidPositives, positives),
    invalidRateNegatives: share(invalidNegatives, negatives),
  };
  return { values, notes: notesOn(validPositives, validNegatives, positives, negatives) };
}

function notesOn(
  validPositives: number,
  validNegatives: number,
  positives: number,
  negatives: number,
): Note[] {
  const notes: Note[] = [];
  const rows = [0, 1, 2, 3];
  if (positives === 0) {
    const paths = [...rows.map((row) => `treatments.${row}.sensitivity`), "invalidRatePositives"];
    notes.push(...notesAt("no_positives", paths, "nobody was reference-positive"));
  } else if (validPositives === 0) {
    const message = "every reference-positive person's result was invalid: nobody is left";
    notes.push(note("all_invalid", "treatments.0.sensitivity", message));
  }
  if (negatives === 0) {
    const paths = [...rows.map((row) => `treatments.${row}.specificity`), "invalidRateNegatives"];
    notes.push(...notesAt("no_negatives", paths, "nobody was reference-negative"));
  } else if (validNegatives === 0) {
    const message = "every reference-negative person's result was invalid: nobody is left";
    notes.push(note("all_invalid", "treatments.0.specificity", message));
  }
  if (positives + negatives === 0) {
    notes.push(...notesAt("no_observations", ["yield", "invalidRate"], "nobody was tested"));
  }
  return notes;
}

export const invalidTreatments = defineMethod({
  id: "accuracy.invalid_treatments",
  version: 1,
  title: "Invalid results under four treatments",
  question: "What do the invalid results do to sensitivity and specificity?",
  formula:
    "set aside: TP / (TP + FN), TN / (TN + FP); failure: TP / all reference-positive, TN / all reference-negative; reactive: (TP + invalid) / all reference-positive, TN / all reference-negative; non-reactive: TP / all reference-positive, (TN + invalid) / all reference-negative; yield = valid / tested",
  caution:
    "setting aside supposes that invalid results fall on people alike; failure is the worst case. An invalid test is not the same as an indeterminate reference, which is not counted here",
  sources: ["simel1987"],
  input: Input,
  options: Options,
  values: Values,
  run: invalidTreatmentsOf,
  examples: [
    {
      name: "7 invalid of 300",
      input: {
        truePositives: 88,
        falsePositives: 6,
        falseNegatives: 9,
        trueNegatives: 190,
        invalidPositives: 3,
        invalidNegatives: 4,
      },
      options: { method: "wilson" },
      expect: {
        "treatments.0.sensitivity.value": 0.907216494845361,
        "treatments.0.specificity.value": 0.969387755102041,
        "treatments.1.sensitivity.value": 0.88,
        "treatments.1.specificity.value": 0.95,
        "treatments.2.sensitivity.value": 0.91,
        "treatments.2.specificity.value": 0.95,
        "treatments.3.sensitivity.value": 0.88,
        "treatments.3.specificity.value": 0.97,
        "yield.value": 0.976666666666667,
        "invalidRate.lower": 0.0113476602991252,
        "invalidRate.upper": 0.0473719722682753,
      },
      tolerance: { relative: 1e-8 },
      source: "simel1987",
      recomputedBy: "R 4.2.2: closed forms",
      memory: true,
    },
    {
      name: "nobody reference-negative",
      input: {
        truePositives: 5,
        falsePositives: 0,
        falseNegatives: 0,
        trueNegatives: 0,
        invalidPositives: 1,
        invalidNegatives: 0,
      },
      expect: { "treatments.0.specificity.value": null, "treatments.1.sensitivity.count": 5 },
      tolerance: { relative: 1e-8 },
      source: "no publication: by definition",
    },
  ],
});
