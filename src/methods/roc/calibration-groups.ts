import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import type { CalibrationValues } from "./calibration-fields.ts";

/** People with one probability. */
export interface Stack {
  readonly probability: number;
  /** People with the condition, and all. */
  readonly count: number;
  readonly total: number;
}

/** People by probability, from the lowest to the highest. */
export function stacksOf(positives: readonly number[], negatives: readonly number[]): Stack[] {
  const found = new Map<number, { count: number; total: number }>();
  const add = (probabilities: readonly number[], ill: number) => {
    for (const probability of probabilities) {
      const stack = found.get(probability);
      if (stack === undefined) found.set(probability, { count: ill, total: 1 });
      else {
        stack.count += ill;
        stack.total += 1;
      }
    }
  };
  add(positives, 1);
  add(negatives, 0);
  return [...found]
    .map(([probability, people]) => ({ probability, ...people }))
    .sort((one, other) => one.probability - other.probability);
}

/** Neighbouring stacks put together to about equally many people. */
export function groupsOf(stacks: readonly Stack[], wanted: number): Stack[][] {
  const people = stacks.reduce((sum, { total }) => sum + total, 0);
  const groups: Stack[][] = [];
  let before = 0;
  let last = -1;
  for (const stack of stacks) {
    // The middle person of the stack says to which group it belongs.
    const place = Math.min(wanted - 1, Math.floor(((before + stack.total / 2) * wanted) / people));
    if (place === last) groups[groups.length - 1]?.push(stack);
    else groups.push([stack]);
    last = place;
    before += stack.total;
  }
  return groups;
}

function sumOver(stacks: readonly Stack[], of: (stack: Stack) => number): number {
  return stacks.reduce((sum, stack) => sum + of(stack), 0);
}

export function groupValues(groups: readonly Stack[][], level: number): CalibrationValues["groups"] {
  return groups.map((group) => {
    const people = sumOver(group, ({ total }) => total);
    return {
      from: group[0]?.probability ?? null,
      to: group.at(-1)?.probability ?? null,
      people,
      predicted: sumOver(group, ({ probability, total }) => probability * total) / people,
      observed: estimateProportion(
        sumOver(group, ({ count }) => count),
        people,
        { level },
      ),
    };
  });
}

/** Every person's own variance is added up within a group. `null` where it can't hold the gap. */
export function groupTestOf(groups: readonly Stack[][]): CalibrationValues["groupTest"] {
  let chiSquare = 0;
  for (const group of groups) {
    const gap = sumOver(group, ({ count, total, probability }) => count - total * probability);
    const variance = sumOver(group, ({ total, probability }) => total * probability * (1 - probability));
    if (variance > 0 || gap !== 0) chiSquare += Math.pow(gap, 2) / variance;
  }
  if (!Number.isFinite(chiSquare)) return { chiSquare: null, degreesOfFreedom: groups.length, p: null };
  return {
    chiSquare,
    degreesOfFreedom: groups.length,
    p: chiSquareCdf(chiSquare, groups.length, "upper"),
  };
}

/** Sources: brier1950; murphy1973 and stephenson2008 for the parts; spiegelhalter1986calibration for z. */
export function brierOf(stacks: readonly Stack[], groups: readonly Stack[][]): CalibrationValues["brier"] {
  const people = sumOver(stacks, ({ total }) => total);
  const share = sumOver(stacks, ({ count }) => count) / people;
  const off = ({ probability, count, total }: Stack, power: number) =>
    count * Math.pow(1 - probability, power) + (total - count) * Math.pow(probability, power);
  const score = sumOver(stacks, (stack) => off(stack, 2)) / people;
  const fourth = sumOver(stacks, (stack) => off(stack, 4)) / people;
  const uncertainty = share * (1 - share);
  let [reliability, resolution] = [0, 0];
  for (const group of groups) {
    const size = sumOver(group, ({ total }) => total);
    const observed = sumOver(group, ({ count }) => count) / size;
    const predicted = sumOver(group, ({ probability, total }) => probability * total) / size;
    reliability += (size / people) * Math.pow(predicted - observed, 2);
    resolution += (size / people) * Math.pow(observed - share, 2);
  }
  const expected = sumOver(stacks, ({ probability: p, total }) => total * p * (1 - p)) / people;
  const variance =
    sumOver(stacks, ({ probability: p, total }) => total * Math.pow(1 - 2 * p, 2) * p * (1 - p)) /
    Math.pow(people, 2);
  const z = variance > 0 ? (score - expected) / Math.sqrt(variance) : null;
  return {
    score,
    standardError: people > 1 ? Math.sqrt(Math.max(0, fourth - Math.pow(score, 2)) / (people - 1)) : null,
    scaled: uncertainty > 0 ? 1 - score / uncertainty : null,
    reliability,
    resolution,
    uncertainty,
    within: score - reliability + resolution - uncertainty,
    expected,
    z,
    p: z === null ? null : Math.min(1, 2 * normalCdf(Math.abs(z), "upper")),
  };
}
