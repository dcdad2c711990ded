import { type Completed, isBlind, PARTS, uses } from "./completed.ts";
import { type Cell, type Measure, peopleIn, verifiedIn } from "./fields.ts";

/** A group with the probability of verification that is used; no weight where nobody stands for it. */
export interface WeightedCell extends Cell {
  readonly probability: number | null;
  readonly weight: number | null;
}

/**
 * A measure from weighted people, with the standard error of its log odds: from the squares of what each
 * person moves. Where probabilities are estimated, the part that a group's share verified foretells is
 * replaced by what the whole group adds; verified or not.
 *
 * @returns `null` where a group that is used has people but none verified (probabilities estimated), or
 *   nobody counts
 */
export function weightedMeasure(
  cells: readonly WeightedCell[],
  measure: Measure,
  estimated: boolean,
): Completed | null {
  const { top, rest } = PARTS[measure];
  const used = cells.filter((cell) => uses(measure, cell.result));
  if (estimated && used.some(isBlind)) return null;
  let above = 0;
  let below = 0;
  for (const cell of used) {
    const [up, down] = [top[cell.result], rest[cell.result]];
    if (up !== undefined) above += (cell.weight ?? 0) * cell[up];
    if (down !== undefined) below += (cell.weight ?? 0) * cell[down];
  }
  if (above + below === 0) return null;
  const value = above / (above + below);
  if (above === 0 || below === 0) return { value, top: above, rest: below, logitError: null };
  let variance = 0;
  for (const cell of used) {
    const move = (state: "diseased" | "nondiseased") =>
      (top[cell.result] === state ? 1 / above : 0) - (rest[cell.result] === state ? 1 / below : 0);
    variance += cellVariance(cell, move("diseased"), move("nondiseased"), estimated);
  }
  return { value, top: above, rest: below, logitError: Math.sqrt(variance) };
}

function cellVariance(
  cell: WeightedCell,
  ofDiseased: number,
  ofNondiseased: number,
  estimated: boolean,
): number {
  const { diseased, nondiseased, weight } = cell;
  const verified = verifiedIn(cell);
  if (weight === null || verified === 0) return 0;
  if (!estimated)
    return (
      weight * weight * (diseased * (ofDiseased * ofDiseased) + nondiseased * (ofNondiseased * ofNondiseased))
    );
  const mean = (diseased * ofDiseased + nondiseased * ofNondiseased) / verified;
  const within = diseased * Math.pow(ofDiseased - mean, 2) + nondiseased * Math.pow(ofNondiseased - mean, 2);
  return weight * weight * within + peopleIn(cell) * (mean * mean);
}
