import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { jointPower } from "../../../src/methods/planning/joint-power.ts";
import { type CriterionOptions, criterionVerdict } from "../../../src/methods/proportion/criterion.ts";
import { expectClose } from "../../tolerance.ts";
import { logChoose } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";

type Side = "at_least" | "at_most";
interface Asked {
  readonly label: string;
  readonly expected: number;
  readonly threshold: number;
  readonly direction: Side;
  readonly total: number;
}
const asked = (expected: number, threshold: number, total: number, direction: Side = "at_least"): Asked => ({
  label: "a criterion",
  expected,
  threshold,
  direction,
  total,
});
const CHOSEN: CriterionOptions = { method: "wilson", level: 0.8, sides: "two" };
const EXACT: CriterionOptions = { method: "clopper_pearson", level: 0.95, sides: "two" };

const favourable = ({ expected, direction }: Asked) => (direction === "at_least" ? expected : 1 - expected);
const isMet = (inFavour: number, { total, threshold, direction }: Asked, options = CHOSEN) => {
  const count = direction === "at_least" ? inFavour : total - inFavour;
  return criterionVerdict({ count, total, threshold, direction }, options) === "met";
};
/** Probabilities of both, first only, second only, neither. */
function cellsOf(first: Asked, second: Asked, correlation: number): [number, number, number, number] {
  const [p, q] = [favourable(first), favourable(second)];
  const both = p * q + correlation * Math.sqrt(p * (1 - p) * q * (1 - q));
  return [both, p - both, q - both, 1 - p - q + both].map((cell) => Math.max(0, cell)) as [
    number,
    number,
    number,
    number,
  ];
}
const power = (share: number, times: number) => (times === 0 ? 1 : share ** times);
const mass = (count: number, total: number, share: number) =>
  Math.exp(logChoose(total, count)) * power(share, count) * power(1 - share, total - count);

/** Every table of the shared people, and every count of the others, one after the other. */
function byCounting(first: Asked, second: Asked, shared: number, correlation: number): number {
  const [p11, p10, p01, p00] = cellsOf(first, second, correlation);
  let sum = 0;
  for (let both = 0; both <= shared; both += 1) {
    for (let only = 0; only + both <= shared; only += 1) {
      for (let other = 0; other + only + both <= shared; other += 1) {
        const neither = shared - both - only - other;
        const ways =
          logChoose(shared, both) + logChoose(shared - both, only) + logChoose(shared - both - only, other);
        const table =
          Math.exp(ways) * power(p11, both) * power(p10, only) * power(p01, other) * power(p00, neither);
        sum += table * metByOwn(first, shared, both + only) * metByOwn(second, shared, both + other);
      }
    }
  }
  return sum;
}

function metByOwn(criterion: Asked, shared: number, already: number): number {
  const own = criterion.total - shared;
  let sum = 0;
  for (let count = 0; count <= own; count += 1) {
    if (isMet(already + count, criterion)) sum += mass(count, own, favourable(criterion));
  }
  return sum;
}

const SMALL = fc.record({
  first: fc.tuple(
    fc.integer({ min: 0, max: 20 }),
    fc.integer({ min: 2, max: 18 }),
    fc.integer({ min: 1, max: 14 }),
  ),
  second: fc.tuple(
    fc.integer({ min: 0, max: 20 }),
    fc.integer({ min: 2, max: 18 }),
    fc.integer({ min: 1, max: 14 }),
  ),
  sides: fc.tuple(fc.constantFrom<Side>("at_least", "at_most"), fc.constantFrom<Side>("at_least", "at_most")),
  part: fc.double({ min: 0, max: 1, noNaN: true }),
  strength: fc.double({ min: -1, max: 1, noNaN: true }),
});

describe("power for two criteria at once", () => {
  it("is the sum over every result that can come", () => {
    fc.assert(
      fc.property(SMALL, ({ first: one, second: two, sides, part, strength }) => {
        const first = asked(one[0] / 20, one[1] / 20, one[2], sides[0]);
        const second = asked(two[0] / 20, two[1] / 20, two[2], sides[1]);
        const shared = Math.round(part * Math.min(first.total, second.total));
        const criteria = [first, second];
        const { correlation: range } = compute(jointPower, { criteria, shared }, CHOSEN).values;
        const correlation = strength * Math.abs((strength < 0 ? range.least : range.most) ?? 0);
        const found = compute(jointPower, { criteria, shared, correlation }, CHOSEN);
        expect(faultsOf(found)).toEqual([]);
        const close = { relative: 1e-11, absolute: 1e-13 };
        const { stated, independent, lowest, highest } = found.values.together;
        const counted = (phi: number | null) => byCounting(first, second, shared, phi ?? 0);
        expectClose(stated, counted(correlation), close, "stated");
        expectClose(independent, counted(0), close, "independent");
        expectClose(lowest, counted(range.least), close, "lowest");
        expectClose(highest, counted(range.most), close, "highest");
        for (const value of [stated, independent]) {
          expect(value).toBeGreaterThanOrEqual((lowest ?? 2) - 1e-13);
          expect(value).toBeLessThanOrEqual((highest ?? -1) + 1e-13);
        }
      }),
      { numRuns: 150, seed: 1 },
    );
  });

  it("grows with the correlation", () => {
    const criteria = [asked(0.97, 0.9, 180), asked(0.96, 0.9, 160)];
    const { least, most } = compute(jointPower, { criteria, shared: 150 }).values.correlation;
    const at = (part: number) => {
      const correlation = (least ?? 0) + part * ((most ?? 0) - (least ?? 0));
      return compute(jointPower, { criteria, shared: 150, correlation }).values.together.stated ?? Number.NaN;
    };
    const grid = Array.from({ length: 11 }, (_, step) => at(step / 10));
    for (let step = 1; step < grid.length; step += 1) {
      expect(grid[step]).toBeGreaterThan(grid[step - 1] as number);
    }
  });

  it.each([
    [asked(0.98, 0.967, 1000), asked(0.97, 0.957, 900), 850, 0.75],
    [asked(0.55, 0.53, 2500), asked(0.48, 0.5, 2000, "at_most"), 1900, -0.6],
  ] as const)("agrees with a simulation of every person: %o", (first, second, shared, correlation) => {
    const { values } = compute(jointPower, { criteria: [first, second], shared, correlation }, EXACT);
    const [p11, p10, p01] = cellsOf(first, second, correlation);
    const random = randomStream(20_260_401, shared);
    const fewest = [first, second].map((one) => {
      let needed = one.total + 1;
      while (needed > 0 && isMet(needed - 1, one, EXACT)) needed -= 1;
      return needed;
    });
    const draws = 4000;
    let met = 0;
    for (let draw = 0; draw < draws; draw += 1) {
      let [inFirst, inSecond] = [0, 0];
      for (let person = 0; person < shared; person += 1) {
        const uniform = random();
        if (uniform < p11 + p10) inFirst += 1;
        if (uniform < p11 || (uniform >= p11 + p10 && uniform < p11 + p10 + p01)) inSecond += 1;
      }
      for (let person = shared; person < first.total; person += 1)
        if (random() < favourable(first)) inFirst += 1;
      for (let person = shared; person < second.total; person += 1)
        if (random() < favourable(second)) inSecond += 1;
      if (inFirst >= (fewest[0] as number) && inSecond >= (fewest[1] as number)) met += 1;
    }
    const stated = values.together.stated as number;
    const spread = Math.sqrt((stated * (1 - stated)) / draws);
    expect(Math.abs(met / draws - stated)).toBeLessThan(3.5 * spread);
    // It could not have come so close by taking the shared people for independent ones.
    expect(Math.abs(stated - (values.together.independent as number))).toBeGreaterThan(7 * spread);
  });

  // R 4.2.2: for each number of shared people in favour of the first, dbinom of the two kinds of people added by
  // plain convolution, pbinom for the others; borders by qbeta over all counts.
  it.each([
    [
      [asked(0.9, 0.88, 2000), asked(0.85, 0.83, 1500)],
      1200,
      0.3,
      [0.46311265113311728, 0.42928810059980316, 0.50292625776918543],
    ],
    [
      [asked(0.6, 0.58, 3000), asked(0.55, 0.53, 3000)],
      3000,
      -0.5,
      [0.26805504555469273, 0.22509991167161714, 0.51898201612838168],
    ],
  ] as const)("loses nothing with thousands of people: %o", (criteria, shared, correlation, expected) => {
    const { together } = compute(jointPower, { criteria: [...criteria], shared, correlation }, EXACT).values;
    for (const [at, kind] of (["stated", "lowest", "highest"] as const).entries()) {
      expectClose(together[kind], expected[at] as number, { relative: 1e-12 }, kind);
    }
  });

  it("holds for the criterion judged by its estimate alone, and for people who are all shared or none", () => {
    const criteria = [asked(0.9, 0.9, 20), asked(0.9, 0.9, 20)];
    const point = { rule: "point" } as const;
    const apart = compute(jointPower, { criteria, shared: 0 }, point).values;
    // 18 of 20 or more at 0.9: R 4.2.2 pbinom(17, 20, .9, lower.tail = FALSE).
    expectClose(apart.each[0]?.power, 0.6769268051894661, { relative: 1e-12 });
    expectClose(apart.together.highest, 0.6769268051894661 ** 2, { relative: 1e-12 });
    const same = compute(jointPower, { criteria, shared: 20, correlation: 1 }, point).values;
    expectClose(same.together.stated, 0.6769268051894661, { relative: 1e-12 });
    expect(same.correlation.most).toBe(1);
  });

  it("says what does not fit", () => {
    const criteria = [asked(0.98, 0.9, 60), asked(0.97, 0.9, 75)];
    expect(() => compute(jointPower, { criteria, shared: 61 })).toThrow(
      "input.shared: expected at most the smaller total, 60, received 61",
    );
    const beyond = compute(jointPower, { criteria, shared: 40, correlation: 0.9 });
    expect(beyond.values.together.stated).toBeNull();
    expect(beyond.notes).toEqual([
      {
        code: "beyond_frechet",
        path: "together.stated",
        message:
          "the proportions expected allow a correlation from -0.0251 to 0.8123 only: state one of these",
      },
    ]);
    const few = compute(jointPower, {
      criteria: [asked(0.98, 0.9, 5), asked(0.85, 0.9, 200)],
      shared: 5,
    });
    expect(few.values.together.highest).toBe(0);
    expect(few.notes.map(({ code, path }) => [code, path])).toEqual([
      ["out_of_reach", "each.0.power"],
      ["not_beyond", "each.1.power"],
    ]);
  });
});
