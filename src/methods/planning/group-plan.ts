import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { roundUp } from "./round-up.ts";
import { NOT_FOUND, searchTotals, type TotalsFound } from "./search-totals.ts";
import type { PlannedGroups } from "./two-group-power.ts";

/** How a size of two groups is looked for. */
export interface GroupQuestion {
  readonly first: number;
  readonly second: number;
  readonly ratio: number;
  readonly wanted: number;
  /** `null`: by the formula. */
  readonly horizon: number | null;
  /** People in the first group by the large-sample formula, not rounded; 0 where it gives nobody. */
  readonly unrounded: number;
  powerOf(groups: PlannedGroups): number;
}

export interface GroupPlan {
  readonly formula: {
    readonly unrounded: number | null;
    readonly perGroup: number | null;
    readonly secondGroup: number | null;
  };
  readonly exact: TotalsFound & { readonly secondGroup: number | null; readonly searchedTo: number | null };
}

const LEAST_HORIZON = 200;
const MOST_HORIZON = 5_000;

/** The size of two groups by formula and by exact power. */
export function groupPlan(question: GroupQuestion): { values: GroupPlan; notes: Note[] } {
  const { first, second, ratio, unrounded } = question;
  const perGroup = unrounded === 0 ? null : roundUp(unrounded);
  const byFormula = Math.min(MOST_HORIZON, Math.max(LEAST_HORIZON, 2 * (perGroup ?? 0)));
  const horizon = question.horizon ?? byFormula;
  const others = (total: number) => roundUp(ratio * total);
  const found = searchTotals(
    (total) =>
      question.powerOf({ first: { share: first, total }, second: { share: second, total: others(total) } }),
    question.wanted,
    horizon,
  );
  const values = {
    formula: {
      unrounded: perGroup === null ? null : unrounded,
      perGroup,
      secondGroup: perGroup === null ? null : others(perGroup),
    },
    exact: { ...found, secondGroup: found.stays === null ? null : others(found.stays), searchedTo: horizon },
  };
  return { values, notes: notesOn(values, horizon) };
}

function notesOn({ formula, exact }: GroupPlan, horizon: number): Note[] {
  const absent = Object.entries(exact).flatMap(([name, value]) => (value === null ? [`exact.${name}`] : []));
  const message = `not reached, or not for good, with up to ${horizon.toLocaleString("en-GB")} people in the first group: raise the horizon, lower the power wanted, or expect less of the study`;
  const notes = notesAt("out_of_reach", absent, message);
  if (formula.perGroup === null) {
    const spread =
      "the formula gives nobody at all: the power wanted is below the error; go by the exact answer";
    notes.push(note("no_spread", "formula", spread));
  }
  return notes;
}

/** The question has no answer, and why. */
export function noGroupPlan(code: string, message: string): { values: GroupPlan; notes: Note[] } {
  const values = {
    formula: { unrounded: null, perGroup: null, secondGroup: null },
    exact: { ...NOT_FOUND, secondGroup: null, searchedTo: null },
  };
  return { values, notes: notesAt(code, ["formula", "exact"], message) };
}
