import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { logitArea, scoreArea, waldArea } from "./area-limits.ts";
import { pairsBeyond, placementVariance, type Rungs } from "./placements.ts";
import type { AreaValues } from "./readings-fields.ts";

const NONE = { value: null, lower: null, upper: null };
export const NO_AREA: AreaValues = {
  value: null,
  standardError: null,
  wald: NONE,
  logit: NONE,
  score: NONE,
};

/** Below this many people in a group, normal limits are rough. */
const FEW = 10;

/** The area with its standard error and intervals; what is lacking is noted under `area`. */
export function areaValues(
  rungs: Rungs,
  level: number,
  truncate: boolean,
): { readonly area: AreaValues; readonly notes: Note[] } {
  const { totalPositives, totalNegatives } = rungs;
  if (totalPositives === 0 || totalNegatives === 0)
    return { area: NO_AREA, notes: emptyNotes(rungs, ["area"]) };
  const value = pairsBeyond(rungs) / (totalPositives * totalNegatives);
  const score = scoreArea(value, totalPositives, totalNegatives, level);
  const variance = placementVariance(rungs, value);
  if (variance === null) {
    const none = { value, lower: null, upper: null };
    const message = "a standard error by placements takes two people in each group";
    const notes = notesAt("one_person", ["area.standardError", "area.wald", "area.logit"], message);
    return { area: { value, standardError: null, wald: none, logit: none, score }, notes };
  }
  const standardError = Math.sqrt(variance);
  const wald = waldArea(value, standardError, level, truncate);
  const logit = logitArea(value, standardError, level);
  return {
    area: { value, standardError, wald, logit, score },
    notes: areaNotes(value, standardError, rungs),
  };
}

function areaNotes(area: number, standardError: number, { totalPositives, totalNegatives }: Rungs): Note[] {
  const notes: Note[] = [];
  if (area === 0 || area === 1) {
    const message = "no reading of one group lies among the other's: the logit of the area is infinite";
    notes.push(note("not_estimable", "area.logit", message));
  }
  if (standardError === 0) {
    const message =
      "the placements don't vary: no width, which does not mean certainty; see the score interval";
    notes.push(note("no_width", "area.wald", message));
  }
  const fewest = Math.min(totalPositives, totalNegatives);
  if (fewest < FEW) {
    const message = `only ${fewest} in one of the groups: standard error and Wald limits are rough, likely too narrow`;
    notes.push(note("few_people", "area.wald", message));
  }
  if (area < 0.5) {
    const message =
      "an area below 0.5: these readings speak against the condition more than for it; is the direction right?";
    notes.push(note("worse_than_chance", "area.value", message));
  }
  return notes;
}

/** Why there is no curve: nobody in a group. */
export function emptyNotes(
  { totalPositives }: { readonly totalPositives: number },
  paths: readonly string[],
): Note[] {
  const group = totalPositives === 0 ? "with" : "without";
  return notesAt("no_observations", paths, `nobody ${group} the condition was measured: there is no curve`);
}
