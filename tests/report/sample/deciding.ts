import type { Answer, Assurance, Decision } from "../../../src/evaluation/document.ts";

/** All primary criteria together, as the evaluation would judge them if the kit needs every one. */
export function decisionOf(answers: readonly Answer[], control: Decision["control"]): Decision | null {
  const primary = answers.filter(({ importance }) => importance === "primary");
  if (primary.length === 0) return null;
  const known = primary.map(({ probability }) => probability ?? 0);
  const verdicts = primary.map(({ verdict }) => verdict);
  const any = control === "holm" || control === "fixed_sequence";
  const order = any
    ? (["met", "undecided", "not_estimable", "not_met"] as const)
    : (["not_met", "not_estimable", "undecided", "met"] as const);
  const overall = order.find((verdict) => verdicts.includes(verdict));
  return {
    control,
    criteria: primary.map(({ criterion, verdict, probability }) => {
      const pValue = probability === null ? null : 1 - probability;
      const adjustedPValue = pValue === null ? null : Math.min(1, pValue * (control === "holm" ? 2 : 1));
      return { criterion, pValue, adjustedPValue, verdict };
    }),
    overall: overall ?? "met",
    joint: {
      independent: known.reduce((all, one) => all * one, 1),
      lowest: Math.max(0, 1 - known.reduce((all, one) => all + 1 - one, 0)),
      highest: Math.min(...known),
    },
    notes: [],
  };
}

/** Chances of a decision; invented, but each outlook adds up to 1. */
export function assuranceOf(answers: readonly Answer[]): Assurance[] {
  return answers
    .filter(({ verdict, further }) => verdict === "undecided" && further !== null)
    .map(({ criterion, further }) => ({
      criterion,
      further: further ?? 0,
      ifEstimateHolds: { met: 0.78, notMet: 0.01, undecided: 0.21 },
      predicted: { met: 0.66, notMet: 0.05, undecided: 0.29 },
      needed: [
        { chance: 0.8, further: 412 },
        { chance: 0.9, further: null },
      ],
      notes: [],
    }));
}
