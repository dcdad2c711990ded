import type { Pair, PairedSet } from "../records/model.ts";
import type { Study } from "../records/study.ts";

type Stratum = Study["strata"][number];

export const NOT_RECORDED = "not_recorded";

export function pairsByGroup(
  set: PairedSet,
  { id }: Pick<Stratum, "id">,
): ReadonlyMap<string, readonly Pair[]> {
  const groups = new Map<string, Pair[]>();
  for (const pair of set.pairs) {
    const name = pair.strata[id] ?? NOT_RECORDED;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [pair]);
    else group.push(pair);
  }
  return groups;
}

/** The groups in the study file's order where it gives one, else by name; those not recorded at the end. */
export function groupNames(found: readonly string[], stratum: Stratum): string[] {
  if (found.every((name) => name === NOT_RECORDED)) return [];
  const ordered = (stratum.ordered ?? []).filter((name) => found.includes(name));
  const others = found.filter((name) => !ordered.includes(name) && name !== NOT_RECORDED);
  const last = found.includes(NOT_RECORDED) && !ordered.includes(NOT_RECORDED) ? [NOT_RECORDED] : [];
  return [...ordered, ...inOrder(others), ...last];
}

/** Numbers by size, names by their letters: not by any locale. */
function inOrder(names: readonly string[]): string[] {
  const numeric = names.every((name) => name.trim() !== "" && Number.isFinite(Number(name)));
  return [...names].sort((one, other) =>
    numeric && Number(one) !== Number(other) ? Number(one) - Number(other) : one < other ? -1 : 1,
  );
}
