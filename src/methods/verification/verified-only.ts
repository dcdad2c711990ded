import { type Note, note } from "../../core/note.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { type Cell, peopleIn, pooled, verifiedIn } from "./fields.ts";

/** Accuracy as the verified people alone show it, and who was verified. */
export function verifiedOnly(cells: readonly Cell[], level: number) {
  const reactive = pooled(cells, "reactive");
  const nonreactive = pooled(cells, "nonreactive");
  const share = (count: number, total: number) => estimateProportion(count, total, { level });
  return {
    verifiedOnly: {
      sensitivity: share(reactive.diseased, reactive.diseased + nonreactive.diseased),
      specificity: share(nonreactive.nondiseased, reactive.nondiseased + nonreactive.nondiseased),
    },
    shareVerified: {
      reactive: share(verifiedIn(reactive), peopleIn(reactive)),
      nonreactive: share(verifiedIn(nonreactive), peopleIn(nonreactive)),
    },
  };
}

/** Why a value of `verifiedOnly` is absent. */
export function verifiedOnlyNotes({
  verifiedOnly: found,
  shareVerified,
}: ReturnType<typeof verifiedOnly>): Note[] {
  const notes: Note[] = [];
  for (const [name, { total }] of Object.entries(found)) {
    const kind = name === "sensitivity" ? "diseased" : "nondiseased";
    if (total > 0) continue;
    notes.push(note("none_verified", `verifiedOnly.${name}`, `nobody was verified and found ${kind}`));
  }
  for (const [name, { total }] of Object.entries(shareVerified)) {
    if (total === 0) notes.push(note("no_people", `shareVerified.${name}`, `nobody was ${name}`));
  }
  return notes;
}
