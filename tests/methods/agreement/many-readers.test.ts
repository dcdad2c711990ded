import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { alphaData } from "../../../src/methods/agreement/alpha.ts";
import { measurePatterns } from "../../../src/methods/agreement/chance-agreement.ts";
import { chanceCorrected } from "../../../src/methods/agreement/chance-corrected.ts";
import { manyReaders } from "../../../src/methods/agreement/many-readers.ts";
import { groupPatterns } from "../../../src/methods/agreement/patterns.ts";
import { coefficientsOf, type ReadingData, resampled } from "../../../src/methods/agreement/resample.ts";
import { weightMatrix } from "../../../src/methods/agreement/weights.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Ratings = (number | null)[][];
const NEAR = { relative: 1e-9, absolute: 1e-12 };
const FEW = { replicates: 100 };
const rating = fc.oneof({ weight: 5, arbitrary: fc.integer({ min: 1, max: 4 }) }, fc.constant(null));
const RATINGS: fc.Arbitrary<Ratings> = fc
  .integer({ min: 1, max: 4 })
  .chain((readers) =>
    fc.array(fc.array(rating, { minLength: readers, maxLength: readers }), { minLength: 1, maxLength: 9 }),
  );
const SCALES = fc.constantFrom("nominal", "ordinal", "interval", "ratio");
const WEIGHTS = fc.constantFrom("none", "linear", "quadratic", "ordinal");
const NAMES = ["fleissKappa", "gwetAgreement", "krippendorffAlpha"] as const;

function expectSame(found: number | null, expected: number | null, what: string) {
  if (expected === null || found === null) expect(found, what).toBe(expected);
  else expectClose(found, expected, NEAR, what);
}

/** Alpha by its direct definition: mean squared difference within items over that between any two ratings. */
function alphaByPairs(ratings: Ratings, scale: string): number | null {
  const items = ratings.map((row) => row.filter((value) => value !== null)).filter((row) => row.length >= 2);
  const all = items.flat();
  const seen = (value: number) => all.filter((other) => other === value).length;
  const far = (one: number, other: number): number => {
    const [low, high] = [Math.min(one, other), Math.max(one, other)];
    if (low === high) return 0;
    if (scale === "nominal") return 1;
    if (scale === "interval") return (high - low) ** 2;
    if (scale === "ratio") return ((high - low) / (high + low)) ** 2;
    const between = all.filter((value) => value >= low && value <= high).length;
    return (between - (seen(low) + seen(high)) / 2) ** 2;
  };
  const within = items.flatMap((row) =>
    row.flatMap((one, at) => row.map((other, to) => (at === to ? 0 : far(one, other) / (row.length - 1)))),
  );
  const between = all.flatMap((one) => all.map((other) => far(one, other)));
  const sum = (parts: readonly number[]) => parts.reduce((total, part) => total + part, 0);
  if (sum(between) === 0) return null;
  return 1 - sum(within) / all.length / (sum(between) / (all.length * (all.length - 1)));
}

describe("many readers", () => {
  it("gives finite numbers, or a note, for every set of ratings", () => {
    fc.assert(
      fc.property(RATINGS, SCALES, WEIGHTS, (ratings, scale, weights) => {
        expect(faultsOf(compute(manyReaders, { ratings }, { scale, weights, ...FEW }))).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  it("alpha from coincidences is alpha by its direct definition", () => {
    fc.assert(
      fc.property(RATINGS, SCALES, (ratings, scale) => {
        const { values } = compute(manyReaders, { ratings }, { scale, ...FEW });
        expectSame(values.krippendorffAlpha.estimate.value, alphaByPairs(ratings, scale), scale);
      }),
      { numRuns: 200 },
    );
  });

  it("does not change when readers change places, item by item, or items their order", () => {
    fc.assert(
      fc.property(RATINGS, WEIGHTS, SCALES, (ratings, weights, scale) => {
        const turned = ratings.map((row, item) => [
          ...row.slice(item % row.length),
          ...row.slice(0, item % row.length),
        ]);
        const here = compute(manyReaders, { ratings }, { weights, scale, ...FEW }).values;
        const there = compute(manyReaders, { ratings: turned.reverse() }, { weights, scale, ...FEW }).values;
        for (const name of NAMES) {
          expectSame(there[name].estimate.value, here[name].estimate.value, name);
          expectSame(there[name].standardError, here[name].standardError, `error of ${name}`);
        }
      }),
      { numRuns: 100 },
    );
  });

  it("for two readers is Scott's pi, AC1 and alpha of the table", () => {
    const pair = fc.tuple(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 2 }));
    fc.assert(
      fc.property(fc.array(pair, { minLength: 3, maxLength: 40 }), (pairs) => {
        const table = [0, 1, 2].map((row) =>
          [0, 1, 2].map((column) => pairs.filter(([one, other]) => one === row && other === column).length),
        );
        const few = compute(chanceCorrected, { table }).values;
        const many = compute(manyReaders, { ratings: pairs }, { categories: [0, 1, 2], ...FEW }).values;
        expectSame(many.fleissKappa.estimate.value, few.scottPi.value, "pi");
        expectSame(many.fleissKappa.standardError, few.scottPiStandardError, "error of pi");
        expectSame(many.gwetAgreement.estimate.value, few.ac1.value, "AC1");
        expectSame(many.gwetAgreement.standardError, few.ac1StandardError, "error of AC1");
        expectSame(many.gwetAgreement.estimate.lower, few.ac1.lower, "limit of AC1");
        expectSame(many.krippendorffAlpha.estimate.value, few.krippendorffAlpha.value, "alpha");
      }),
      { numRuns: 60 },
    );
  });

  it("is 1 only where all readers agree on every item", () => {
    fc.assert(
      fc.property(RATINGS, WEIGHTS, (ratings, weights) => {
        const { values } = compute(manyReaders, { ratings }, { weights, ...FEW });
        const full = ratings.every((row) => new Set(row.filter((value) => value !== null)).size <= 1);
        for (const name of NAMES) {
          const { value } = values[name].estimate;
          if (value !== null) expect(value === 1, name).toBe(full);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("does not care what the categories are called, or where an interval scale begins", () => {
    fc.assert(
      fc.property(RATINGS, fc.integer({ min: -50, max: 50 }), (ratings, shift) => {
        const moved = ratings.map((row) => row.map((value) => (value === null ? null : 3 * value + shift)));
        const here = compute(
          manyReaders,
          { ratings },
          { scale: "interval", weights: "linear", ...FEW },
        ).values;
        const there = compute(
          manyReaders,
          { ratings: moved },
          { scale: "interval", weights: "linear", ...FEW },
        ).values;
        for (const name of NAMES) expectSame(there[name].estimate.value, here[name].estimate.value, name);
      }),
      { numRuns: 60 },
    );
  });

  it("explains one reader, ratings all the same, one item, and items nobody rated", () => {
    const codes = (ratings: Ratings) =>
      compute(manyReaders, { ratings }, FEW).notes.map(({ code, path }) => `${code} ${path}`);
    expect(codes([[1], [2], [1]])).toContain("nothing_compared fleissKappa");
    expect(codes([[null, null]])).toContain("nothing_compared krippendorffAlpha");
    expect(
      codes([
        [1, 1],
        [1, 1],
        [1, null],
      ]),
    ).toContain("no_variation gwetAgreement");
    expect(codes([[1, 2]])).toContain("one_item krippendorffAlpha.standardError");
    expect(
      codes([
        [1, 2],
        [2, 2],
        [null, null],
        [1, 1],
      ]),
    ).toContain("unrated_items items");
    expect(
      codes([
        [1, 2, 1],
        [2, 2, null],
      ]),
    ).toContain("unequal_ratings fleissZ");
    expect(
      codes([
        [1, 1],
        [2, 2],
        [2, 2],
      ]),
    ).toContain("no_width gwetAgreement.bootstrap.lower");
  });

  it("says which argument is wrong", () => {
    const run =
      (ratings: Ratings, options: object = {}) =>
      () =>
        compute(manyReaders, { ratings }, options);
    expect(run([[1, 2], [1]])).toThrow("input.ratings.1: expected 2 entries, one per reader, received [1]");
    expect(run([[1, 3]], { categories: [1, 2] })).toThrow(
      "input.ratings.0.1: expected one of the categories, received 3",
    );
    expect(run([[1, 2]], { categories: [2, 1] })).toThrow(
      "options.categories.1: expected more than the one before, 2, received 1",
    );
    expect(run([[-1, 2]], { scale: "ratio" })).toThrow(
      "input.ratings: expected ratings of 0 or more on a ratio scale",
    );
    expect(run([Array.from({ length: 101 }, (_, at) => at)])).toThrow("at most 100 different ratings");
    expect(run([])).toThrow("expected at least one item");
  });
});

describe("the bootstrap over items", () => {
  const ROWS = [
    [0, 0, 1],
    [1, 1, null],
    [2, 1, 2],
    [0, 0, 0],
  ];
  const weights = weightMatrix("none", 3);
  const grouped = groupPatterns(ROWS, 3);
  const plain = measurePatterns(grouped.patterns, weights);
  const data: ReadingData = {
    grouped,
    plain,
    plainWeights: weights,
    weighted: plain,
    weights,
    alpha: alphaData(grouped.patterns, [0, 1, 2], "nominal"),
  };

  it("is the same however the replicates are split", () => {
    const whole = resampled(data, 7, 0, 50);
    const parts = [...resampled(data, 7, 0, 13), ...resampled(data, 7, 13, 1), ...resampled(data, 7, 14, 36)];
    expect(parts).toEqual(whole);
    expect(resampled(data, 8, 0, 50)).not.toEqual(whole);
  });

  it("gives the same limits for the same seed, others for another", () => {
    const limits = (seed: number) =>
      compute(manyReaders, { ratings: ROWS }, { seed, ...FEW }).values.gwetAgreement.bootstrap;
    expect(limits(3)).toEqual(limits(3));
    expect(limits(3)).not.toEqual(limits(4));
  });

  it("draws each of the possible samples as often as chance would, by enumeration", () => {
    const replicates = resampled(data, 11, 0, 20_000);
    const patternOfItem = grouped.patterns.flatMap(({ items }, pattern) =>
      new Array<number>(items).fill(pattern),
    );
    expect(patternOfItem).toHaveLength(4);
    for (const name of NAMES) {
      const all: number[] = [];
      for (let code = 0; code < 256; code += 1) {
        const items = new Array<number>(grouped.patterns.length).fill(0);
        for (const drawn of [code & 3, (code >> 2) & 3, (code >> 4) & 3, code >> 6]) {
          const pattern = patternOfItem[drawn] as number;
          items[pattern] = (items[pattern] ?? 0) + 1;
        }
        const value = coefficientsOf(data, items)[name];
        if (value !== null) all.push(value);
      }
      const drawn = replicates.flatMap((replicate) => (replicate[name] === null ? [] : [replicate[name]]));
      const mean = (values: readonly number[]) =>
        values.reduce((total, value) => total + value, 0) / values.length;
      const centre = mean(all);
      const spread = Math.sqrt(mean(all.map((value) => (value - centre) ** 2)));
      const error = spread / Math.sqrt(drawn.length);
      expect(Math.abs(mean(drawn) - centre) / error, name).toBeLessThan(4);
      const share = all.length / 256;
      const shareError = Math.sqrt((share * (1 - share)) / replicates.length);
      expect(Math.abs(drawn.length / replicates.length - share)).toBeLessThanOrEqual(4 * shareError);
    }
  });
});
