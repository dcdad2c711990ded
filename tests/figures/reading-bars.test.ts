import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readingPieces } from "../../src/figures/reading-bars.ts";

const WINDOW = { from: 15, to: 20 };

/** Bars by whole minute, and totals, counted from single minutes. */
function timesOf(minutes: readonly number[]) {
  const bars = new Map<number, number>();
  for (const minute of minutes) bars.set(Math.floor(minute), (bars.get(Math.floor(minute)) ?? 0) + 1);
  return {
    window: WINDOW,
    people: {
      early: minutes.filter((minute) => minute < WINDOW.from).length,
      in: minutes.filter((minute) => minute >= WINDOW.from && minute <= WINDOW.to).length,
      late: minutes.filter((minute) => minute > WINDOW.to).length,
      unknown: 0,
    },
    histogram: [...bars].map(([from, people]) => ({ from, to: from + 1, people })),
  };
}

describe("readingPieces", () => {
  it("splits bars as counting single people does", () => {
    const minute = fc.integer({ min: 0, max: 160 }).map((quarters) => quarters / 4);
    fc.assert(
      fc.property(fc.array(minute, { maxLength: 80 }), (minutes) => {
        const counted = (from: number, when: string) =>
          minutes.filter((value) => {
            const kind = value < WINDOW.from ? "early" : value > WINDOW.to ? "late" : "in";
            return Math.floor(value) === from && kind === when;
          }).length;
        const pieces = readingPieces(timesOf(minutes));
        expect(pieces.reduce((total, piece) => total + piece.people, 0)).toBe(minutes.length);
        for (const piece of pieces) expect(piece.people).toBe(counted(piece.from, piece.when));
      }),
    );
  });

  it("stacks the late people of minute 20 on those in the window", () => {
    expect(readingPieces(timesOf([20, 20, 20.5]))).toEqual([
      { from: 20, to: 21, when: "in", people: 2, base: 0 },
      { from: 20, to: 21, when: "late", people: 1, base: 2 },
    ]);
  });
});
