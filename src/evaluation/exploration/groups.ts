import type { StudyRecords } from "../../records/model.ts";
import { groupPath } from "./choices.ts";

/** The groups of people that an exploration may look at alone, by the path of the choice. */
export interface SubsetGroups {
  readonly path: string;
  /** As the records name them, in the study file's order where it gives one. */
  readonly groups: readonly string[];
}

/** Which people could be looked at alone: only where there are at least two groups. */
export function subsetGroups({ study, sets }: StudyRecords): SubsetGroups[] {
  const pairs = sets.flatMap((set) => set.pairs);
  const found = (values: readonly (string | null)[], order: readonly string[]) =>
    inOrder(new Set(values.filter((value) => value !== null)), order);
  const titles = (entries: readonly { readonly id: string }[]) => entries.map(({ id }) => id);
  const kinds = [
    {
      path: "subset.specimen",
      groups: found(
        sets.map(({ specimen }) => specimen),
        study.specimens.map(({ type }) => type),
      ),
    },
    {
      path: "subset.site",
      groups: found(
        pairs.map(({ site }) => site),
        titles(study.sites),
      ),
    },
    {
      path: "subset.selection",
      groups: found(
        pairs.map(({ selection }) => selection),
        study.arms.map(({ selection }) => selection),
      ),
    },
    ...study.strata.map(({ id, ordered }) => ({
      path: groupPath(id),
      groups: found(
        pairs.map(({ strata }) => strata[id] ?? null),
        ordered ?? [],
      ),
    })),
  ];
  return kinds.filter(({ groups }) => groups.length > 1);
}

function inOrder(found: ReadonlySet<string>, order: readonly string[]): string[] {
  const known = [...new Set(order)].filter((name) => found.has(name));
  return [...known, ...[...found].filter((name) => !known.includes(name)).sort()];
}
