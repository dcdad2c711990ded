import { estimateProportion } from "../proportion/proportion-interval.ts";
import type { CurveValues } from "./curve-fields.ts";
import { type Ladder, readingAt } from "./ladder.ts";

/** Points of the curve with exact limits, at most so many. */
export function curvePoints(ladder: Ladder, most: number, level: number): CurveValues["points"] {
  const { positives, negatives, totalPositives, totalNegatives } = ladder;
  const [truePositives, falsePositives] = [cumulated(positives), cumulated(negatives)];
  return keptRungs(truePositives, falsePositives, most).map((rung) => ({
    cutoff: readingAt(ladder, rung),
    sensitivity: estimateProportion(truePositives[rung] as number, totalPositives, { level }),
    specificity: estimateProportion(totalNegatives - (falsePositives[rung] as number), totalNegatives, {
      level,
    }),
  }));
}

/** People on this rung and those before it. */
export function cumulated(people: Float64Array): Float64Array {
  const sums = new Float64Array(people.length);
  let sum = 0;
  for (let rung = 0; rung < people.length; rung += 1) {
    sum += people[rung] as number;
    sums[rung] = sum;
  }
  return sums;
}

/** All rungs where they are few enough; else those on the hull, and others evenly between. */
export function keptRungs(
  truePositives: Float64Array,
  falsePositives: Float64Array,
  most: number,
): readonly number[] {
  const size = truePositives.length;
  if (size <= most) return Array.from({ length: size }, (_, rung) => rung);
  const hull = hullRungs(truePositives, falsePositives);
  const kept = new Set(hull.length <= most ? hull : evenly(hull, most));
  const others = Array.from({ length: size }, (_, rung) => rung).filter((rung) => !kept.has(rung));
  for (const rung of evenly(others, most - kept.size)) kept.add(rung);
  return [...kept].sort((one, other) => one - other);
}

function evenly(list: readonly number[], wanted: number): number[] {
  const step = wanted > 1 ? (list.length - 1) / (wanted - 1) : 0;
  return Array.from({ length: wanted }, (_, place) => list[Math.round(place * step)] as number);
}

/** Rungs on the upper convex hull of the curve, which begins where nobody is called reactive. */
export function hullRungs(truePositives: Float64Array, falsePositives: Float64Array): number[] {
  const x = (rung: number) => (rung < 0 ? 0 : (falsePositives[rung] as number));
  const y = (rung: number) => (rung < 0 ? 0 : (truePositives[rung] as number));
  const hull = [-1];
  for (let rung = 0; rung < truePositives.length; rung += 1) {
    while (hull.length >= 2) {
      const [before, last] = [hull.at(-2) as number, hull.at(-1) as number];
      const turn =
        (x(last) - x(before)) * (y(rung) - y(before)) - (y(last) - y(before)) * (x(rung) - x(before));
      if (turn < 0) break;
      hull.pop();
    }
    hull.push(rung);
  }
  return hull.slice(1);
}
