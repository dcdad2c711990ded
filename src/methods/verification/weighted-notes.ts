import { type Note, note } from "../../core/note.ts";
import { twoSidedBinomial } from "../proportion/exact-test.ts";
import { type Measure, peopleIn, verifiedIn } from "./fields.ts";
import { absentNote } from "./measure-notes.ts";
import type { WeightedCell } from "./weighted-measure.ts";

/** A share verified this improbable under the design says that the design was not kept. Rule of our own. */
const IMPROBABLE = 0.001;
/** Larger tables than this are compared by the rule of four standard errors instead. */
const MOST_EXACT = 100_000;

/** Groups in which the design seems not to have been kept, or by chance verified nobody. */
export function designNotes(cells: readonly WeightedCell[]): Note[] {
  const notes: Note[] = [];
  for (const [at, cell] of cells.entries()) {
    const { probability, label, result } = cell;
    const people = peopleIn(cell);
    const verified = verifiedIn(cell);
    if (probability === null || people === 0) continue;
    if (isUnlike(verified, people, probability)) {
      const message = `${verified} of the ${people} ${result} people of ${label} were verified, which a probability of ${probability} hardly gives: was the design kept? The estimated probabilities don't rely on it`;
      notes.push(note("design_not_kept", `weights.${at}.probability`, message));
    }
    if (verified > 0) continue;
    const message = `by chance nobody of the ${people} ${result} people of ${label} was verified: they are missing from the estimates, whose errors are too small`;
    notes.push(note("nobody_verified", `weights.${at}.weight`, message));
  }
  return notes;
}

function isUnlike(verified: number, people: number, probability: number): boolean {
  if (probability === 1) return false;
  if (people <= MOST_EXACT) return twoSidedBinomial(verified, people, probability) < IMPROBABLE;
  const error = Math.sqrt(people * probability * (1 - probability));
  return Math.abs(verified - people * probability) > 4 * error;
}

/** Why a measure can't be had. */
export function wontDo(cells: readonly WeightedCell[], measure: Measure, estimated: boolean): Note {
  if (estimated) return absentNote(cells, measure, measure);
  return note("no_people", measure, "nobody of the kind that this counts was verified");
}
