import { listed, sentence } from "./plural.ts";

type VerdictCode = "met" | "not_met" | "undecided" | "not_estimable";
type Piece = string | { readonly verdict: VerdictCode };

export interface VerificationFacts {
  readonly name: string;
  readonly naive: VerdictCode;
  readonly corrected: VerdictCode;
  readonly lowest: VerdictCode;
  readonly highest: VerdictCode;
  readonly holds: boolean;
  /** Odds ratios between which the corrected verdict stays, by one odds ratio for both results. */
  readonly from: string | null;
  readonly to: string | null;
  readonly lookedFrom: string;
  readonly lookedTo: string;
}

/** People who never had the reference. */
export const verifiedPeople = {
  verificationHeading: (cell: string) => `Not everybody had the reference: ${cell}`,
  unverified: (reactive: string, nonreactive: string) =>
    `Without a reference result: ${reactive} people with a reactive result, and ${nonreactive} with a non-reactive one.`,
  strata: (titles: readonly string[]) =>
    titles.length === 0
      ? "Corrected: people without a reference are taken to be like those who had it and the same result."
      : `Corrected: people without a reference are taken to be like those who had it, with the same result and the same ${listed(titles)}.`,
  verified(facts: VerificationFacts): Piece[] {
    const first: Piece[] = [
      `${sentence(facts.name)}: `,
      { verdict: facts.naive },
      " by those who had the reference",
      ...(facts.naive === facts.corrected
        ? [", and the same once corrected. "]
        : [", ", { verdict: facts.corrected }, " once corrected. "]),
    ];
    const { lookedFrom, lookedTo, from, to, lowest, highest } = facts;
    if (lowest === highest && lowest === facts.corrected) {
      return [...first, "Whatever those without it have, it stays ", { verdict: lowest }, "."];
    }
    const odds = facts.holds
      ? `That holds if people with the condition were ${lookedFrom} to ${lookedTo} times as readily verified (in odds)`
      : from === null || to === null
        ? "It changes within the odds of verification looked at"
        : `That holds while people with the condition are ${from} to ${to} times as readily verified (in odds; looked at: ${lookedFrom} to ${lookedTo})`;
    return [
      ...first,
      `${odds}, but not whatever those without it have: at worst `,
      { verdict: lowest },
      ", at best ",
      { verdict: highest },
      ".",
    ];
  },
  peopleCaption: (cell: string) => `People by kit result and by what is known of them: ${cell}`,
  peopleColumns: {
    result: "Kit",
    diseased: "Reference positive",
    nondiseased: "Reference negative",
    unverified: "No reference",
    share: "Without, %",
  },
  measuresCaption: (cell: string) => `Verified people only, corrected, and at the bounds: ${cell}`,
  measuresColumns: {
    measure: "Measure",
    naive: "Verified people only",
    corrected: "Corrected %",
    bounds: "Whatever the others have %",
    strip: "hollow: verified only; full: corrected",
  },
  measures: {
    sensitivity: "sensitivity",
    specificity: "specificity",
    prevalence: "share with the condition",
    ppv: "positive predictive value",
    npv: "negative predictive value",
  },
  measuresHow:
    "Whatever the others have: from the lowest to the highest that any truth about people without a reference would give, chance not counted.",
  otherWays: "Who had the reference, and other ways of correcting",
  otherCurves: (names: readonly string[]) =>
    `The curve for ${listed(names)}, which does not hang on who was verified`,
  otherCaption: (cell: string) => `Corrected, weighted and completed: ${cell}`,
  otherColumns: {
    measure: "Measure",
    corrected: "Corrected",
    weighted: "Weighted",
    imputed: "Completed",
    missing: "Uncertainty from want of verification",
  },
  otherHow:
    "Weighted: verified people stand for those like them. Completed: many tables with the missing results drawn. All three rest on the same assumption, so that agreement among them does not prove it.",
  curveCaption: (name: string) => `If who was verified hung on the condition itself: ${name}`,
  curveData: { odds: "Odds ratio", estimate: "Estimate %", verdict: "Verdict" },
  curveHow: (stated: boolean) =>
    `Right of 1: people with the condition were verified more readily than others with the same result. The data are silent on this; ${stated ? "the study file states how far it may go" : "the study file states no range, so a wide one is shown"}.`,
  oneResult: (axis: "reactive" | "nonreactive", from: string, to: string) =>
    `If that concerned only people with a ${axis === "reactive" ? "reactive" : "non-reactive"} result, the verdict would hold from ${from} to ${to}.`,
  setAside: (listedPeople: string) => `Set aside: ${listedPeople}.`,
};
