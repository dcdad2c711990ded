import { type Note, note } from "../../core/note.ts";
import { type ComparisonSide, comparisonSide } from "../../records/comparison-sides.ts";
import type { Kit } from "../../records/kit.ts";
import type { PairedSet } from "../../records/model.ts";
import type { Study } from "../../records/study.ts";
import { isComparator, isPopulationSample, kitTitle, mainKit } from "../cells.ts";
import { type ComparedPeople, comparePeople } from "../compared-people.ts";
import type { Comparison } from "../document.ts";
import type { Worktop } from "../worktop.ts";
import { measuresOfDifferent, measuresOfSame } from "./compared-measures.ts";
import { predictiveOfDifferent, predictiveOfSame } from "./compared-predictive.ts";

type Planned = Study["comparisons"][number];
type Side = Comparison["first"];

/** Of the smaller side's people, how many must be on both sides for them to be compared with themselves. */
const PAIRED_SHARE = 0.5;

/**
 * Kits, specimen types or readers held against each other, as the study file states; and every further
 * kit against the main one where the file states nothing of the two. The same people are compared with
 * themselves where at least half of the smaller side's are on both; else different people are compared,
 * and those on both sides left out.
 */
export function comparisonsSection(worktop: Worktop, sets: readonly PairedSet[]): Comparison[] {
  const { records, study } = worktop;
  const main = records.kits[0] as Kit;
  const asked = sets[0]?.reader ?? study.readers.primary ?? "recorded";
  const sideOf = (side: Planned["first"]): Side => {
    const { kit, specimen, reader }: ComparisonSide = comparisonSide(side, study, main);
    return { kit, specimen, reader: reader ?? asked };
  };
  const stated = study.comparisons.map((planned) => ({
    planned,
    first: sideOf(planned.first),
    second: sideOf(planned.second),
    notes: [] as Note[],
  }));
  return [...stated, ...impliedOf(worktop, sets, stated)].map((asking) => comparison(worktop, asking));
}

interface Asking {
  readonly planned: Planned;
  readonly first: Side;
  readonly second: Side;
  readonly notes: readonly Note[];
}

/** One for each analyte and further kit, on the first specimen type that both kits have results of. */
function impliedOf(worktop: Worktop, sets: readonly PairedSet[], stated: readonly Asking[]): Asking[] {
  const { records } = worktop;
  const main = mainKit(records);
  return records.kits.slice(1).flatMap((kit) =>
    worktop.study.analytes.flatMap((analyte): Asking[] => {
      const known = stated.some(({ planned, first, second }) => {
        const pair = [first.kit, second.kit];
        return planned.analyte === analyte.id && pair.includes(kit.id) && pair.includes(main);
      });
      const own = sets.find(
        (set) => set.analyte === analyte.id && set.kit === kit.id && mainOf(sets, set, main) !== undefined,
      );
      if (known || own === undefined) return [];
      const side = (id: string) => ({ kit: id, specimen: own.specimen, reader: own.reader });
      const title = `${kitTitle(records.kits, kit.id)} against ${kitTitle(records.kits, main)}`;
      const id = `${analyte.id}-${kit.id}-${main}`;
      const message = "not stated in the study file: every further kit is compared with the main kit";
      return [
        {
          planned: { id, title, analyte: analyte.id, first: {}, second: {}, kind: "noninferiority" },
          first: side(kit.id),
          second: side(main),
          notes: [note("not_stated", "id", message)],
        },
      ];
    }),
  );
}

function mainOf(sets: readonly PairedSet[], { analyte, specimen, reader }: PairedSet, main: string) {
  return sets.find(
    (set) =>
      set.analyte === analyte && set.kit === main && set.specimen === specimen && set.reader === reader,
  );
}

function comparison(worktop: Worktop, { planned, first, second, notes }: Asking): Comparison {
  const { id, title, analyte } = planned;
  const head = { id, title, analyte, first, second };
  const [one, other] = [setOf(worktop, analyte, first), setOf(worktop, analyte, second)];
  if (one === undefined || other === undefined) {
    const side = one === undefined ? "first" : "second";
    const message = "the records hold no results of this kit, specimen type and reader";
    const absent = note("no_observations", side, message);
    const people = { both: 0, firstOnly: 0, secondOnly: 0 };
    return { ...head, people, measures: [], predictive: [], notes: [...notes, absent] };
  }
  const named = worktop.study.records.shape !== "counts";
  const counted = comparePeople(one, other, worktop.treatment, named);
  const same = isPaired(counted.people);
  const own = !isComparator(worktop.study, analyte) && isPopulationSample(one) && isPopulationSample(other);
  const measured = same
    ? measuresOfSame(worktop, counted, planned)
    : measuresOfDifferent(worktop, counted, planned);
  const predictiveOf = same ? predictiveOfSame : predictiveOfDifferent;
  const valued = own ? predictiveOf(worktop, counted) : { predictive: [], notes: [] };
  return {
    ...head,
    people: counted.people,
    measures: measured,
    predictive: valued.predictive,
    notes: [...notes, ...peopleNotes(counted, same, first, second), ...valued.notes],
  };
}

function setOf(worktop: Worktop, analyte: string, side: Side): PairedSet | undefined {
  return worktop.records.sets.find(
    (set) =>
      set.analyte === analyte &&
      set.kit === side.kit &&
      set.specimen === side.specimen &&
      set.reader === side.reader,
  );
}

function isPaired({ both, firstOnly, secondOnly }: ComparedPeople["people"]): boolean {
  return both > 0 && both >= PAIRED_SHARE * (both + Math.min(firstOnly, secondOnly));
}

function peopleNotes({ people }: ComparedPeople, same: boolean, first: Side, second: Side): Note[] {
  const notes: Note[] = [];
  if (first.kit === second.kit && first.specimen === second.specimen && first.reader === second.reader) {
    notes.push(note("same_side", "second", "both sides are the same: nothing can differ"));
  }
  const alone = people.firstOnly + people.secondOnly;
  if (same && alone > 0) {
    const message = `${alone} people with a counted result on one side only are in none of the figures`;
    notes.push(note("on_one_side", "people", message));
  }
  if (!same && people.both > 0) {
    const message = `${people.both} people are on both sides, too few to be compared with themselves, and are left out`;
    notes.push(note("on_both_sides", "people", message));
  }
  if (!same) {
    const message = "different people: the two sides may differ in more than what is compared";
    notes.push(note("different_people", "measures", message));
  }
  return notes;
}
