import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { roundUp } from "./round-up.ts";
import { horizonFor, nearHorizon, outOfReach } from "./search-horizon.ts";
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
  /** People without whom nothing can be shown, however good the kits are. */
  readonly least: number;
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

/** The exact search goes no farther. */
export const MOST_IN_GROUP = 20_000;

/** The size of two groups by formula and by exact power. */
export function groupPlan(question: GroupQuestion): { values: GroupPlan; notes: Note[] } {
  const { first, second, ratio, unrounded } = question;
  const perGroup = unrounded === 0 ? null : roundUp(unrounded);
  const horizon = question.horizon ?? horizonFor(unrounded, question.least, MOST_IN_GROUP);
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
  const message = outOfReach(horizon, MOST_IN_GROUP, "people in the first group");
  const notes = notesAt("out_of_reach", absent, message);
  notes.push(...nearHorizon(exact.stays, exact.searchedTo));
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
