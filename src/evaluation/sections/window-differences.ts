import { type Note, note } from "../../core/note.ts";
import { unpaired } from "../../methods/comparison/unpaired.ts";
import type { ReadingTime } from "../document.ts";
import { MEASURES } from "../measures.ts";
import { notesAtPlace, notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

type ByWindow = ReadingTime["byWindow"];
type Difference = ReadingTime["differences"][number];
type Share = { readonly count: number; readonly total: number };

const KINDS = ["early", "late", "outside"] as const;

/**
 * Each measure read outside the window less the same measure read inside it: those read too early, too
 * late, and both together; only what somebody was read. Different people, and whoever read chose the
 * minute. Newcombe's interval, Fisher's exact p-value.
 */
export function windowDifferences(
  worktop: Worktop,
  byWindow: ByWindow,
): { readonly differences: Difference[]; readonly notes: Note[] } {
  const notes: Note[] = [];
  const read = (kind: (typeof KINDS)[number]) =>
    byWindow.filter(({ window }) =>
      kind === "outside" ? window === "early" || window === "late" : window === kind,
    );
  const kinds = KINDS.filter((kind) => read(kind).some(({ people }) => people > 0));
  const inside = byWindow.filter(({ window }) => window === "in");
  const differences = kinds.flatMap((outside) =>
    MEASURES.map((measure, index): Difference => {
      const first = added(read(outside).map((entry) => entry[measure]));
      const second = added(inside.map((entry) => entry[measure]));
      const options = { ...worktop.interval, differenceInterval: "newcombe" as const };
      const found = worktop.compute(unpaired, { first, second }, options);
      const place = `differences.${kinds.indexOf(outside) * MEASURES.length + index}`;
      const own = notesUnder(found.notes, { difference: "difference", fisher: "pValue" });
      notes.push(...notesAtPlace(own, place));
      return { outside, measure, difference: found.values.difference, pValue: found.values.fisher.twoSided };
    }),
  );
  if (kinds.length > 0) {
    const message =
      "outside and inside the window were different people, and the minute was chosen by whoever read: no proof that time is the cause";
    notes.push(note("different_people", "differences", message));
  }
  return { differences, notes };
}

function added(shares: readonly Share[]): Share {
  return {
    count: shares.reduce((sum, { count }) => sum + count, 0),
    total: shares.reduce((sum, { total }) => sum + total, 0),
  };
}
