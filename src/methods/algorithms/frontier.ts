import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { cheapestInto, NONE, switchesBetween } from "./cheapest.ts";
import { type FrontierTally, searchDraws } from "./frontier-draws.ts";
import { frontierExamples } from "./frontier-examples.ts";
import {
  type FrontierInput as Asked,
  type FrontierOptions as Chosen,
  FrontierInput,
  FrontierOptions,
} from "./frontier-input.ts";
import { costsOf, type FrontierSearch, frontierSearch } from "./frontier-search.ts";
import { FrontierValues, type StandingValues, type FrontierValues as Values } from "./frontier-values.ts";
import { keeps, measuresAt } from "./measures-at.ts";
import { notBeatenStretch } from "./not-beaten.ts";
import { RESULT, WIDTH } from "./path-evaluator.ts";

/**
 * Which of all sensible algorithms are worth considering, and which is the best at each prevalence.
 *
 * Every usual algorithm with every choice and order of the kits, up to three tests, is worked out exactly. An
 * algorithm is beaten where another misses no more, has no more false positives and costs no more, and is
 * better in one of these. The best is the cheapest of those that keep the limits. Both are linear in the
 * prevalence, so that the prevalences at which the best changes are found in closed form, not on a grid.
 *
 * @param input   kits with what is known of each, dependence, prevalences ascending, costs, constraints
 * @param options number of draws if probabilities are wanted, seed
 * @throws InputError where the constraints on time and groups leave no algorithm
 * @returns algorithms with the kits at their medians; by prevalence those not beaten and the best; with draws
 *   how probable each is to be so. Same seed, same numbers, however the draws are shared out
 * Behaves badly where prices or losses outside the three measures matter: read the list, not only the best
 * Source: dominance as of Pareto (common practice); brown2001 for the Jeffreys posterior of counts
 */
export function frontierOf(input: Asked, options: Chosen): Finding<Values> {
  const search = frontierSearch(input);
  return frontierFrom(input, search, drawsOf(search, options));
}

function drawsOf(search: FrontierSearch, { draws, seed }: Chosen): FrontierTally | null {
  return draws === null ? null : searchDraws(search, seed, 0, draws);
}

/** The findings from a search and the merged tallies of its draws: for callers that share the draws out. */
export function frontierFrom(
  input: Asked,
  search: FrontierSearch,
  tally: FrontierTally | null,
): Finding<Values> {
  const { algorithms, prevalences, centre } = search;
  const idOf = (place: number) => (place === NONE ? null : (algorithms[place]?.id ?? null));
  const lowest = prevalences[0] as number;
  const highest = prevalences[prevalences.length - 1] as number;
  const switches = switchesBetween(centre.standings, lowest, highest);
  const values = {
    algorithms: algorithms.map(({ id, preset, kits, minutes }, at) => {
      const part = (place: number) => centre.results[at * WIDTH + place] as number;
      return {
        id,
        preset,
        kits: [...kits],
        minutes,
        sensitivity: part(RESULT.diseased.positive),
        specificity: part(RESULT.nondiseased.negative),
        inconclusiveDiseased: part(RESULT.diseased.inconclusive),
        inconclusiveNondiseased: part(RESULT.nondiseased.inconclusive),
      };
    }),
    at: atPrevalences(input, search, idOf),
    switches: switches.map(({ prevalence, from, to }) => ({ prevalence, from: idOf(from), to: idOf(to) })),
    drawn: tally === null ? null : drawnValues(input, search, tally),
  };
  return { values, notes: notesOn(input, values, tally) };
}

function atPrevalences(
  input: Asked,
  search: FrontierSearch,
  idOf: (place: number) => string | null,
): Values["at"] {
  const { algorithms, prevalences, centre, order } = search;
  const first = new Int32Array(algorithms.length);
  const end = new Int32Array(algorithms.length);
  const best = new Int32Array(prevalences.length);
  notBeatenStretch(centre.standings, order.strongest, prevalences, first, end);
  cheapestInto(centre.standings, order.cheapest, prevalences, best, new Float64Array(prevalences.length));
  return input.prevalences.map((prevalence, place) => ({
    prevalence,
    best: idOf(best[place] as number),
    notBeaten: algorithms.flatMap(({ id }, at) => {
      const beaten = place < (first[at] as number) || place >= (end[at] as number);
      return beaten ? [] : [standingOf(input, search, at, id, prevalence)];
    }),
  }));
}

function standingOf(
  { people, constraints, inconclusiveDiseased }: Asked,
  { prepared, centre }: FrontierSearch,
  at: number,
  id: string,
  prevalence: number,
): StandingValues {
  const measures = measuresAt(centre.results, at, prevalence, costsOf(prepared, centre.vector));
  const undecided = (centre.results[at * WIDTH + RESULT.diseased.inconclusive] as number) * prevalence;
  const missed = measures.missed + (inconclusiveDiseased === "missed" ? undecided : 0);
  return {
    algorithm: id,
    keeps: keeps(measures, constraints).all,
    ppv: Number.isNaN(measures.ppv) ? null : measures.ppv,
    npv: Number.isNaN(measures.npv) ? null : measures.npv,
    missed: missed * people,
    falsePositives: measures.falsePositives * people,
    inconclusive: measures.inconclusive * people,
    cost: measures.cost,
  };
}

function drawnValues(
  { prevalences }: Asked,
  { algorithms }: FrontierSearch,
  tally: FrontierTally,
): Values["drawn"] {
  const share = (counts: Float64Array, at: number) => (counts[at] as number) / tally.draws;
  const at = prevalences.map((prevalence, place) => ({
    prevalence,
    algorithms: algorithms.flatMap(({ id }, algorithm) => {
      const entry = algorithm * prevalences.length + place;
      const [notBeaten, best] = [share(tally.notBeaten, entry), share(tally.best, entry)];
      return notBeaten + best > 0 ? [{ algorithm: id, notBeaten, best }] : [];
    }),
    none: share(tally.none, place),
  }));
  return { draws: tally.draws, at };
}

function notesOn({ dependence }: Asked, values: Values, tally: FrontierTally | null): Note[] {
  const notes: Note[] = [];
  if (dependence.kind === "independent") {
    const message =
      "runs are taken to err independently, which they seldom do: algorithms of several tests look too good";
    notes.push(note("independence", "algorithms", message));
  }
  notes.push(...nullNotes(values));
  if (tally !== null && tally.cut > 0) {
    const message = `in ${tally.cut} of ${tally.draws} draws the kits drawn do not allow an error correlation stated; the nearest that they allow was used`;
    notes.push(note("dependence_cut", "drawn", message));
  }
  return notes;
}

/** What stands behind every `null`. */
function nullNotes({ at, switches }: Values): Note[] {
  const none = (path: string) => note("no_algorithm", path, "no algorithm keeps the limits");
  const notes: Note[] = [];
  for (const [place, { best, notBeaten }] of at.entries()) {
    if (best === null) notes.push(none(`at.${place}.best`));
    for (const [rank, standing] of notBeaten.entries()) {
      for (const [measure, ended] of [
        ["ppv", "positive"],
        ["npv", "negative"],
      ] as const) {
        if (standing[measure] !== null) continue;
        const path = `at.${place}.notBeaten.${rank}.${measure}`;
        notes.push(note("undefined_outcome", path, `nobody ends ${ended}`));
      }
    }
  }
  for (const [place, { from, to }] of switches.entries()) {
    if (from === null) notes.push(none(`switches.${place}.from`));
    if (to === null) notes.push(none(`switches.${place}.to`));
  }
  return notes;
}

export const algorithmsFrontier = defineMethod({
  id: "algorithms.frontier",
  version: 1,
  title: "Search of all sensible algorithms",
  question:
    "Which algorithms are worth considering, and which is the cheapest that is good enough at each prevalence?",
  formula:
    "exact probabilities by truth for every algorithm; missed = prevalence × P(negative | diseased), false positives = (1 - prevalence) × P(positive | nondiseased), cost = per person + price × mean devices + settling × inconclusive; beaten: another is no worse in all three and better in one; best: lowest cost among those that keep the limits; switches where two costs cross or a limit begins or ceases to be kept",
  caution:
    "with the kits at their medians: draws show how far that can be relied on. What the three measures leave out, such as the burden of coming back, is not seen. Kits with the same errors in common look better together than they are unless their dependence is stated. Kits run on everybody are taken in the order of the list",
  sources: ["brown2001"],
  input: FrontierInput,
  options: FrontierOptions,
  values: FrontierValues,
  run: frontierOf,
  examples: frontierExamples,
});
