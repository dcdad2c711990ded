import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Flag, placeFlags } from "../../src/figures/flag-lanes.ts";

const flags = fc.array(
  fc.record({ x: fc.integer({ min: 0, max: 600 }), width: fc.integer({ min: 20, max: 180 }) }),
  {
    maxLength: 9,
  },
);

function overlaps(list: readonly Flag[], from: number, to: number): number {
  const placed = placeFlags(list, from, to);
  let found = 0;
  placed.forEach((one, index) => {
    placed.forEach((other, at) => {
      if (at <= index || one.lane !== other.lane) return;
      const [oneEnd, otherEnd] = [one.left + (list[index]?.width ?? 0), other.left + (list[at]?.width ?? 0)];
      if (one.left < otherEnd && other.left < oneEnd) found += 1;
    });
  });
  return found;
}

/** Rules that run through the words of another label: a rule reaches from the plot up to its own lane. */
function crossings(list: readonly Flag[], from: number, to: number): number {
  const placed = placeFlags(list, from, to);
  let found = 0;
  placed.forEach((label, index) => {
    list.forEach(({ x }, rule) => {
      const inside = x > label.left && x < label.left + (list[index]?.width ?? 0);
      if (rule !== index && inside && (placed[rule]?.lane ?? 0) >= label.lane) found += 1;
    });
  });
  return found;
}

describe("placeFlags", () => {
  it("never lets two labels touch", () => {
    fc.assert(
      fc.property(flags, (list) => {
        expect(overlaps(list, -45, 665)).toBe(0);
      }),
    );
  });

  it("lets no rule run through a label where all labels fit on the right", () => {
    fc.assert(
      fc.property(flags, (list) => {
        expect(crossings(list, -1000, 2000)).toBe(0);
      }),
    );
  });

  it("lets no rule run through a label where all labels fit on the left", () => {
    fc.assert(
      fc.property(flags, (list) => {
        expect(crossings(list, -1000, 600)).toBe(0);
      }),
    );
  });

  it("keeps labels between the edges", () => {
    fc.assert(
      fc.property(flags, (list) => {
        placeFlags(list, -45, 665).forEach((label, index) => {
          expect(label.left).toBeGreaterThanOrEqual(-45);
          expect(label.left + (list[index]?.width ?? 0)).toBeLessThanOrEqual(665);
        });
      }),
    );
  });

  it("uses one lane where labels stand far apart", () => {
    const apart = [10, 200, 400].map((x) => ({ x, width: 90 }));
    expect(placeFlags(apart, 0, 600).map((flag) => flag.lane)).toEqual([0, 0, 0]);
  });
});
