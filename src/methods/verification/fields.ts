import * as v from "valibot";
import { count, estimate, proportionEstimate, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { requireDifferent } from "../algorithms/quantities.ts";

export const RESULTS = ["reactive", "nonreactive"] as const;
export type Result = (typeof RESULTS)[number];

export const MEASURES = ["sensitivity", "specificity", "prevalence", "ppv", "npv"] as const;
export type Measure = (typeof MEASURES)[number];

const MOST_PEOPLE = 1_000_000_000;

function people(meaning: string) {
  return v.pipe(
    count(meaning),
    v.maxValue(MOST_PEOPLE, `expected at most ${MOST_PEOPLE.toLocaleString("en-GB")}`),
    v.description(meaning),
  );
}

/** People with one test result, by what is known of their true state. */
export const stateCounts = {
  diseased: people("people verified, and found to have the condition"),
  nondiseased: people("people verified, and found not to have it"),
  unverified: people("people not verified"),
};

/** People by test result and by what is known of their true state. */
export const byResult = {
  reactive: v.pipe(v.strictObject(stateCounts), v.description("people with a reactive result")),
  nonreactive: v.pipe(v.strictObject(stateCounts), v.description("people with a nonreactive result")),
};

/** Groups within which who was verified does not depend on the true state, once the result is known. */
export const strataFields = {
  strata: v.pipe(
    v.array(v.strictObject({ label: text("name of the stratum"), ...byResult })),
    v.minLength(1, "expected one stratum or more"),
    v.maxLength(1000, "expected at most 1,000 strata"),
    v.description("one entry per stratum: people alike in what decides, besides the result, who is verified"),
  ),
};

export type StateCounts = v.InferOutput<typeof byResult.reactive>;
export interface Stratum {
  readonly label: string;
  readonly reactive: StateCounts;
  readonly nonreactive: StateCounts;
}

/** People of one stratum with one result. */
export interface Cell extends StateCounts {
  readonly label: string;
  readonly result: Result;
}

/** @throws InputError where two strata have one name, or nobody was tested */
export function cellsOf(strata: readonly Stratum[]): Cell[] {
  requireDifferent(
    strata.map(({ label }) => label),
    ["input", "strata"],
    "label",
  );
  const cells = strata.flatMap((stratum) =>
    RESULTS.map((result) => ({ label: stratum.label, result, ...stratum[result] })),
  );
  if (cells.every((cell) => peopleIn(cell) === 0)) {
    throw new InputError(["input", "strata"], "at least one person", 0);
  }
  return cells;
}

export function verifiedIn({ diseased, nondiseased }: StateCounts): number {
  return diseased + nondiseased;
}

export function peopleIn(cell: StateCounts): number {
  return verifiedIn(cell) + cell.unverified;
}

/** The people with one result, all strata together. */
export function pooled(cells: readonly Cell[], result: Result): StateCounts {
  const sum = { diseased: 0, nondiseased: 0, unverified: 0 };
  for (const cell of cells) {
    if (cell.result !== result) continue;
    sum.diseased += cell.diseased;
    sum.nondiseased += cell.nondiseased;
    sum.unverified += cell.unverified;
  }
  return sum;
}

/** Five estimates, one for each measure. */
export const measureEstimates = {
  sensitivity: estimate("proportion", "P(reactive | diseased)"),
  specificity: estimate("proportion", "P(nonreactive | nondiseased)"),
  prevalence: estimate("proportion", "P(diseased), among all people tested"),
  ppv: estimate("proportion", "P(diseased | reactive)"),
  npv: estimate("proportion", "P(nondiseased | nonreactive)"),
};

/** A number for each measure. */
export function eachMeasure(meaning: string) {
  return v.pipe(
    v.strictObject({
      sensitivity: quantity("proportion", "sensitivity"),
      specificity: quantity("proportion", "specificity"),
      prevalence: quantity("proportion", "prevalence"),
      ppv: quantity("proportion", "positive predictive value"),
      npv: quantity("proportion", "negative predictive value"),
    }),
    v.description(meaning),
  );
}

/** Accuracy from the verified people alone, as if the others did not exist. */
export function VerifiedOnly() {
  return v.pipe(
    v.strictObject({
      sensitivity: proportionEstimate("reactive among those verified and found diseased"),
      specificity: proportionEstimate("nonreactive among those verified and found nondiseased"),
    }),
    v.description(
      "from the verified people alone, exact limits: biased where verification hangs on the result",
    ),
  );
}

/** The share of people with each result who were verified. */
export function ShareVerified() {
  return v.pipe(
    v.strictObject({
      reactive: proportionEstimate("verified among the reactive"),
      nonreactive: proportionEstimate("verified among the nonreactive"),
    }),
    v.description("who was verified"),
  );
}
