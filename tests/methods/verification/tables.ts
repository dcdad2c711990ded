import { randomBinomial } from "d3-random";
import type { RandomSource } from "../../../src/core/random.ts";
import type { StateCounts, Stratum } from "../../../src/methods/verification/fields.ts";

/** Counts as the second opinion writes them: six of each stratum. */
export function strataOf(counts: readonly number[]): Stratum[] {
  const state = (at: number): StateCounts => ({
    diseased: counts[at] ?? 0,
    nondiseased: counts[at + 1] ?? 0,
    unverified: counts[at + 2] ?? 0,
  });
  return Array.from({ length: counts.length / 6 }, (_, at) => ({
    label: `${at + 1}`,
    reactive: state(6 * at),
    nonreactive: state(6 * at + 3),
  }));
}

/** A truth, and how readily people are verified by result and state. */
export interface Truth {
  readonly people: number;
  readonly prevalence: number;
  readonly sensitivity: number;
  readonly specificity: number;
  readonly verified: {
    readonly reactive: { readonly diseased: number; readonly nondiseased: number };
    readonly nonreactive: { readonly diseased: number; readonly nondiseased: number };
  };
}

/** A study drawn from a truth: the table as the investigator sees it, and as it would be fully verified. */
export function drawnStudy(truth: Truth, random: RandomSource) {
  const draw = (people: number, share: number) => randomBinomial.source(random)(people, share)();
  const diseased = draw(truth.people, truth.prevalence);
  const found = draw(diseased, truth.sensitivity);
  const cleared = draw(truth.people - diseased, truth.specificity);
  const full = {
    reactive: { diseased: found, nondiseased: truth.people - diseased - cleared },
    nonreactive: { diseased: diseased - found, nondiseased: cleared },
  };
  const seen = (result: "reactive" | "nonreactive"): StateCounts => {
    const ill = draw(full[result].diseased, truth.verified[result].diseased);
    const well = draw(full[result].nondiseased, truth.verified[result].nondiseased);
    const people = full[result].diseased + full[result].nondiseased;
    return { diseased: ill, nondiseased: well, unverified: people - ill - well };
  };
  return { full, table: { reactive: seen("reactive"), nonreactive: seen("nonreactive") } };
}

/** Verification that hangs on the result alone. */
export function byResultOnly(reactive: number, nonreactive: number): Truth["verified"] {
  return {
    reactive: { diseased: reactive, nondiseased: reactive },
    nonreactive: { diseased: nonreactive, nondiseased: nonreactive },
  };
}
