import { type Note, note } from "../../core/note.ts";
import type { PairedSet, WindowStatus } from "../../records/model.ts";
import { tally } from "../../records/tallies.ts";
import { cellOf, peopleIn } from "../cells.ts";
import type { ReadingTime } from "../document.ts";
import { WINDOW_TREATMENTS } from "../schema/parts.ts";
import type { Worktop } from "../worktop.ts";
import { minuteBands } from "./minute-bands.ts";
import { sensitivitySpecificity } from "./two-measures.ts";
import { windowDifferences } from "./window-differences.ts";

const STATUSES: readonly WindowStatus[] = ["early", "in", "late", "unknown"];

/**
 * When the results were read, and what became of the two measures with it. The minute was chosen by
 * whoever read, so that late and in-time readings may differ by more than time: a description, not a
 * comparison. `null` where no minute is known at all, or the kit states no window.
 */
export function readingTimeSection(worktop: Worktop, set: PairedSet): ReadingTime | null {
  const read = (satisfies: (minutes: number) => boolean) =>
    peopleIn(set, (pair) => pair.rapid !== "not_done" && pair.minutes !== null && satisfies(pair.minutes));
  const timed = read(() => true);
  const stated = worktop.records.kits.find((kit) => kit.id === set.kit)?.reading_window;
  if (timed === 0 || stated === undefined) return null;
  const { from_minutes: from, to_minutes: to } = stated;
  const inWindow = (window: WindowStatus) =>
    peopleIn(set, (pair) => pair.rapid !== "not_done" && pair.window === window);
  const asRead = { ...worktop.treatment, outsideWindow: "keep" as const };
  const byWindow = STATUSES.map((window) => ({
    window,
    people: inWindow(window),
    ...sensitivitySpecificity(worktop, tally(set, asRead, (pair) => pair.window === window).counts),
  }));
  const compared = windowDifferences(worktop, byWindow);
  const { bands, leftOut } = minuteBands(worktop, set, { from, to }, asRead);
  return {
    ...cellOf(set),
    window: { from, to },
    people: {
      early: inWindow("early"),
      in: inWindow("in"),
      late: inWindow("late"),
      unknown: inWindow("unknown"),
    },
    histogram: histogram(set),
    byWindow,
    treatments: WINDOW_TREATMENTS.map((outsideWindow) => ({
      treatment: outsideWindow,
      ...sensitivitySpecificity(worktop, worktop.tally(set, { outsideWindow }).counts),
    })),
    differences: compared.differences,
    byMinutes: bands,
    roundedMinutes: worktop.proportion(
      read((minutes) => Math.floor(minutes) % 5 === 0),
      timed,
    ),
    notes: [...compared.notes, ...fewNotes(leftOut)],
  };
}

function fewNotes(leftOut: number): Note[] {
  if (leftOut === 0) return [];
  const message = `${leftOut} people were read at minutes with too few people for a band of their own`;
  return [note("few_people", "byMinutes", message)];
}

/** People by whole minute, from the first to the last minute with anyone in it; empty ones left out. */
function histogram(set: PairedSet): ReadingTime["histogram"] {
  const people = new Map<number, number>();
  for (const { rapid, minutes, weight } of set.pairs) {
    if (rapid === "not_done" || minutes === null) continue;
    const minute = Math.floor(minutes);
    people.set(minute, (people.get(minute) ?? 0) + weight);
  }
  return [...people]
    .sort(([one], [other]) => one - other)
    .map(([minute, count]) => ({ from: minute, to: minute + 1, people: count }));
}
