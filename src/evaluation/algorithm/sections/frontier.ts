import { InputError } from "../../../core/input-error.ts";
import { note } from "../../../core/note.ts";
import { algorithmsFrontier } from "../../../methods/algorithms/frontier.ts";
import type { FrontierInput } from "../../../methods/algorithms/frontier-input.ts";
import type { AlgorithmSearch } from "../document.ts";
import { searchedKits, searchedTogether } from "../searched.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { costsOf, criteriaOf } from "./uncertainty.ts";

/** Prevalences at which the search looks, besides those of the channels. */
const LOOKED_AT = [0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.08, 0.12, 0.2, 0.3, 0.5];
/** The search puts every draw through many algorithms: it makes do with fewer of them. */
const MOST_DRAWS = 2000;

/** Every usual algorithm with the kits of the search: which are worth considering, and where the best changes. */
export function frontierSection(worktop: AlgorithmWorktop): AlgorithmSearch[] {
  const { file } = worktop;
  if (file.search === undefined) return [];
  return file.analytes
    .filter(({ id }) => searchedKits(file, id).length > 0)
    .map(({ id: analyte }): AlgorithmSearch => {
      const search = searchOf(worktop, analyte);
      const channels = file.channels.map((channel) => {
        const prevalence = worktop.prevalenceOf(channel, analyte);
        const at = search?.values.at.find((one) => one.prevalence === prevalence);
        const drawn = search?.values.drawn?.at.find((one) => one.prevalence === prevalence);
        const best = at?.best ?? null;
        const chance = drawn?.algorithms.find(({ algorithm }) => algorithm === best)?.best ?? null;
        return { channel: channel.id, prevalence, best, chance: best === null ? null : chance };
      });
      const notes = search === null ? [note("no_algorithm", "search", NO_ALGORITHM)] : [];
      return { analyte, search, channels, notes };
    });
}

const NO_ALGORITHM = "the targets for minutes or antigens leave no algorithm of these kits";

function searchOf(worktop: AlgorithmWorktop, analyte: string): AlgorithmSearch["search"] {
  const { draws } = worktop.file;
  const options = { draws: Math.min(draws, MOST_DRAWS), seed: worktop.seedOf(`search ${analyte}`) };
  try {
    return worktop.ask(algorithmsFrontier, searchInput(worktop, analyte), options);
  } catch (error) {
    if (error instanceof InputError && error.path.at(-1) === "constraints") return null;
    throw error;
  }
}

/** What the search is asked. */
export function searchInput(worktop: AlgorithmWorktop, analyte: string): FrontierInput {
  const { file } = worktop;
  const { targets, search, channels } = file;
  const kits = searchedKits(file, analyte);
  const ids = kits.map(({ id }) => id);
  const known = new Map(worktop.uncertainKitsOf(analyte, ids).map((kit) => [kit.id, kit]));
  const own = channels.map((channel) => worktop.prevalenceOf(channel, analyte));
  const prevalences = [...new Set([...LOOKED_AT, ...own])].sort((one, other) => one - other);
  return {
    kits: kits.map((kit) => ({
      ...(known.get(kit.id) as NonNullable<ReturnType<typeof known.get>>),
      minutes: kit.minutes ?? 0,
      group: kit.antigens ?? kit.id,
    })),
    dependence: worktop.dependenceAmong(
      analyte,
      ids,
      searchedTogether(file).filter((one) => one.analyte === analyte),
    ),
    prevalences,
    costs: costsOf(file),
    constraints: {
      ...criteriaOf(file),
      mostMinutes: targets.most_minutes ?? null,
      differentGroups: targets.different_antigens ?? false,
    },
    inconclusiveDiseased: "missed",
    mostTests: search?.most_tests ?? 3,
    again: 1,
    people: 100_000,
  };
}
