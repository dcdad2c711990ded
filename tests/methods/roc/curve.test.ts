import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { rocCurve } from "../../../src/methods/roc/curve.ts";
import { hullRungs, keptRungs } from "../../../src/methods/roc/curve-points.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { normals, readings } from "./drawn-people.ts";

const some = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 2, maxLength: 25 });
const EXACT = { relative: 1e-12, absolute: 1e-14 };

/** The definition: every pair, and every person's placement. */
function overPairs(positives: readonly number[], negatives: readonly number[]) {
  const wins = positives.map((mine) =>
    negatives.map((other) => (mine > other ? 1 : mine === other ? 0.5 : 0)),
  );
  const mean = (list: readonly number[]) => list.reduce((sum, part) => sum + part, 0) / list.length;
  const ofPositives = wins.map(mean);
  const ofNegatives = negatives.map((_, place) => mean(wins.map((row) => row[place] as number)));
  const area = mean(ofPositives);
  const variance = (list: readonly number[]) =>
    list.reduce((sum, part) => sum + (part - area) ** 2, 0) / (list.length - 1) / list.length;
  return { area, standardError: Math.sqrt(variance(ofPositives) + variance(ofNegatives)) };
}

describe("the area", () => {
  it("is what going through every pair gives, with any ties", () => {
    fc.assert(
      fc.property(some, some, (positives, negatives) => {
        const { area } = compute(rocCurve, { positives, negatives, direction: "higher" }).values;
        const pairs = overPairs(positives, negatives);
        expectClose(area.value, pairs.area, EXACT, "area");
        expectClose(area.standardError, pairs.standardError, { relative: 1e-9, absolute: 1e-12 }, "error");
      }),
    );
  });

  it("turns into its complement when the groups are swapped, or the direction", () => {
    fc.assert(
      fc.property(some, some, (positives, negatives) => {
        const { area } = compute(rocCurve, { positives, negatives, direction: "higher" }).values;
        const swapped = compute(rocCurve, {
          positives: negatives,
          negatives: positives,
          direction: "higher",
        }).values;
        const turned = compute(rocCurve, { positives, negatives, direction: "lower" }).values;
        for (const other of [swapped.area, turned.area]) {
          expectClose(other.value, 1 - (area.value as number), EXACT, "area");
          expectClose(other.standardError, area.standardError as number, EXACT, "error");
          expectClose(other.score.lower, 1 - (area.score.upper as number), { absolute: 1e-9 }, "score");
        }
      }),
      { numRuns: 40 },
    );
  });

  it("and all of the curve stay when readings are stretched without changing their order", () => {
    fc.assert(
      fc.property(some, some, (positives, negatives) => {
        const stretched = (list: readonly number[]) => list.map((reading) => Math.exp(reading / 3) - 50);
        const plain = compute(rocCurve, { positives, negatives, direction: "higher" }).values;
        const other = compute(rocCurve, {
          positives: stretched(positives),
          negatives: stretched(negatives),
          direction: "higher",
        }).values;
        expect(other.area).toEqual(plain.area);
        expect(other.points.map(({ cutoff, ...rest }) => rest)).toEqual(
          plain.points.map(({ cutoff, ...rest }) => rest),
        );
      }),
      { numRuns: 40 },
    );
  });

  it("of all of a curve is the sum of its parts, by specificity as by sensitivity", () => {
    fc.assert(
      fc.property(
        some,
        some,
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (positives, negatives, at) => {
          const ranges = (["specificity", "sensitivity"] as const).flatMap((of) => [
            { of, from: 0, to: at },
            { of, from: at, to: 1 },
          ]);
          const { area, ranges: parts } = compute(
            rocCurve,
            { positives, negatives, direction: "higher" },
            { ranges },
          ).values;
          const part = (place: number) => parts[place]?.area as number;
          expectClose(part(0) + part(1), area.value as number, { absolute: 1e-12 }, "by specificity");
          expectClose(part(2) + part(3), area.value as number, { absolute: 1e-12 }, "by sensitivity");
        },
      ),
    );
  });

  it("of a range is 0.5 standardised where nothing is told, 1 where all is", () => {
    const ranges = [
      { of: "specificity" as const, from: 0.7, to: 0.95 },
      { of: "sensitivity" as const, from: 0.7, to: 0.95 },
    ];
    const told = (positives: number[], negatives: number[]) =>
      compute(rocCurve, { positives, negatives, direction: "higher" }, { ranges }).values.ranges.map(
        ({ standardised }) => standardised as number,
      );
    for (const value of told([1, 2, 3], [1, 2, 3])) expectClose(value, 0.5, { absolute: 1e-12 });
    for (const value of told([7, 8, 9], [1, 2, 3])) expectClose(value, 1, { absolute: 1e-12 });
  });
});

describe("the points", () => {
  it("are counted as one would, cutoff by cutoff", () => {
    fc.assert(
      fc.property(
        some,
        some,
        fc.constantFrom("higher" as const, "lower" as const),
        (positives, negatives, direction) => {
          const { points, cutoffs } = compute(rocCurve, { positives, negatives, direction }).values;
          expect(points).toHaveLength(cutoffs);
          for (const { cutoff, sensitivity, specificity } of points) {
            const reactive = (reading: number) =>
              direction === "higher" ? reading >= cutoff : reading <= cutoff;
            expect(sensitivity.count).toBe(positives.filter(reactive).length);
            expect(specificity.count).toBe(negatives.filter((reading) => !reactive(reading)).length);
          }
          expect(points.at(-1)?.sensitivity.value).toBe(1);
          expect(points.at(-1)?.specificity.value).toBe(0);
        },
      ),
      { numRuns: 50 },
    );
  });

  it("are thinned to the number asked, the hull kept, and the thinning said", () => {
    const normal = normals(4, 1);
    const input = {
      positives: readings(normal, 3000, 1.5),
      negatives: readings(normal, 3000, 0),
      direction: "higher" as const,
    };
    const found = compute(rocCurve, input, { points: 200 });
    const all = compute(rocCurve, { ...input, positives: input.positives }, { points: 2000 });
    expect(found.values.points).toHaveLength(200);
    expect(found.values.cutoffs).toBe(6000);
    expect(found.notes.map(({ code }) => code)).toContain("thinned");
    expect(found.values.area).toEqual(all.values.area);
    const hullArea = (points: typeof found.values.points) => {
      const [tp, fp] = [
        Float64Array.from(points, ({ sensitivity }) => sensitivity.count),
        Float64Array.from(points, ({ specificity }) => specificity.total - specificity.count),
      ];
      const corners = [
        { x: 0, y: 0 },
        ...hullRungs(tp, fp).map((rung) => ({ x: fp[rung] ?? 0, y: tp[rung] ?? 0 })),
      ];
      return corners.slice(1).reduce((sum, { x, y }, place) => {
        const before = corners[place] as { x: number; y: number };
        return sum + ((x - before.x) * (y + before.y)) / 2;
      }, 0);
    };
    expect(hullArea(found.values.points)).toBe(hullArea(all.values.points));
  });

  it("of the hull have no other point above the lines between them", () => {
    fc.assert(
      fc.property(some, some, (steps, others) => {
        const size = Math.min(steps.length, others.length);
        const sums = (list: readonly number[]) => {
          let sum = 0;
          return Float64Array.from(list.slice(0, size), (step) => {
            sum += step;
            return sum;
          });
        };
        const [tp, fp] = [sums(steps), sums(others)];
        const corners = [-1, ...hullRungs(tp, fp)];
        const at = (list: Float64Array, rung: number) => (rung < 0 ? 0 : (list[rung] as number));
        corners.slice(1).forEach((to, place) => {
          const from = corners[place] as number;
          for (let rung = 0; rung < size; rung += 1) {
            const turn =
              (at(fp, to) - at(fp, from)) * (at(tp, rung) - at(tp, from)) -
              (at(tp, to) - at(tp, from)) * (at(fp, rung) - at(fp, from));
            expect(turn).toBeLessThanOrEqual(0);
          }
        });
      }),
    );
    expect(keptRungs(Float64Array.of(1, 2), Float64Array.of(0, 1), 10)).toEqual([0, 1]);
  });
});

describe("what the data can't give", () => {
  const direction = "higher" as const;

  it("is null with a note", () => {
    for (const input of [
      { positives: [], negatives: [1, 2] },
      { positives: [1], negatives: [] },
      { positives: [], negatives: [] },
      { positives: [2], negatives: [1, 3] },
      { positives: [1, 1], negatives: [1, 1] },
      { positives: [5, 6], negatives: [1, 2] },
    ]) {
      const ranges = [{ of: "specificity" as const, from: 0.5, to: 1 }];
      const found = compute(rocCurve, { ...input, direction }, { ranges, replicates: 100 });
      expect(faultsOf(found)).toEqual([]);
    }
  });

  it("but an area of 1 still has a lower limit that knows how many people there were", () => {
    const lower = (people: number) => {
      const positives = Array.from({ length: people }, (_, place) => 100 + place);
      const negatives = Array.from({ length: people }, (_, place) => place);
      return compute(rocCurve, { positives, negatives, direction }).values.area.score.lower as number;
    };
    expect(lower(5)).toBeLessThan(0.85);
    expect(lower(20)).toBeGreaterThan(lower(5));
    expect(lower(500)).toBeLessThan(1);
  });

  it("is an error where the question is wrong", () => {
    const input = { positives: [1, 2], negatives: [0, 1], direction };
    const empty = [{ of: "specificity" as const, from: 0.5, to: 0.5 }];
    expect(() => compute(rocCurve, input, { ranges: empty })).toThrow(InputError);
    expect(() => compute(rocCurve, { ...input, positives: [Number.POSITIVE_INFINITY] })).toThrow(
      "input.positives.0: expected a finite number",
    );
    const many = { ...input, positives: new Array<number>(50_000).fill(1) };
    expect(() => compute(rocCurve, many, { replicates: 100_000 })).toThrow("options.replicates");
  });
});

describe("drawing people anew", () => {
  it("gives the same numbers for the same seed, others for another", () => {
    const normal = normals(9, 1);
    const input = {
      positives: readings(normal, 30, 1),
      negatives: readings(normal, 40, 0),
      direction: "higher" as const,
    };
    const drawn = (seed: number) => compute(rocCurve, input, { replicates: 200, seed }).values.drawn;
    expect(drawn(1)).toEqual(drawn(1));
    expect(drawn(2)?.standardError).not.toBe(drawn(1)?.standardError);
    const { area } = compute(rocCurve, input).values;
    expectClose(drawn(1)?.standardError, area.standardError as number, { relative: 0.25 }, "error");
  });
});
