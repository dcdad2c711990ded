import * as v from "valibot";
import type { ProportionEstimate } from "../../core/estimate.ts";
import { level, proportionEstimate } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion, type IntervalSettings } from "../proportion/proportion-interval.ts";
import { pairCounts } from "./fields.ts";

const Input = v.strictObject(pairCounts);
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const Values = v.strictObject({
  positivePercentAgreement: proportionEstimate("first reactive, of the items the second calls reactive"),
  negativePercentAgreement: proportionEstimate("first non-reactive, of those the second calls non-reactive"),
  overallAgreement: proportionEstimate("items on which the two agree, of all"),
  disagreement: proportionEstimate("items on which the two differ, of all: between-reader variability"),
  positiveSpecificAgreement: proportionEstimate(
    "reactive calls that the other shares, of all reactive calls of both",
  ),
  negativeSpecificAgreement: proportionEstimate(
    "non-reactive calls that the other shares, of all non-reactive calls of both",
  ),
});
export type PercentAgreementInput = v.InferOutput<typeof Input>;
export type PercentAgreementOptions = v.InferOutput<typeof Options>;
export type PercentAgreementValues = v.InferOutput<typeof Values>;

/**
 * How often two readers, two tests, or eye and instrument agree.
 *
 * Positive and negative percent agreement take the second as comparator: of those it calls reactive, how
 * many does the first? They are computed as sensitivity and specificity are, yet must never bear those
 * names: the comparator may err itself, so that a disagreement does not say who was wrong, and two tests
 * that share their errors agree well and are both poor. They change when first and second change places.
 * The specific agreements (Cicchetti and Feinstein) do not: use them where neither is the comparator, as
 * between two readers.
 *
 * Overall agreement depends on prevalence: where nearly everybody is non-reactive, two readers who never
 * agree on a reactive item still agree on nearly all items. Never give it alone.
 *
 * The interval of a specific agreement: given the items on which at least one says reactive, the number
 * on which both do is binomial; the limits p of that proportion become 2p / (1 + p). So the coverage is
 * that of the interval of a proportion.
 *
 * @param counts  four counts of items (one per person or device), invalid readings left out
 * @param options interval of proportions, level
 * @returns proportions in 0..1; `null` with a note where the denominator is 0. The counts of a specific
 *   agreement are calls, two for each item
 * Sources: fda2007, cicchetti1990
 */
export function percentAgreement(
  counts: PercentAgreementInput,
  options: PercentAgreementOptions,
): Finding<PercentAgreementValues> {
  const { bothReactive, firstOnly, secondOnly, bothNonreactive } = counts;
  const differ = firstOnly + secondOnly;
  const agree = bothReactive + bothNonreactive;
  const values: PercentAgreementValues = {
    positivePercentAgreement: estimateProportion(bothReactive, bothReactive + secondOnly, options),
    negativePercentAgreement: estimateProportion(bothNonreactive, bothNonreactive + firstOnly, options),
    overallAgreement: estimateProportion(agree, agree + differ, options),
    disagreement: estimateProportion(differ, agree + differ, options),
    positiveSpecificAgreement: specificAgreement(bothReactive, differ, options),
    negativeSpecificAgreement: specificAgreement(bothNonreactive, differ, options),
  };
  return { values, notes: notesOn(values, options) };
}

/** Twice the shared calls, of all calls of this kind, with the transformed limits of shared of (shared + differ). */
function specificAgreement(shared: number, differ: number, settings: IntervalSettings): ProportionEstimate {
  const count = 2 * shared;
  const total = count + differ;
  const { value, lower, upper } = estimateProportion(shared, shared + differ, settings);
  if (value === null || lower === null || upper === null) {
    return { count, total, value: null, lower: null, upper: null };
  }
  return { count, total, value: count / total, lower: doubled(lower), upper: doubled(upper) };
}

/** From a share of items to the share of calls. */
function doubled(share: number): number {
  return (2 * share) / (1 + share);
}

function notesOn(values: PercentAgreementValues, options: PercentAgreementOptions): Note[] {
  const reasons: Readonly<Record<keyof PercentAgreementValues, string>> = {
    positivePercentAgreement: "the second called nothing reactive",
    negativePercentAgreement: "the second called nothing non-reactive",
    overallAgreement: "nothing was observed",
    disagreement: "nothing was observed",
    positiveSpecificAgreement: "neither called anything reactive",
    negativeSpecificAgreement: "neither called anything non-reactive",
  };
  const notes: Note[] = [];
  for (const [path, reason] of Object.entries(reasons)) {
    const found = values[path as keyof PercentAgreementValues];
    if (found.value === null) notes.push(note("no_observations", path, `${reason}: it can't be estimated`));
    else if (options.method === "wald" && found.lower === found.upper) {
      notes.push(...notesAt("no_width", [path], "no width here, which does not mean certainty"));
    }
  }
  return notes;
}

const R = "R 4.2.2: qbeta and the score formula with qnorm";
const COMPARATOR = { bothReactive: 40, firstOnly: 5, secondOnly: 4, bothNonreactive: 171 };

export const percent = defineMethod({
  id: "agreement.percent",
  version: 1,
  title: "Percent agreement of two readers or tests",
  question: "How often do two readers, two tests, or eye and instrument agree?",
  formula:
    "with a both reactive, b first only, c second only, d both non-reactive: positive percent agreement = a / (a + c); negative = d / (d + b); overall = (a + d) / n; positive specific agreement = 2a / (2a + b + c); negative = 2d / (2d + b + c). Limits of a specific agreement: 2p / (1 + p) at the limits p of a / (a + b + c)",
  caution:
    "not sensitivity and specificity: the comparator may be wrong too. The percent agreements are not symmetric. Overall agreement depends on prevalence and says little alone",
  sources: ["fda2007", "cicchetti1990", "clopper1934", "wilson1927"],
  input: Input,
  options: Options,
  values: Values,
  run: percentAgreement,
  examples: [
    {
      name: "220 people, new test against another that is no reference standard",
      input: COMPARATOR,
      options: { method: "wilson" },
      expect: {
        "positivePercentAgreement.value": 0.909090909090909,
        "positivePercentAgreement.lower": 0.788407608334014,
        "positivePercentAgreement.upper": 0.964077806772684,
        "negativePercentAgreement.value": 0.971590909090909,
        "negativePercentAgreement.lower": 0.93522963874543,
        "negativePercentAgreement.upper": 0.987805578431637,
        "overallAgreement.value": 0.959090909090909,
        "overallAgreement.lower": 0.924093673997317,
        "overallAgreement.upper": 0.978330752041695,
      },
      tolerance: { relative: 1e-8 },
      source: "fda2007",
      recomputedBy: R,
      memory: true,
    },
    {
      name: "the same, to the digits recalled of the guidance",
      input: COMPARATOR,
      options: { method: "wilson" },
      expect: {
        "positivePercentAgreement.value": 0.909,
        "negativePercentAgreement.value": 0.972,
        "overallAgreement.value": 0.959,
        "overallAgreement.lower": 0.924,
        "overallAgreement.upper": 0.978,
      },
      tolerance: { decimals: 3 },
      source: "fda2007",
      memory: true,
    },
    {
      name: "two readers at low prevalence: 98 % agree on all, 56 % on reactive",
      input: { bothReactive: 5, firstOnly: 4, secondOnly: 4, bothNonreactive: 387 },
      expect: {
        "overallAgreement.value": 0.98,
        "positiveSpecificAgreement.value": 10 / 18,
        "negativeSpecificAgreement.value": 774 / 782,
      },
      tolerance: { relative: 1e-12 },
      source: "no publication: by definition",
    },
  ],
});
