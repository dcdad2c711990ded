import { type Note, note } from "../../core/note.ts";
import { prevalenceTrue } from "../../methods/prevalence/true.ts";
import type { PairedSet } from "../../records/model.ts";
import { treatedRapid } from "../../records/treatment.ts";
import { cellOf, isComparator, isPopulationSample, mainKit } from "../cells.ts";
import type { TruePrevalence } from "../document.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

/** The method's simulated interval is not shown: as few draws as it allows. */
const FEWEST_DRAWS = 100;

interface Population {
  readonly id: string;
  readonly title: string;
  readonly count: number;
  readonly total: number;
  readonly notes: readonly Note[];
}

/**
 * What apparent positivity says of true prevalence, the sensitivity and specificity being this study's:
 * in the study itself where all its people came consecutively or at random, and in each programme whose
 * own counts the study file gives (of the main kit, the primary specimen type and reader). Not against a
 * comparator, whose agreement is no accuracy.
 */
export function truePrevalenceSection(worktop: Worktop, sets: readonly PairedSet[]): TruePrevalence[] {
  const main = mainKit(worktop.records);
  const first = (set: PairedSet) =>
    set.kit === main && sets.find((other) => other.analyte === set.analyte && other.kit === main) === set;
  return sets
    .filter((set) => !isComparator(worktop.study, set.analyte))
    .flatMap((set) => {
      const own = isPopulationSample(set) ? [studyOf(worktop, set)] : [];
      const programmes = first(set) ? programmesOf(worktop, set) : [];
      return [...own, ...programmes]
        .filter(({ total }) => total > 0)
        .map((population) => inPopulation(worktop, set, population));
    });
}

/** Everybody with a reactive or non-reactive result, with or without a reference result. */
function studyOf(worktop: Worktop, set: PairedSet): Population {
  let count = 0;
  let total = 0;
  for (const pair of set.pairs) {
    const result = treatedRapid(pair, worktop.treatment);
    if (result !== "reactive" && result !== "nonreactive") continue;
    total += pair.weight;
    if (result === "reactive") count += pair.weight;
  }
  const message =
    "sensitivity and specificity come from the same people: where all have a reference result, its own positive share says more";
  return {
    id: "study",
    title: "People of this study",
    count,
    total,
    notes: [note("same_people", "estimated", message)],
  };
}

function programmesOf({ study }: Worktop, { analyte }: PairedSet): Population[] {
  return study.prevalences.flatMap(({ id, title, observed }) => {
    const counts = observed?.[analyte];
    if (counts === undefined) return [];
    return [{ id, title, count: counts.reactive, total: counts.tested, notes: [] }];
  });
}

function inPopulation(worktop: Worktop, set: PairedSet, population: Population): TruePrevalence {
  const { sensitivity, specificity } = sensitivitySpecificity(worktop, worktop.tally(set).counts);
  const { level } = worktop.interval;
  const { count, total } = population;
  const { values, notes } = worktop.compute(
    prevalenceTrue,
    {
      count,
      total,
      sensitivity: { count: sensitivity.count, total: sensitivity.total },
      specificity: { count: specificity.count, total: specificity.total },
    },
    {
      level,
      interval: "lang_reiczigel",
      draws: FEWEST_DRAWS,
      seed: worktop.seedOf(`true prevalence ${population.id} ${set.analyte} ${set.kit}`),
    },
  );
  const shown = notesUnder(notes, { prevalence: "estimated", "treatedAsKnown.exact": "known" });
  return {
    ...cellOf(set),
    population: population.id,
    title: population.title,
    apparent: worktop.proportion(count, total),
    estimated: values.prevalence,
    known: values.treatedAsKnown.exact,
    notes: [...shown, ...population.notes],
  };
}
