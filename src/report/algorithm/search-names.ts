import type { AlgorithmSearch } from "../../evaluation/algorithm/document.ts";
import type { AlgorithmReport } from "./context.ts";
import { kitName } from "./names.ts";

type Found = NonNullable<AlgorithmSearch["search"]>;
export type Searched = Found["values"]["algorithms"][number];
export type FoundAt = Found["values"]["at"][number];
export type Standing = FoundAt["notBeaten"][number];

/** An algorithm of the search in words: "Kit R, then Kit V". */
export function searchedName(
  report: AlgorithmReport,
  { preset, kits }: Pick<Searched, "preset" | "kits">,
): string {
  const { search: words } = report.words.algorithm;
  const names = kits.map((kit) => kitName(report, kit));
  const last = names.at(-1) ?? "";
  switch (preset) {
    case "single":
      return words.alone(last);
    case "parallel":
      return words.either(names);
    case "tie_breaker":
      return words.decides(names.slice(0, -1), last);
    case "consecutive_two":
    case "consecutive_three":
      return words.elseInconclusive(words.inTurn(names));
    default:
      return words.inTurn(names);
  }
}

export function searchedById({ values }: Found, id: string): Searched | undefined {
  return values.algorithms.find((algorithm) => algorithm.id === id);
}

/** The name of an algorithm of the search by its id; `null` where none is the best. */
export function searchedTitle(report: AlgorithmReport, search: Found, id: string | null): string | null {
  if (id === null) return null;
  const found = searchedById(search, id);
  return found === undefined ? id : searchedName(report, found);
}

/** The standings at a channel's prevalence. */
export function standingsAt({ values }: Found, prevalence: number): FoundAt | undefined {
  return values.at.find((one) => one.prevalence === prevalence);
}

/**
 * Standings of which several are alike in cost, false positives and missed are one mark: the first is kept.
 */
export function withoutTwins(standings: readonly Standing[], best: string | null): Standing[] {
  const key = ({ cost, falsePositives, missed }: Standing) =>
    [cost, falsePositives, missed].map((value) => (value ?? 0).toPrecision(9)).join(" ");
  const ordered = [...standings].sort(
    (one, other) => Number(other.algorithm === best) - Number(one.algorithm === best),
  );
  const kept = ordered.filter((one, at) => ordered.findIndex((other) => key(other) === key(one)) === at);
  return standings.filter((one) => kept.includes(one));
}

/** Stretches of prevalence over which the best stays the same. */
export function stretchesOf(search: Found): { best: string | null; from: number; to: number }[] {
  const { at, switches } = search.values;
  const [first, last] = [at[0], at.at(-1)];
  if (first === undefined || last === undefined) return [];
  const cuts = switches.flatMap(({ prevalence, to }) => (prevalence === null ? [] : [{ prevalence, to }]));
  const starts = [{ prevalence: first.prevalence, to: first.best }, ...cuts];
  return starts.map(({ prevalence, to }, place) => ({
    best: to,
    from: prevalence,
    to: starts[place + 1]?.prevalence ?? last.prevalence,
  }));
}

/** Most algorithms whose probability of being the best is drawn. */
const MOST_LINES = 5;
const LEAST_CHANCE = 0.1;

/** The algorithms that are probably the best somewhere, with that probability at each prevalence. */
export function chancesOf({ values }: Found) {
  const { drawn } = values;
  if (drawn === null) return [];
  const chance = (id: string, place: number) =>
    drawn.at[place]?.algorithms.find(({ algorithm }) => algorithm === id)?.best ?? 0;
  return values.algorithms
    .map(({ id }) => ({
      id,
      points: drawn.at.map(({ prevalence }, place) => ({ prevalence, chance: chance(id, place) })),
    }))
    .map((one) => ({ ...one, most: Math.max(0, ...one.points.map(({ chance: here }) => here)) }))
    .filter(({ most }) => most >= LEAST_CHANCE)
    .sort((one, other) => other.most - one.most)
    .slice(0, MOST_LINES);
}
