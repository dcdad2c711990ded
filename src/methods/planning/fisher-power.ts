import { hypergeometricMass } from "../../numeric/hypergeometric.ts";
import { binomialWindow } from "./binomial-window.ts";
import type { PlannedGroups } from "./two-group-power.ts";

/**
 * The power of Fisher's exact test, two-sided by the tables no more probable than the one seen, to reject in
 * favour of the first group: added up over all results of both.
 */
export function fisherPower({ first, second }: PlannedGroups, error: number): number {
  const here = binomialWindow(first.total, first.share);
  const there = binomialWindow(second.total, second.share);
  const least = here.from + there.from;
  const most = least + here.masses.length + there.masses.length - 2;
  const fewest = fewestRejecting(first.total, second.total, { least, most }, error);
  let power = 0;
  here.masses.forEach((mass, at) => {
    let rejecting = 0;
    for (let other = 0; other < there.masses.length; other += 1) {
      if (here.from + at >= (fewest[at + other] as number)) rejecting += there.masses[other] as number;
    }
    power += mass * rejecting;
  });
  return power;
}

/** Tables as probable as another up to rounding count as equally probable, as in the test itself. */
const ROUNDING = 1 + 1e-7;

/**
 * For each number of events in both groups, from `least` to `most`: the fewest of them in the first group at
 * which the test rejects in its favour; one more than there can be if none.
 */
export function fewestRejecting(
  first: number,
  second: number,
  { least, most }: { readonly least: number; readonly most: number },
  error: number,
): Int32Array {
  const modeOf = (events: number) =>
    Math.min(
      first,
      events,
      Math.max(0, events - second, Math.floor(((events + 1) * (first + 1)) / (first + second + 2))),
    );
  let mode = modeOf(least);
  let mass = hypergeometricMass(mode, first, second, least);
  const fewest = new Int32Array(most - least + 1);
  for (let events = least; events <= most; events += 1) {
    const table = { first, second, events };
    if (events > least) {
      // One event more, first with as many in the first group, or one more where that can't be.
      const before = events - 1;
      if (mode >= events - second)
        mass *= ((second - before + mode) / (events - mode)) * (events / (first + second - before));
      else {
        mass *= ((first - mode) / (mode + 1)) * (events / (first + second - before));
        mode += 1;
      }
      for (const wanted = modeOf(events); mode < wanted; mode += 1) mass *= onwards(mode, table);
    }
    fewest[events - least] = borderOf(mode, mass, table, error);
  }
  return fewest;
}

interface Table {
  readonly first: number;
  readonly second: number;
  readonly events: number;
}

/** How much more probable one more in the first group is. */
function onwards(at: number, { first, second, events }: Table): number {
  return ((first - at) * (events - at)) / ((at + 1) * (second - events + at + 1));
}

/** How much more probable one fewer in the first group is. */
function backwards(at: number, { first, second, events }: Table): number {
  return (at * (second - events + at)) / ((first - at + 1) * (events - at + 1));
}

/**
 * From the most probable table outwards, the next probable one first: the p-value of a table is what is left
 * when all more probable ones are taken away. Beyond the last table the mass is 0.
 */
function borderOf(mode: number, mass: number, table: Table, error: number): number {
  let below = mode;
  let above = mode + 1;
  let massBelow = mass;
  let massAbove = mass * onwards(mode, table);
  let left = 1;
  while (left > error && (massBelow > 0 || massAbove > 0)) {
    const bar = Math.max(massBelow, massAbove) / ROUNDING;
    const takeAbove = massAbove >= bar;
    if (massBelow >= bar) {
      left -= massBelow;
      massBelow *= backwards(below, table);
      below -= 1;
    }
    if (takeAbove) {
      left -= massAbove;
      massAbove *= onwards(above, table);
      above += 1;
    }
  }
  return Math.min(above, Math.min(table.first, table.events) + 1);
}
