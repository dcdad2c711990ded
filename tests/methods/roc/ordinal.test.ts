import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import {
  binormalLogLikelihood,
  binormalShares,
  binormalSlopes,
} from "../../../src/methods/roc/binormal-likelihood.ts";
import { rocCurve } from "../../../src/methods/roc/curve.ts";
import { rocOrdinal } from "../../../src/methods/roc/ordinal.ts";
import { normalCdf } from "../../../src/numeric/normal.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { normals } from "./drawn-people.ts";

const categoriesOf = (positives: readonly number[], negatives: readonly number[]) =>
  positives.map((people, place) => ({
    label: `category ${place}`,
    positives: people,
    negatives: negatives[place] as number,
  }));

describe("categories", () => {
  it("have the area of the readings they stand for", () => {
    const counts = fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { minLength: 2, maxLength: 7 });
    fc.assert(
      fc.property(counts, (people) => {
        const listed = (which: 0 | 1) =>
          people.flatMap((pair, place) => new Array<number>(pair[which]).fill(place));
        const found = compute(rocOrdinal, {
          categories: categoriesOf(
            people.map(([mine]) => mine),
            people.map(([, others]) => others),
          ),
        });
        const curve = compute(rocCurve, { positives: listed(0), negatives: listed(1), direction: "higher" });
        expect(found.values.area).toEqual(curve.values.area);
        expect(faultsOf(found)).toEqual([]);
      }),
    );
  });

  it("have an exact Hanley-McNeil error near that by placements: the two differ by divisors alone", () => {
    const { area, exponential } = compute(rocOrdinal, {
      categories: categoriesOf([30, 20, 20, 110, 330], [330, 60, 60, 110, 20]),
    }).values;
    expectClose(exponential.standardErrorExact, area.standardError as number, { relative: 0.05 });
  });

  it("that separate, or are too few, have no smooth curve, and a note says why", () => {
    for (const [positives, negatives, code] of [
      [[0, 0, 40], [30, 10, 0], "no_top"],
      [[0, 50], [40, 0], "too_few_categories"],
      [[0, 0, 5], [9, 0, 1], "too_few_categories"],
    ] as const) {
      const found = compute(rocOrdinal, { categories: categoriesOf(positives, negatives) });
      expect(found.values.binormal).toBeNull();
      expect(found.notes.filter(({ path }) => path === "binormal").map((one) => one.code)).toEqual([code]);
    }
  });
});

describe("two normal distributions", () => {
  const counts = { positives: [3, 2, 2, 11, 33], negatives: [33, 6, 6, 11, 2] };

  it("have slopes that are those of the likelihood, and shares that sum to 1", () => {
    const unknowns = Float64Array.of(1.4, 0.8, 0.2, 0.5, 0.9, 1.6);
    const { gradient } = binormalSlopes(counts, unknowns);
    const step = 1e-5;
    gradient.forEach((slope, place) => {
      const at = (by: number) =>
        binormalLogLikelihood(
          counts,
          unknowns.map((value, other) => (other === place ? value + by : value)),
        );
      expectClose(slope, (at(step) - at(-step)) / (2 * step), { relative: 1e-6, absolute: 1e-6 }, `${place}`);
    });
    const shares = binormalShares(unknowns);
    for (const list of [shares.positives, shares.negatives]) {
      expectClose(
        list.reduce((sum, share) => sum + share, 0),
        1,
        { relative: 1e-14 },
      );
    }
  });

  it("give back the counts that they themselves make, and three categories exactly", () => {
    const unknowns = Float64Array.of(1.5, 0.8, -0.3, 0.4, 1, 1.7);
    const shares = binormalShares(unknowns);
    const made = (list: Float64Array) => Array.from(list, (share) => Math.round(share * 1e8));
    const { binormal } = compute(rocOrdinal, {
      categories: categoriesOf(made(shares.positives), made(shares.negatives)),
    }).values;
    expectClose(binormal?.a.estimate.value, 1.5, { absolute: 1e-6 }, "a");
    expectClose(binormal?.b.estimate.value, 0.8, { absolute: 1e-6 }, "b");
    expectClose(binormal?.area.value, normalCdf(1.5 / Math.sqrt(1.64)), { absolute: 1e-7 }, "area");
    const three = compute(rocOrdinal, { categories: categoriesOf([9, 21, 70], [180, 12, 3]) }).values;
    expectClose(three.binormal?.fit.deviance, 0, { absolute: 1e-9 }, "deviance");
  });

  it("hold the truth about as often as they say, in 400 drawn studies of 100 and 100", () => {
    const [a, b, borders, studies] = [1.5, 0.8, [-0.3, 0.4, 1, 1.7], 400];
    const truth = normalCdf(a / Math.sqrt(1 + b * b));
    let hits = 0;
    for (let study = 0; study < studies; study += 1) {
      const normal = normals(41, study);
      const tally = (draw: () => number) => {
        const people = [0, 0, 0, 0, 0];
        for (let person = 0; person < 100; person += 1) {
          const reading = draw();
          const category = borders.filter((border) => reading > border).length;
          people[category] = (people[category] as number) + 1;
        }
        return people;
      };
      const negatives = tally(normal);
      const positives = tally(() => (a + normal()) / b);
      const area = compute(rocOrdinal, { categories: categoriesOf(positives, negatives) }).values.binormal
        ?.area;
      if (area !== undefined && (area.lower as number) <= truth && (area.upper as number) >= truth) hits += 1;
    }
    expect(Math.abs(hits / studies - 0.95)).toBeLessThan(0.044);
  });
});
