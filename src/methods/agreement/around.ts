import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";

/** An estimate with notes that carry its path. */
export interface Noted {
  readonly estimate: Estimate;
  readonly notes: readonly Note[];
}

/** The smallest value the coefficient can have; -1 unless weights of one's own are used. */
const LOWEST = -1;
const HIGHEST = 1;

/**
 * A coefficient plus or minus a multiple of its standard error, cut where no such coefficient exists.
 *
 * @param path          of the estimate in the method's values
 * @param standardError 0 where the formula sees no spread: no limits then, with a note, for nothing is
 *   known for certain
 * @param lowest        a limit below this is cut, with a note
 */
export function aroundValue(
  path: string,
  value: number,
  standardError: number,
  multiple: number,
  lowest = LOWEST,
): Noted {
  if (standardError === 0) return withoutWidth(path, value);
  return cutAt(path, value, value - multiple * standardError, value + multiple * standardError, lowest);
}

/** Limits that lie on the value itself are no limits: certainty is not what the data say. */
export function withoutWidth(path: string, value: number): Noted {
  const message =
    "the formula gives an interval without width here, which does not mean certainty: none is given";
  return {
    estimate: { value, lower: null, upper: null },
    notes: notesAt("no_width", [`${path}.lower`, `${path}.upper`], message),
  };
}

function cutAt(path: string, value: number, lower: number, upper: number, lowest: number): Noted {
  const cut = [...(lower < lowest ? [`${path}.lower`] : []), ...(upper > HIGHEST ? [`${path}.upper`] : [])];
  return {
    estimate: { value, lower: Math.max(lower, lowest), upper: Math.min(upper, HIGHEST) },
    notes: cut.map((place) => note("truncated", place, "the formula's limit lies outside what is possible")),
  };
}

/**
 * With fewer items than this on which readers differ, the intervals are not to be trusted: in simulated
 * studies of 50 items where one answer was rare (2 %), 95 % intervals of pi held the truth 47 times in 100.
 */
const FEW_DISAGREEMENTS = 10;

/** A warning where an interval rests on few items; none where there is no interval. */
export function fewDisagreements(path: string, { lower, upper }: Estimate, differing: number): Note[] {
  if (differing >= FEW_DISAGREEMENTS || (lower === null && upper === null)) return [];
  const message = `readers differ on ${differing} items only: the interval may hold the truth less often than its level says`;
  return [note("few_disagreements", path, message)];
}
