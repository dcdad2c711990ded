import { type Note, note } from "../../core/note.ts";
import { isBlind, uses } from "./completed.ts";
import { type Cell, type Measure, peopleIn } from "./fields.ts";

/** Fewer verified people than this in a cell say little about the others. Rule of our own. */
const FEW = 10;

/** Why a measure can't be had from these cells. */
export function absentNote(cells: readonly Cell[], measure: Measure, path: string): Note {
  const blind = cells.find((cell) => uses(measure, cell.result) && isBlind(cell));
  if (blind === undefined) {
    const message = "nobody of the kind that this counts was found, verified or expected among the others";
    return note("no_people", path, message);
  }
  return note("nobody_verified", path, blindMessage(blind));
}

export function blindMessage({ unverified, result, label }: Cell): string {
  return `not one of the ${unverified} ${result} people of ${label} was verified: what they have can't be known from these data, and no weighting mends that. Read the bounds, join strata that are alike, or verify some of them`;
}

/** What to mind about the people verified. */
export function verifiedNotes(cells: readonly Cell[], path: string): Note[] {
  const notes: Note[] = [];
  const unverified = cells.reduce((sum, cell) => sum + cell.unverified, 0);
  if (unverified === 0) {
    notes.push(note("all_verified", path, "everybody was verified: there is nothing to correct"));
  }
  for (const cell of cells) {
    const verified = cell.diseased + cell.nondiseased;
    if (cell.unverified === 0 || verified === 0 || verified >= FEW) continue;
    const message = `only ${verified} of the ${peopleIn(cell)} ${cell.result} people of ${cell.label} were verified, and stand for all of them: read the intervals with care`;
    notes.push(note("few_verified", path, message));
  }
  return notes;
}
