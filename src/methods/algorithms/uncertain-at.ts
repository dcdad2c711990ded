import { chanceOf, drawSummary } from "./draw-summary.ts";
import type { DrawnAlgorithms } from "./drawn-algorithms.ts";
import { keeps, type MeasuresAt, measuresAt } from "./measures-at.ts";
import type { DrawnSlice } from "./uncertain-draws.ts";
import type { UncertainInput } from "./uncertain-input.ts";
import type { UncertainValues } from "./uncertain-values.ts";

const SUMMARISED = ["ppv", "npv", "missed", "falsePositives", "inconclusive", "cost"] as const;
type Summarised = (typeof SUMMARISED)[number];
type AtValues = UncertainValues["algorithms"][number]["at"][number];

/** The draws of one algorithm at one prevalence, measure by measure, and how often what came about. */
interface Tally {
  readonly draws: Readonly<Record<Summarised, Float64Array>>;
  readonly times: { ppv: number; npv: number; inconclusive: number; all: number; best: number };
}

/** What the draws say at one prevalence. */
export interface UncertainAt {
  /** One entry for each algorithm. */
  readonly algorithms: readonly AtValues[];
  /** Draws in which no algorithm meets the criteria. */
  readonly none: number;
  /** Algorithms with draws in which nobody ends positive, or negative, and the predictive value concerned. */
  readonly undefinedIn: readonly { readonly algorithm: number; readonly measure: "ppv" | "npv" }[];
}

/** @param place of the prevalence in the input */
export function uncertainAt(
  input: UncertainInput,
  level: number,
  prepared: DrawnAlgorithms,
  slice: DrawnSlice,
  place: number,
): UncertainAt {
  const tallies = input.algorithms.map(() => emptyTally(slice.count));
  const quantity = (draw: number, at: number) =>
    slice.vectors[draw * prepared.quantities.length + at] as number;
  let none = 0;
  for (let draw = 0; draw < slice.count; draw += 1) {
    const results = slice.results.subarray(draw * prepared.size, (draw + 1) * prepared.size);
    const prevalence = quantity(draw, prepared.places.prevalences + place);
    const costs = {
      perPerson: quantity(draw, prepared.places.perPerson),
      perInconclusive: quantity(draw, prepared.places.perInconclusive),
    };
    const all = tallies.map((tally, at) => {
      const measures = measuresAt(results, at, prevalence, costs);
      return { measures, allowed: count(tally, draw, measures, input) };
    });
    const best = bestOf(all, input);
    if (best === null) none += 1;
    else (tallies[best] as Tally).times.best += 1;
  }
  const undefinedIn = tallies.flatMap(({ draws }, algorithm) =>
    (["ppv", "npv"] as const)
      .filter((measure) => draws[measure].some(Number.isNaN))
      .map((measure) => ({ algorithm, measure })),
  );
  const label = input.prevalences[place]?.label ?? "";
  const algorithms = tallies.map((tally) => valuesOf(tally, label, input, level, slice.count));
  return { algorithms, none, undefinedIn };
}

function emptyTally(count: number): Tally {
  const draws = Object.fromEntries(SUMMARISED.map((measure) => [measure, new Float64Array(count)]));
  return {
    draws: draws as Record<Summarised, Float64Array>,
    times: { ppv: 0, npv: 0, inconclusive: 0, all: 0, best: 0 },
  };
}

/** Keeps the measures of one draw; returns whether they meet the criteria. */
function count({ draws, times }: Tally, draw: number, measures: MeasuresAt, input: UncertainInput): boolean {
  for (const measure of SUMMARISED) draws[measure][draw] = measures[measure];
  const kept = keeps(measures, input.criteria);
  for (const limit of ["ppv", "npv", "inconclusive", "all"] as const) if (kept[limit]) times[limit] += 1;
  return kept.all;
}

/** Lowest cost or loss among those allowed; then fewest missed, fewest false positives, first in the list. */
function bestOf(
  all: readonly { readonly measures: MeasuresAt; readonly allowed: boolean }[],
  { losses }: UncertainInput,
): number | null {
  let best: number | null = null;
  let least: readonly [number, number, number] = [0, 0, 0];
  for (const [at, { measures, allowed }] of all.entries()) {
    if (!allowed) continue;
    const { missed, falsePositives, inconclusive, cost } = measures;
    const lost =
      losses === null
        ? 0
        : losses.missed * missed + losses.falsePositive * falsePositives + losses.inconclusive * inconclusive;
    const own = [cost + lost, missed, falsePositives] as const;
    const differs = own.findIndex((value, rank) => value !== least[rank]);
    if (best !== null && (differs < 0 || (own[differs] as number) > (least[differs] as number))) continue;
    best = at;
    least = own;
  }
  return best;
}

function valuesOf(
  { draws, times }: Tally,
  label: string,
  { criteria, people }: UncertainInput,
  level: number,
  count: number,
): AtValues {
  const chance = (limit: number | null, met: number) => (limit === null ? null : chanceOf(met, count));
  return {
    label,
    ppv: drawSummary(draws.ppv, level),
    npv: drawSummary(draws.npv, level),
    missed: drawSummary(draws.missed, level, people),
    falsePositives: drawSummary(draws.falsePositives, level, people),
    inconclusive: drawSummary(draws.inconclusive, level, people),
    cost: drawSummary(draws.cost, level),
    reaches: {
      ppv: chance(criteria.minimumPpv, times.ppv),
      npv: chance(criteria.minimumNpv, times.npv),
      inconclusive: chance(criteria.mostInconclusive, times.inconclusive),
      all: chanceOf(times.all, count),
    },
    best: chanceOf(times.best, count),
  };
}
