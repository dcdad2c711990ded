import { cheapestInto, NONE } from "./cheapest.ts";
import type { FrontierInput } from "./frontier-input.ts";
import { costsOf, type FrontierSearch, frontierSearch } from "./frontier-search.ts";
import { notBeatenStretch } from "./not-beaten.ts";
import { drawInto } from "./quantities.ts";
import { emptyStandings, standInto } from "./standings.ts";

/** How often, in a slice of the draws, by algorithm and prevalence: entry algorithm × prevalences + prevalence. */
export interface FrontierTally {
  readonly draws: number;
  readonly algorithms: number;
  readonly prevalences: number;
  readonly notBeaten: Float64Array;
  readonly best: Float64Array;
  /** By prevalence: draws in which no algorithm keeps the limits. */
  readonly none: Float64Array;
  /** Draws whose shares did not allow the error correlations stated. */
  readonly cut: number;
}

/**
 * Some of the draws of a search, tallied. A draw is the same whichever slice it is made in: tallies of slices,
 * merged in any order, are the tally of all. So slices may be made side by side.
 *
 * @param firstDraw number of the first draw, from 0
 * @param count     how many
 */
export function frontierDraws(
  input: FrontierInput,
  seed: number,
  firstDraw: number,
  count: number,
): FrontierTally {
  return searchDraws(frontierSearch(input), seed, firstDraw, count);
}

/** As `frontierDraws`, of a search made ready before. */
export function searchDraws(
  { prepared, prevalences, rules, order, algorithms }: FrontierSearch,
  seed: number,
  firstDraw: number,
  count: number,
): FrontierTally {
  const tally = emptyTally(algorithms.length, prevalences.length);
  const vector = new Float64Array(prepared.quantities.length);
  const results = new Float64Array(prepared.size);
  const standings = emptyStandings(algorithms.length);
  const first = new Int32Array(algorithms.length);
  const end = new Int32Array(algorithms.length);
  const best = new Int32Array(prevalences.length);
  const lowest = new Float64Array(prevalences.length);
  let cut = 0;
  for (let draw = firstDraw; draw < firstDraw + count; draw += 1) {
    drawInto(vector, prepared.quantities, seed, draw);
    if (!prepared.evaluate(vector, results)) cut += 1;
    standInto(standings, results, costsOf(prepared, vector), rules);
    notBeatenStretch(standings, order.strongest, prevalences, first, end);
    cheapestInto(standings, order.cheapest, prevalences, best, lowest);
    addDraw(tally, first, end, best);
  }
  return { ...tally, draws: count, cut };
}

function emptyTally(algorithms: number, prevalences: number): FrontierTally {
  return {
    draws: 0,
    algorithms,
    prevalences,
    notBeaten: new Float64Array(algorithms * prevalences),
    best: new Float64Array(algorithms * prevalences),
    none: new Float64Array(prevalences),
    cut: 0,
  };
}

function addDraw(tally: FrontierTally, first: Int32Array, end: Int32Array, best: Int32Array): void {
  const places = tally.prevalences;
  for (let algorithm = 0; algorithm < tally.algorithms; algorithm += 1) {
    const start = algorithm * places;
    const last = start + (end[algorithm] as number);
    for (let at = start + (first[algorithm] as number); at < last; at += 1) addOne(tally.notBeaten, at);
  }
  for (let place = 0; place < places; place += 1) {
    const chosen = best[place] as number;
    if (chosen === NONE) addOne(tally.none, place);
    else addOne(tally.best, chosen * places + place);
  }
}

function addOne(counts: Float64Array, at: number): void {
  counts[at] = (counts[at] as number) + 1;
}

/** The tallies of several slices as one. */
export function mergeFrontierDraws(slices: readonly [FrontierTally, ...FrontierTally[]]): FrontierTally {
  const [one] = slices;
  const sum = (part: "notBeaten" | "best" | "none") => {
    const all = new Float64Array(one[part].length);
    for (const slice of slices)
      for (let at = 0; at < all.length; at += 1) all[at] = (all[at] as number) + (slice[part][at] as number);
    return all;
  };
  return {
    draws: slices.reduce((total, { draws }) => total + draws, 0),
    algorithms: one.algorithms,
    prevalences: one.prevalences,
    notBeaten: sum("notBeaten"),
    best: sum("best"),
    none: sum("none"),
    cut: slices.reduce((total, { cut }) => total + cut, 0),
  };
}
