import type { Pair, PairedSet } from "../../records/model.ts";
import type { Evaluation } from "../document.ts";
import type { Worktop } from "../worktop.ts";

type Participants = Evaluation["participants"];
type Positive = Participants["bySite"][number]["referencePositive"];

/**
 * Who took part. Proportions of reference-positive people come with their value and limits only where
 * all people of the group came consecutively or at random; of the others the counts alone are given,
 * for the proportion was chosen by the study and says nothing of any population.
 */
export function participantsSection(worktop: Worktop, sets: readonly PairedSet[]): Participants {
  const { totals } = worktop.records;
  const main = mainSets(sets);
  return {
    enrolled: totals.enrolled,
    devices: totals.devices,
    readings: totals.readings,
    operators: totals.operators,
    repeats: totals.repeats,
    lineWithoutControl: totals.lineWithoutControl,
    lots: [...totals.lots],
    firstResultOn: totals.firstResultOn,
    lastResultOn: totals.lastResultOn,
    bySite: groups(main, (pair) => pair.site, siteOrder(worktop)).map(({ group, people, pairs }) => ({
      site: group,
      people,
      referencePositive: referencePositive(worktop, pairs),
    })),
    bySelection: groups(main, (pair) => pair.selection, []).map(({ group, people, pairs }) => ({
      selection: group,
      people,
      referencePositive: referencePositive(worktop, pairs),
    })),
  };
}

/** Of each analyte the first set: the primary specimen type, the primary reader. */
function mainSets(sets: readonly PairedSet[]): readonly PairedSet[] {
  return sets.filter((set, index) => sets.findIndex((other) => other.analyte === set.analyte) === index);
}

const siteOrder = (worktop: Worktop) => worktop.study.sites.map((site) => site.id);

interface Group {
  readonly group: string;
  readonly people: number;
  /** By analyte. */
  readonly pairs: ReadonlyMap<string, readonly Pair[]>;
}

/**
 * Every analyte's set holds all people, so that the largest of them counts the people of a group.
 * Count records name nobody: their people can't be told apart by code.
 */
function groups(
  sets: readonly PairedSet[],
  groupOf: (pair: Pair) => string | null,
  order: readonly string[],
): Group[] {
  const found = new Map<string, Map<string, Pair[]>>();
  for (const set of sets) {
    for (const pair of set.pairs) {
      const name = groupOf(pair);
      if (name === null) continue;
      const byAnalyte = found.get(name) ?? new Map<string, Pair[]>();
      found.set(name, byAnalyte);
      const pairs = byAnalyte.get(set.analyte) ?? [];
      byAnalyte.set(set.analyte, pairs);
      pairs.push(pair);
    }
  }
  const known = order.filter((name) => found.has(name));
  const others = [...found.keys()].filter((name) => !known.includes(name)).sort();
  return [...known, ...others].map((name) => {
    const pairs = found.get(name) ?? new Map<string, Pair[]>();
    return { group: name, people: Math.max(...[...pairs.values()].map(peopleOf)), pairs };
  });
}

function referencePositive(worktop: Worktop, byAnalyte: ReadonlyMap<string, readonly Pair[]>): Positive {
  return [...byAnalyte].map(([analyte, pairs]) => {
    const known = pairs.filter((pair) => pair.reference === "positive" || pair.reference === "negative");
    const count = peopleOf(known.filter((pair) => pair.reference === "positive"));
    const total = peopleOf(known);
    const representative = pairs.every(
      (pair) => pair.selection === "consecutive" || pair.selection === "random",
    );
    const proportion = representative
      ? worktop.proportion(count, total)
      : { count, total, value: null, lower: null, upper: null };
    return { analyte, proportion };
  });
}

function peopleOf(pairs: readonly Pair[]): number {
  return pairs.reduce((people, pair) => people + pair.weight, 0);
}
