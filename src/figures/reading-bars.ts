import type { ReadingTime } from "../evaluation/document.ts";

export type ReadingTimes = Pick<ReadingTime, "window" | "people" | "histogram">;

/** A piece of a bar whose people were all read early, all in the window, or all late. */
export interface ReadingPiece {
  readonly from: number;
  readonly to: number;
  readonly when: "early" | "in" | "late";
  /** People in the piece. */
  readonly people: number;
  /** People in the pieces under it. */
  readonly base: number;
}

/**
 * Bars cut by the reading window. A bar that holds one edge of the window (both edges count as
 * inside) holds people of two kinds: how many of each follows from the totals, since all other
 * people of that kind stand in bars of their own. Where two bars straddle the same edge the earlier
 * is filled first.
 */
export function readingPieces(times: ReadingTimes): ReadingPiece[] {
  const { window, people } = times;
  const bars = [...times.histogram].filter((bar) => bar.people > 0).sort((a, b) => a.from - b.from);
  let early = people.early - sum(bars.filter((bar) => bar.to <= window.from));
  let inside = people.in - sum(bars.filter((bar) => bar.from >= window.from && bar.to <= window.to));
  return bars.flatMap((bar) => {
    if (bar.to <= window.from) return [piece(bar, "early", bar.people, 0)];
    if (bar.from > window.to) return [piece(bar, "late", bar.people, 0)];
    if (bar.from >= window.from && bar.to <= window.to) return [piece(bar, "in", bar.people, 0)];
    const before = bar.from < window.from ? clamp(early, bar.people) : 0;
    const within = clamp(inside, bar.people - before);
    early -= before;
    inside -= within;
    const after = bar.people - before - within;
    return [
      piece(bar, "in", within, 0),
      piece(bar, "early", before, within),
      piece(bar, "late", after, within + before),
    ].filter((part) => part.people > 0);
  });
}

function sum(bars: readonly { people: number }[]): number {
  return bars.reduce((total, bar) => total + bar.people, 0);
}

function clamp(value: number, most: number): number {
  return Math.min(most, Math.max(0, value));
}

function piece(
  bar: { from: number; to: number },
  when: ReadingPiece["when"],
  people: number,
  base: number,
): ReadingPiece {
  return { from: bar.from, to: bar.to, when, people, base };
}
