import type { Direction } from "./readings-fields.ts";

/** People by reading: every different reading is a rung, the one that speaks most for the condition first. */
export interface Ladder {
  readonly direction: Direction;
  /** Readings of the rungs, turned so that they rise: `-reading` where higher speaks for the condition. */
  readonly keys: Float64Array;
  /** People with the condition on each rung. */
  readonly positives: Float64Array;
  /** People without the condition on each rung. */
  readonly negatives: Float64Array;
  readonly totalPositives: number;
  readonly totalNegatives: number;
}

/** Sorts the readings of both groups and counts people rung by rung. */
export function ladderOf(
  positives: readonly number[],
  negatives: readonly number[],
  direction: Direction,
): Ladder {
  const [mine, others] = [keysOf(positives, direction).sort(), keysOf(negatives, direction).sort()];
  const most = mine.length + others.length;
  const keys = new Float64Array(most);
  const counts = { positives: new Float64Array(most), negatives: new Float64Array(most) };
  let [rung, i, j] = [0, 0, 0];
  while (i < mine.length || j < others.length) {
    const a = i < mine.length ? (mine[i] as number) : Number.POSITIVE_INFINITY;
    const b = j < others.length ? (others[j] as number) : Number.POSITIVE_INFINITY;
    const key = Math.min(a, b);
    const [fromI, fromJ] = [i, j];
    while (i < mine.length && mine[i] === key) i += 1;
    while (j < others.length && others[j] === key) j += 1;
    keys[rung] = key;
    counts.positives[rung] = i - fromI;
    counts.negatives[rung] = j - fromJ;
    rung += 1;
  }
  return {
    direction,
    keys: keys.slice(0, rung),
    positives: counts.positives.slice(0, rung),
    negatives: counts.negatives.slice(0, rung),
    totalPositives: mine.length,
    totalNegatives: others.length,
  };
}

/** The reading that a rung stands for. */
export function readingAt(ladder: Ladder, rung: number): number {
  return readingOfKey(ladder.keys[rung] as number, ladder.direction);
}

/** A key turned back into a reading; never -0. */
export function readingOfKey(key: number, direction: Direction): number {
  return (direction === "higher" ? -key : key) + 0;
}

/** The rung of each reading, same order; every reading must be on the ladder. */
export function rungsOf(ladder: Ladder, readings: readonly number[]): Uint32Array {
  const keys = keysOf(readings, ladder.direction);
  const rungs = new Uint32Array(keys.length);
  for (let person = 0; person < keys.length; person += 1) {
    let [low, high] = [0, ladder.keys.length - 1];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if ((ladder.keys[middle] as number) < (keys[person] as number)) low = middle + 1;
      else high = middle;
    }
    rungs[person] = low;
  }
  return rungs;
}

function keysOf(readings: readonly number[], direction: Direction): Float64Array {
  const sign = direction === "higher" ? -1 : 1;
  const keys = new Float64Array(readings.length);
  for (let person = 0; person < keys.length; person += 1) {
    keys[person] = sign * (readings[person] as number) + 0;
  }
  return keys;
}
