import { type Note, note } from "../../core/note.ts";

/** The exact search looks at least so far. */
const LEAST_HORIZON = 500;

/**
 * How far to look if nothing was stated: half as many again as the formula gives, and three times the people
 * without whom nothing can be shown.
 */
export function horizonFor(formula: number, least: number, most: number): number {
  return Math.min(most, Math.max(LEAST_HORIZON, Math.ceil(1.5 * formula), Math.ceil(3 * least)));
}

/** Why a size was not found, and what to do. */
export function outOfReach(searchedTo: number, most: number, whom: string): string {
  const people = `${searchedTo.toLocaleString("en-GB")} ${whom}`;
  return searchedTo < most
    ? `not reached, or not for good, with up to ${people}: raise the horizon, lower the power wanted, or expect less of the study`
    : `not reached, or not for good, with up to ${people}, and the exact search goes no farther: go by the formula, lower the power wanted, or expect less of the study`;
}

/** Beyond a size the search should have gone on for this share of it at least. */
const ROOM = 0.1;

/** A warning where the power was not looked at far enough beyond the size from which on it stays. */
export function nearHorizon(stays: number | null, searchedTo: number | null): Note[] {
  if (stays === null || searchedTo === null || searchedTo >= (1 + ROOM) * stays) return [];
  const message = `larger numbers were looked at only up to ${searchedTo.toLocaleString("en-GB")}: raise the horizon to be sure that the power stays reached`;
  return [note("near_horizon", "exact.stays", message)];
}
