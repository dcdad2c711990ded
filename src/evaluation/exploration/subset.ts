import type { Pair, PairedSet, StudyRecords } from "../../records/model.ts";
import type { Exploration } from "../schema/exploration.ts";
import { groupPath } from "./choices.ts";

/** Why people who are left out of a subset are not in the tables. */
const OUTSIDE = "outside_subset";

/**
 * The records of some people only, as an exploration names them: a specimen type, a site, a way of selection, a
 * group of a stratum; of several, those who are in each. People left out are counted before everybody else, so
 * that nobody is lost. Totals, row issues and alarms stay those of the whole study.
 */
export function subsetOf(records: StudyRecords, exploration: Exploration | null): StudyRecords {
  const wanted = new Map(
    (exploration?.changes ?? [])
      .filter(({ path }) => path.startsWith("subset."))
      .map(({ path, explored }) => [path, String(explored)]),
  );
  if (wanted.size === 0) return records;
  const specimen = wanted.get("subset.specimen");
  const inside = memberOf(records, wanted);
  const sets = records.sets
    .filter((set) => specimen === undefined || set.specimen === specimen)
    .map((set) => within(set, inside));
  const people = new Set(sets.flatMap((set) => set.pairs.map(({ person }) => person)));
  const results = records.results.filter(
    (result) => people.has(result.person) && (specimen === undefined || result.specimen === specimen),
  );
  const devices = new Set(results.map(({ device }) => device));
  return {
    ...records,
    sets,
    results,
    interpretations: records.interpretations.filter(({ device }) => devices.has(device)),
    rereadings: records.rereadings.filter(({ device }) => devices.has(device)),
  };
}

function memberOf({ study }: StudyRecords, wanted: ReadonlyMap<string, string>): (pair: Pair) => boolean {
  const asked = (path: string, found: string | null) => {
    const value = wanted.get(path);
    return value === undefined || value === found;
  };
  return (pair) =>
    asked("subset.site", pair.site) &&
    asked("subset.selection", pair.selection) &&
    study.strata.every(({ id }) => asked(groupPath(id), pair.strata[id] ?? null));
}

function within(set: PairedSet, inside: (pair: Pair) => boolean): PairedSet {
  const pairs = set.pairs.filter(inside);
  const weight = (all: readonly Pair[]) => all.reduce((people, pair) => people + pair.weight, 0);
  const left = weight(set.pairs) - weight(pairs);
  const before = left === 0 ? set.before : [...set.before, { reason: OUTSIDE, people: left }];
  return { ...set, pairs, before };
}
