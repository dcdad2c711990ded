import * as v from "valibot";
import { choice, openProportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import type { Chance, EnrolmentQuestion, Kind } from "./chance-at-prevalence.ts";
import { chanceFor, chanceOf } from "./enrolment-chance.ts";
import { enrolmentExamples } from "./enrolment-examples.ts";
import { EnrolmentFields, type EnrolmentInput } from "./enrolment-input.ts";
import { describePrevalence, shapeOf } from "./enrolment-prevalence.ts";
import { fewestThat } from "./fewest-that.ts";
import { whole } from "./fields.ts";
import { roundUp } from "./round-up.ts";

const Options = v.strictObject({
  assurances: v.optional(
    v.pipe(
      v.array(openProportion("a probability of enough people")),
      v.maxLength(10, "expected at most ten"),
      v.description("probabilities wanted of ending with enough, up to ten"),
    ),
    [0.8, 0.9, 0.95],
  ),
  horizon: v.optional(whole(1, 10_000_000, "most people looked at"), 10_000_000),
});
const Values = v.strictObject({
  usable: quantity(
    "proportion",
    "share of the people enrolled who give a usable pair, at the mean prevalence",
  ),
  usableOf: v.strictObject({
    positives: quantity("proportion", "the same among people with the condition"),
    negatives: quantity("proportion", "the same among people without it"),
  }),
  prevalence: v.pipe(
    v.strictObject({
      mean: quantity("proportion", "mean; of a range its middle"),
      lower: quantity("proportion", "below it lies 2.5 %; of a range its lower end"),
      upper: quantity("proportion", "above it lies 2.5 %; of a range its upper end"),
    }),
    v.description("the prevalence reckoned with"),
  ),
  naive: v.pipe(
    v.strictObject({
      total: quantity("people", "people to enrol if all went as on average"),
      fallsShort: quantity("probability", "probability that so many end with too few of either kind"),
    }),
    v.description("numbers needed, divided by the mean prevalence and the usable share"),
  ),
  targets: v.pipe(
    v.array(
      v.strictObject({
        assurance: quantity("probability", "probability wanted"),
        forPositives: quantity("people", "people to enrol for enough with the condition"),
        forNegatives: quantity("people", "people to enrol for enough without it"),
        total: quantity("people", "people to enrol for enough of both together"),
        limiting: v.nullable(
          choice(
            ["positives", "negatives", "both"],
            "which of the two asks for more; null if neither can be had",
          ),
        ),
      }),
    ),
    v.description("one entry per assurance, in the order given"),
  ),
});
export type EnrolmentOptions = v.InferOutput<typeof Options>;
export type EnrolmentValues = v.InferOutput<typeof Values>;

export type { EnrolmentInput };

/**
 * How many people to enrol so that, as probably as wanted, enough with and without the condition are left.
 *
 * Each person enrolled has the condition with the prevalence as probability, and gives a usable pair of results
 * or not, independently; the losses multiply. For a known prevalence the numbers left are multinomial. For an
 * uncertain one they are averaged over its beta distribution (an earlier survey: Jeffreys prior). For a range
 * each number is planned at its worst end, and so are both together.
 *
 * @param input   people needed of either kind, not both 0; prevalence; losses
 * @param options assurances, 0 < each < 1; how far to look
 * @returns whole people. `null` with a note where nobody of a kind can be had or the horizon is too near
 * Behaves badly where the survey was of other people than the study will enrol
 * Sources: buderer1996 for the plain division; flahault2005 for tables of the binomial form
 */
export function enrolmentSize(input: EnrolmentInput, options: EnrolmentOptions): Finding<EnrolmentValues> {
  const question = questionOf(input);
  const { usablePositives, usableNegatives } = question;
  const prevalence = describePrevalence(question.prevalence);
  const naiveTotal = naive(input, prevalence.mean, question);
  const tooFar = naiveTotal === null || naiveTotal > options.horizon;
  const values: EnrolmentValues = {
    usable: prevalence.mean * usablePositives + (1 - prevalence.mean) * usableNegatives,
    usableOf: { positives: usablePositives, negatives: usableNegatives },
    prevalence,
    naive: {
      total: naiveTotal,
      fallsShort: tooFar ? null : 1 - chanceFor("both", question, naiveTotal),
    },
    targets: options.assurances.map((assurance) => target(question, assurance, options.horizon, naiveTotal)),
  };
  return { values, notes: notesOn(values, question, options.horizon) };
}

/**
 * How probably so many enrolled are enough: for those with the condition, for those without it, and for both.
 * For a range of prevalences each at its worst end. Arguments as of the method.
 */
export function enrolmentChance(input: EnrolmentInput, total: number): Chance {
  if (!(Number.isSafeInteger(total) && total >= 0)) {
    throw new InputError(["total"], "a whole number, 0 or more", total);
  }
  return chanceOf(questionOf(input), total);
}

function questionOf({ positives, negatives, prevalence, losses }: EnrolmentInput): EnrolmentQuestion {
  if (positives + negatives === 0) {
    throw new InputError(["input", "positives"], "1 or more, where no negatives are needed", positives);
  }
  const kept = (1 - losses.invalid) * (1 - losses.lost);
  return {
    positives,
    negatives,
    prevalence: shapeOf(prevalence),
    usablePositives: kept * (1 - losses.unverified),
    usableNegatives: kept * (1 - (losses.unverifiedNegative ?? losses.unverified)),
  };
}

function naive(
  { positives, negatives }: EnrolmentInput,
  mean: number,
  { usablePositives, usableNegatives }: EnrolmentQuestion,
): number | null {
  const forPositives = positives === 0 ? 0 : positives / (mean * usablePositives);
  const forNegatives = negatives === 0 ? 0 : negatives / ((1 - mean) * usableNegatives);
  const larger = Math.max(forPositives, forNegatives);
  return larger <= Number.MAX_SAFE_INTEGER ? roundUp(larger) : null;
}

type Limiting = EnrolmentValues["targets"][number]["limiting"];

/** A probability this close below the one wanted, relatively, is the one wanted: it was rounded. */
const ROUNDED = 1e-12;

function target(question: EnrolmentQuestion, assurance: number, horizon: number, naiveTotal: number | null) {
  const fewest = (kind: Kind, guess: number) =>
    fewestThat((total) => chanceFor(kind, question, total) >= assurance * (1 - ROUNDED), guess, horizon);
  const start = Math.min(naiveTotal ?? horizon, horizon);
  const forPositives = fewest("positives", start);
  const forNegatives = fewest("negatives", start);
  const total =
    forPositives === null || forNegatives === null
      ? null
      : fewest("both", Math.max(forPositives, forNegatives));
  return { assurance, forPositives, forNegatives, total, limiting: limitingOf(forPositives, forNegatives) };
}

function limitingOf(forPositives: number | null, forNegatives: number | null): Limiting {
  if (forPositives === forNegatives) return forPositives === null ? null : "both";
  if (forPositives === null) return "positives";
  if (forNegatives === null) return "negatives";
  return forPositives > forNegatives ? "positives" : "negatives";
}

function notesOn(values: EnrolmentValues, question: EnrolmentQuestion, horizon: number): Note[] {
  const notes: Note[] = [];
  const people = horizon.toLocaleString("en-GB");
  const none = neverEnough(question);
  const message = none
    ? "nobody of a kind that is needed is ever left with a usable pair: change the prevalence or the losses"
    : `even ${people} people are not enough with this probability: enrol where the condition is commoner, need fewer, or look further`;
  const code = none ? "never_enough" : "beyond_horizon";
  for (const field of ["total", "fallsShort"] as const) {
    if (values.naive[field] === null) notes.push(note(code, `naive.${field}`, message));
  }
  for (const [at, entry] of values.targets.entries()) {
    for (const field of ["forPositives", "forNegatives", "total", "limiting"] as const) {
      if (entry[field] === null) notes.push(note(code, `targets.${at}.${field}`, message));
    }
  }
  return notes;
}

function neverEnough({
  positives,
  negatives,
  prevalence,
  usablePositives,
  usableNegatives,
}: EnrolmentQuestion) {
  const ends = prevalence.kind === "ends" ? prevalence : { low: 0.5, high: 0.5 };
  const noPositives = positives > 0 && ends.low * usablePositives === 0;
  return noPositives || (negatives > 0 && (1 - ends.high) * usableNegatives === 0);
}

export const planningEnrolment = defineMethod({
  id: "planning.enrolment",
  version: 1,
  title: "How many people to enrol",
  question:
    "How many people must be enrolled to end with enough who have the condition and enough who don't?",
  formula:
    "smallest N with P(X >= positives and Y >= negatives) >= assurance; for a prevalence p, (X, Y) multinomial among N with p × usable share and (1 - p) × usable share; usable share = (1 - invalid)(1 - lost)(1 - unverified); an uncertain p averaged over beta(positive + 1/2, total - positive + 1/2)",
  caution:
    "dividing the number needed by the prevalence leaves an even chance of ending short. An uncertain prevalence can ask for many times more than its mean does: then enrol until the number is reached, and plan for that. The losses are taken as the same for everyone of a kind",
  sources: ["buderer1996", "flahault2005"],
  input: EnrolmentFields,
  options: Options,
  values: Values,
  run: enrolmentSize,
  examples: enrolmentExamples,
});
