import type { Pair, PairedSet } from "../../records/model.ts";
import { tally } from "../../records/tallies.ts";
import type { Treatment } from "../../records/treatment.ts";
import type { ReadingTime } from "../document.ts";
import type { Worktop } from "../worktop.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

/** People whom a band must hold, so that its proportions say something (common practice, no source). */
export const FEWEST_IN_BAND = 20;
const STEP = 5;

type Band = ReadingTime["byMinutes"][number];
interface Edges {
  readonly from: number;
  readonly to: number;
}

/**
 * Both measures by minutes to the reading, in steps of five minutes counted from the window's own ends,
 * so that no band lies across an end. Steps are joined, going away from the window, until the band holds
 * enough people; what is left over goes to the last band. A side with too few people in all has no band.
 * The window's bands hold both their ends, as the window does; early ones hold their beginning only, late
 * ones their end only.
 */
export function minuteBands(
  worktop: Worktop,
  set: PairedSet,
  window: Edges,
  treatment: Treatment,
): { readonly bands: Band[]; readonly leftOut: number } {
  const timed = set.pairs.filter((pair) => pair.rapid !== "not_done" && pair.minutes !== null);
  const early = timed.filter((pair) => pair.window === "early");
  const inside = timed.filter((pair) => pair.window === "in");
  const late = timed.filter((pair) => pair.window === "late");
  const bands = [
    ...joined(outwards(early, (minutes) => stepsOf(window.from - minutes, true), window.from, -1)).reverse(),
    ...joined(outwards(inside, (minutes) => insideStep(minutes, window), window.from, 1, window.to)),
    ...joined(outwards(late, (minutes) => stepsOf(minutes - window.to, true), window.to, 1)),
  ];
  const held = bands.reduce((people, band) => people + weightOf(band.pairs), 0);
  return {
    bands: bands.map(({ from, to, pairs }) => ({
      from,
      to,
      people: weightOf(pairs),
      ...sensitivitySpecificity(worktop, tally({ ...set, pairs }, treatment).counts),
    })),
    leftOut: weightOf(timed) - held,
  };
}

interface Filled extends Edges {
  readonly pairs: readonly Pair[];
}

/** Which step beyond an end: (0, 5] is the first. */
function stepsOf(beyond: number, endHeld: boolean): number {
  return Math.max(0, endHeld ? Math.ceil(beyond / STEP) - 1 : Math.floor(beyond / STEP));
}

/** The window's last step holds its end. */
function insideStep(minutes: number, { from, to }: Edges): number {
  const last = Math.max(0, Math.ceil((to - from) / STEP) - 1);
  return Math.min(last, stepsOf(minutes - from, false));
}

/** People in steps of five minutes from an end, nearest first, empty steps included. */
function outwards(
  pairs: readonly Pair[],
  stepOf: (minutes: number) => number,
  end: number,
  direction: 1 | -1,
  limit = Number.POSITIVE_INFINITY,
): Filled[] {
  const steps: Pair[][] = [];
  for (const pair of pairs) {
    const step = stepOf(pair.minutes as number);
    while (steps.length <= step) steps.push([]);
    (steps[step] as Pair[]).push(pair);
  }
  return steps.map((inStep, index) => {
    const near = end + direction * STEP * index;
    const far = end + direction * STEP * (index + 1);
    const from = Math.max(0, Math.min(near, far));
    return { from, to: Math.min(limit, Math.max(near, far)), pairs: inStep };
  });
}

function joined(steps: readonly Filled[]): Filled[] {
  const bands: Filled[] = [];
  let open: Filled | null = null;
  for (const step of steps) {
    const grown: Filled = open === null ? step : together(open, step);
    open = weightOf(grown.pairs) >= FEWEST_IN_BAND ? null : grown;
    if (open === null) bands.push(grown);
  }
  const last = bands.pop();
  if (last === undefined) return [];
  return [...bands, open === null ? last : together(last, open)];
}

function together(one: Filled, other: Filled): Filled {
  return {
    from: Math.min(one.from, other.from),
    to: Math.max(one.to, other.to),
    pairs: [...one.pairs, ...other.pairs],
  };
}

function weightOf(pairs: readonly Pair[]): number {
  return pairs.reduce((people, pair) => people + pair.weight, 0);
}
