import { type Note, note } from "../core/note.ts";
import type { PairedSet } from "../records/model.ts";
import type { Study } from "../records/study.ts";
import { tally } from "../records/tallies.ts";
import type { Pooled } from "./document.ts";
import { sensitivitySpecificity } from "./sections/two-measures.ts";
import { groupNames, NOT_RECORDED, pairsByGroup } from "./stratum-groups.ts";
import type { Worktop } from "./worktop.ts";

type Stratum = Study["strata"][number];

/** The groups of a cell that are pooled, and everybody who is in none of their fourfold tables. */
export type PooledGroups = Pick<Pooled, "people" | "groups" | "leftOut" | "covariate">;

/** Counts the groups of a stratum; a covariate has to be the same for all people of a group. */
export function pooledGroups(
  worktop: Worktop,
  set: PairedSet,
  by: Stratum,
  covariate: Stratum | null,
): PooledGroups & { readonly notes: readonly Note[] } {
  const byName = pairsByGroup(set, by);
  const groups: Pooled["groups"] = [];
  const leftOut: Pooled["leftOut"] = [];
  const aside = new Map<string, number>();
  for (const name of groupNames([...byName.keys()], by)) {
    const members = { ...set, pairs: byName.get(name) ?? [] };
    const counted = tally(members, worktop.treatment);
    if (name === NOT_RECORDED || counted.analysed === 0) {
      const unnamed = name === NOT_RECORDED;
      const reason = unnamed ? NOT_RECORDED : "nobody_counted";
      leftOut.push({ label: unnamed ? null : name, reason, people: counted.people });
      continue;
    }
    for (const { reason, people } of counted.setAside) aside.set(reason, (aside.get(reason) ?? 0) + people);
    groups.push({
      label: name,
      level: null,
      people: counted.analysed,
      counts: counted.counts,
      ...sensitivitySpecificity(worktop, counted.counts),
    });
  }
  if (groups.length === 0 && leftOut.length === 0) {
    leftOut.push({ label: null, reason: NOT_RECORDED, people: tally(set, worktop.treatment).people });
  }
  for (const [reason, people] of aside) leftOut.push({ label: null, reason, people });
  const people = [...groups, ...leftOut].reduce((sum, entry) => sum + entry.people, 0);
  const levels = covariate === null ? NO_LEVELS : levelsOf(byName, groups, covariate);
  return {
    people,
    groups: groups.map((group, at) => ({ ...group, level: levels.of?.[at] ?? null })),
    leftOut: leftOut.filter((entry) => entry.people > 0),
    covariate:
      covariate === null || levels.of === null ? null : { stratum: covariate.id, title: covariate.title },
    notes: levels.notes,
  };
}

interface Levels {
  /** One for each group; `null` where the covariate can't be used. */
  readonly of: readonly string[] | null;
  readonly notes: readonly Note[];
}

const NO_LEVELS: Levels = { of: null, notes: [] };

function levelsOf(
  byName: ReturnType<typeof pairsByGroup>,
  groups: Pooled["groups"],
  { id, title }: Stratum,
): Levels {
  const found = groups.map(({ label }) => {
    const seen = new Set<string>();
    for (const pair of byName.get(label) ?? []) {
      const level = pair.strata[id] ?? null;
      if (level !== null) seen.add(level);
    }
    return [...seen].sort();
  });
  const levels = found.flatMap((seen) => (seen.length === 1 ? (seen as [string]) : []));
  const unused = (code: string, message: string): Levels => ({
    of: null,
    notes: [note(code, "covariate", `${message}: no covariate is used`)],
  });
  if (levels.length < groups.length) {
    const at = found.findIndex((seen) => seen.length !== 1);
    const { label } = groups[at] as Pooled["groups"][number];
    const several = found[at]?.join(", ") || "none";
    return unused("covariate_varies", `${title} is not the same for all people of ${label} (${several})`);
  }
  if (new Set(levels).size < 2) {
    return unused("one_level", `${title} is the same in all groups`);
  }
  return { of: levels, notes: [] };
}
