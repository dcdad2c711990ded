import * as v from "valibot";
import type { Estimate } from "../../core/estimate.ts";
import { estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { pairedCounts, pairedMethod } from "./fields.ts";
import { mcNemar } from "./mcnemar.ts";
import { type PairedCounts, peopleOf } from "./paired-counts.ts";
import { pairedDifference } from "./paired-difference.ts";
import { pairedExamples } from "./paired-examples.ts";

const Input = v.strictObject(pairedCounts);
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  differenceInterval: pairedMethod(),
});
const Values = v.strictObject({
  first: proportionEstimate("reactive on the first"),
  second: proportionEstimate("reactive on the second"),
  discordant: quantity("people", "people with different results"),
  difference: estimate("proportion", "first minus second proportion"),
  ratio: estimate("ratio", "first over second proportion, normal on the log scale"),
  mcNemar: v.pipe(
    v.strictObject({
      chiSquare: quantity("statistic", "McNemar's chi-square, 1 degree of freedom"),
      asymptotic: quantity("probability", "its p-value"),
      correctedChiSquare: quantity("statistic", "the same with continuity correction"),
      corrected: quantity("probability", "its p-value"),
      exact: quantity("probability", "exact two-sided p-value given the number of discordant people"),
      midP: quantity("probability", "the exact p-value less half the probability of the result seen"),
    }),
    v.description("tests of no difference"),
  ),
});
export type PairedInput = v.InferOutput<typeof Input>;
export type PairedOptions = v.InferOutput<typeof Options>;
export type PairedValues = v.InferOutput<typeof Values>;

/**
 * Two kits, or two specimen types, on the same people of one reference status: do they differ?
 *
 * Among the reference-positive the proportions are the two sensitivities, among the reference-negative
 * 1 - specificity; never mix the two.
 *
 * @param counts  people by both results; each person counts once
 * @param options interval of the difference (`tango`, `newcombe`, `wald`) and of the single proportions
 * @returns `null` with a note: nobody observed (`no_observations`), a ratio without an answer
 *   (`unbounded`, `not_estimable`, `no_log_interval`). Nobody discordant: p = 1 and the note
 *   `no_discordance`
 * Sources: mcnemar1947, tango1998, newcombe1998paired, cheng1997
 */
export function comparePaired(counts: PairedInput, options: PairedOptions): Finding<PairedValues> {
  const people = peopleOf(counts);
  const { both, firstOnly, secondOnly } = counts;
  const ratio = pairedRatio(counts, options.level);
  const values: PairedValues = {
    first: estimateProportion(both + firstOnly, people, options),
    second: estimateProportion(both + secondOnly, people, options),
    discordant: firstOnly + secondOnly,
    difference: pairedDifference(counts, options.differenceInterval, options.level),
    ratio: ratio.estimate,
    mcNemar: people === 0 ? NO_TEST : mcNemar(firstOnly, secondOnly),
  };
  if (people === 0) {
    const paths = ["first", "second", "difference", "ratio", "mcNemar"];
    return { values, notes: notesAt("no_observations", paths, "nobody was observed") };
  }
  return { values, notes: [...agreementNotes(counts, options), ...ratio.notes] };
}

const NO_TEST: PairedValues["mcNemar"] = {
  chiSquare: null,
  asymptotic: null,
  correctedChiSquare: null,
  corrected: null,
  exact: null,
  midP: null,
};

function agreementNotes({ firstOnly, secondOnly }: PairedCounts, options: PairedOptions): Note[] {
  if (firstOnly + secondOnly > 0) return [];
  const message =
    "both results agree in everybody: nothing speaks for a difference, p is 1. As when something is compared with itself";
  const notes = [note("no_discordance", "mcNemar", message)];
  if (options.differenceInterval === "wald") {
    const narrow = "nobody is discordant: Wald's interval has no width, take tango or newcombe";
    notes.push(note("no_width", "difference", narrow));
  }
  return notes;
}

/**
 * Ratio of the two proportions, limits exp(log ratio +- z sqrt(discordant / (first second))), both being
 * counts of reactive people. Source: cheng1997
 */
function pairedRatio(counts: PairedCounts, wanted: number): { estimate: Estimate; notes: Note[] } {
  const first = counts.both + counts.firstOnly;
  const second = counts.both + counts.secondOnly;
  if (second === 0) {
    const [code, message] =
      first === 0
        ? ["not_estimable", "nobody was reactive on either: 0 divided by 0"]
        : ["unbounded", "nobody was reactive on the second: the ratio is infinite"];
    return { estimate: { value: null, lower: null, upper: null }, notes: [note(code, "ratio", message)] };
  }
  const value = first / second;
  const discordant = counts.firstOnly + counts.secondOnly;
  if (first === 0 || discordant === 0) {
    const message =
      first === 0
        ? "nobody was reactive on the first: the log interval has no answer, read the difference"
        : "nobody is discordant: the log interval has no width, read the difference";
    const notes = notesAt("no_log_interval", ["ratio.lower", "ratio.upper"], message);
    return { estimate: { value, lower: null, upper: null }, notes };
  }
  const z = normalQuantile((1 - wanted) / 2, "upper");
  const factor = Math.exp(z * Math.sqrt(discordant / first / second));
  return { estimate: { value, lower: value / factor, upper: value * factor }, notes: [] };
}

export const paired = defineMethod({
  id: "comparison.paired",
  version: 1,
  title: "Two kits on the same people",
  question: "Do two kits, or two specimen types, differ on the same people?",
  formula:
    "b, c: reactive on the first only, on the second only; n people. difference = (b - c) / n; chi-square = (b - c)² / (b + c), corrected (|b - c| - 1)² / (b + c); exact p = 2 P(X <= min(b, c) | b + c, 1/2), at most 1; mid-P = exact p less P(X = min(b, c)). Tango: all d with |b - c - n d| <= z sqrt(n (2 q + d (1 - d))), q the most likely P(second only) given d. Ratio: exp(log((a + b) / (a + c)) ± z sqrt((b + c) / ((a + b)(a + c))))",
  caution:
    "for people of one reference status: compare sensitivities among the reference-positive and specificities among the reference-negative, apart. Only discordant people inform the test; a large p with few of them shows nothing. Both results must come from the same person at the same time",
  sources: [
    "mcnemar1947",
    "edwards1948",
    "fagerland2013",
    "tango1998",
    "newcombe1998paired",
    "cheng1997",
    "agresti2002",
  ],
  input: Input,
  options: Options,
  values: Values,
  run: comparePaired,
  examples: pairedExamples,
});
