import { InputError } from "../../core/input-error.ts";
import type { Rungs } from "./placements.ts";
import type { CurveRange } from "./readings-fields.ts";

/**
 * The area of part of the curve, whose points are joined by straight lines: sensitivity over a range of
 * specificity, or specificity over a range of sensitivity. Both groups must have somebody.
 */
export function partialArea(rungs: Rungs, { of, from, to }: CurveRange): number {
  const { positives, negatives, totalPositives, totalNegatives } = rungs;
  let [sensitivity, specificity, area] = [0, 1, 0];
  let [truePositives, falsePositives] = [0, 0];
  for (let rung = 0; rung < positives.length; rung += 1) {
    truePositives += positives[rung] as number;
    falsePositives += negatives[rung] as number;
    const [nextSensitivity, nextSpecificity] = [
      truePositives / totalPositives,
      (totalNegatives - falsePositives) / totalNegatives,
    ];
    area +=
      of === "specificity"
        ? strip(nextSpecificity, specificity, nextSensitivity, sensitivity, from, to)
        : strip(sensitivity, nextSensitivity, specificity, nextSpecificity, from, to);
    sensitivity = nextSensitivity;
    specificity = nextSpecificity;
  }
  return area;
}

/** The area under the line from (left, atLeft) to (right, atRight) within the range. */
function strip(
  left: number,
  right: number,
  atLeft: number,
  atRight: number,
  from: number,
  to: number,
): number {
  const low = Math.max(left, from);
  const high = Math.min(right, to);
  if (!(high > low)) return 0;
  const slope = (atRight - atLeft) / (right - left);
  return (high - low) * (atLeft + slope * ((low + high) / 2 - left));
}

/** The same of a test that says nothing, and of a perfect one. */
export function rangeBounds({ from, to }: CurveRange): { readonly least: number; readonly most: number } {
  return { least: ((to - from) * (2 - from - to)) / 2, most: to - from };
}

/** Moved and stretched so that a test that says nothing has 0.5 and a perfect one 1. Source: mcclish1989 */
export function standardised(area: number, range: CurveRange): number {
  const { least, most } = rangeBounds(range);
  return (1 + (area - least) / (most - least)) / 2;
}

/** @throws InputError where a range has no width */
export function requireRanges(ranges: readonly CurveRange[]): void {
  ranges.forEach(({ from, to }, place) => {
    if (!(to > from)) throw new InputError(["options", "ranges", place, "to"], `more than ${from}`, to);
  });
}
