import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { curveRegression } from "../../../src/methods/pooling/curve-regression.ts";
import { rankCorrelation } from "../../../src/methods/pooling/rank-correlation.ts";
import { smallStudy } from "../../../src/methods/pooling/small-study.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Table = readonly [number, number, number, number];
const studiesOf = (tables: readonly Table[]) =>
  tables.map(([truePositives, falsePositives, falseNegatives, trueNegatives], place) => ({
    label: `study ${place + 1}`,
    truePositives,
    falsePositives,
    falseNegatives,
    trueNegatives,
  }));
const codes = (notes: readonly { code: string; path: string }[]) =>
  notes.map(({ code, path }) => `${code} ${path}`);
const regression = (tables: readonly Table[], correction: "none" | "zero_cells" | "all" = "none") =>
  compute(curveRegression, { studies: studiesOf(tables), correction, weights: "equal" });

/** One curve, odds ratio 36, at cutoffs with odds of a false reactive result of 1/9, 1/4, 2/3: no scatter. */
const ON_ONE_CURVE: readonly Table[] = [
  [80, 10, 20, 90],
  [90, 20, 10, 80],
  [96, 40, 4, 60],
];

describe("the summary curve by regression", () => {
  it("finds a curve on which all studies lie", () => {
    const found = regression(ON_ONE_CURVE);
    expect(faultsOf(found)).toEqual([]);
    const { line, oddsRatio, equalPoint, curve } = found.values;
    expectClose(line.slope.value, 0, { absolute: 1e-12 });
    expectClose(oddsRatio.value, 36, { relative: 1e-12 });
    // Odds 6 on both sides.
    expectClose(equalPoint.value, 6 / 7, { relative: 1e-12 });
    expectClose(curve[0]?.falsePositiveRate, 0.1, { relative: 1e-12 });
    expectClose(curve[0]?.truePositiveRate, 0.8, { relative: 1e-10 });
    expectClose(curve.at(-1)?.truePositiveRate, 0.96, { relative: 1e-10 });
  });

  it("turns round with the meaning of reactive", () => {
    const tables: readonly Table[] = [
      [45, 6, 5, 94],
      [62, 3, 14, 137],
      [28, 12, 9, 88],
      [90, 9, 6, 211],
    ];
    const one = regression(tables).values;
    // Exchanging those with and without the condition turns reactive into a sign against it: D stays, S turns.
    const turned = regression(tables.map(([a, b, c, d]) => [d, c, b, a] as const)).values;
    expectClose(turned.line.intercept.value, one.line.intercept.value ?? 0, { relative: 1e-10 });
    expectClose(turned.line.slope.value, -(one.line.slope.value ?? 0), { relative: 1e-10 });
  });

  it("says what can't be drawn", () => {
    const few = regression(ON_ONE_CURVE.slice(0, 2));
    expect(faultsOf(few)).toEqual([]);
    expect(codes(few.notes)).toContain("too_few_studies line");
    const same = regression([ON_ONE_CURVE[0], ON_ONE_CURVE[0], ON_ONE_CURVE[0]] as readonly Table[]);
    expect(faultsOf(same)).toEqual([]);
    expect(codes(same.notes)).toContain("no_variation line");
    const steep = regression([
      [50, 50, 50, 50],
      [90, 50, 10, 50],
      [99, 55, 1, 45],
    ]);
    expect(faultsOf(steep)).toEqual([]);
    const { slope } = steep.values.line;
    expect(steep.values.curve.length === 0).toBe(Math.abs(slope.value ?? 0) >= 1);
    const falling = regression([
      [50, 50, 50, 50],
      [90, 40, 10, 60],
      [99, 30, 1, 70],
    ]);
    expect(codes(falling.notes)).toContain("no_curve curve");
  });

  it("leaves studies out in the open", () => {
    const found = regression([...ON_ONE_CURVE, [0, 3, 0, 9], [9, 0, 3, 0], [9, 0, 3, 12]]);
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toEqual(
      expect.arrayContaining(["no_diseased list.3", "no_nondiseased list.4", "zero_count list.5"]),
    );
    expectClose(found.values.oddsRatio.value, 36, { relative: 1e-12 });
    expect(regression([...ON_ONE_CURVE, [9, 0, 3, 12]], "zero_cells").values.list[3]?.weight).toBe(1);
  });
});

describe("small studies against large ones", () => {
  it("finds a line on which all studies lie", () => {
    // Even studies of 4 × 100, 25 and 4 people: effective people 400, 100, 16, so x = .05, .1, .25.
    const found = compute(smallStudy, {
      studies: studiesOf([
        [160, 40, 40, 160],
        [40, 10, 10, 40],
        [7, 1, 1, 7],
      ]),
      correction: "none",
    });
    expect(faultsOf(found)).toEqual([]);
    const { list, line } = found.values;
    expect(list.map(({ effectivePeople }) => effectivePeople)).toEqual([400, 100, 16]);
    expectClose(list[2]?.logOddsRatio, Math.log(49), { relative: 1e-14 });
    expect(line.slope.value).toBeGreaterThan(0);
    expect(codes(found.notes)).toContain("low_power line.slopeP");
  });

  it("weighs uneven studies by what an even one would need", () => {
    const found = compute(smallStudy, { studies: studiesOf([[9, 10, 1, 90]]), correction: "none" });
    expect(faultsOf(found)).toEqual([]);
    expectClose(found.values.list[0]?.effectivePeople, (4 * 10 * 100) / 110, { relative: 1e-14 });
    expect(codes(found.notes)).toContain("too_few_studies line");
  });

  it("sees nothing in studies of one size", () => {
    const found = compute(smallStudy, {
      studies: studiesOf([
        [8, 2, 2, 8],
        [7, 3, 3, 7],
        [9, 1, 1, 9],
      ]),
      correction: "none",
    });
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toContain("no_variation line");
  });
});

describe("the rank correlation", () => {
  it("is the printed one, with its p-value over all orders", () => {
    // Of the 24 orders of four, two have a correlation of 1 or -1.
    const rising = rankCorrelation([
      [1, 10],
      [2, 20],
      [3, 25],
      [4, 90],
    ]);
    expect(rising).toEqual({ value: 1, p: 2 / 24, exact: true });
    expect(
      rankCorrelation([
        [1, 1],
        [2, 2],
      ]),
    ).toBeNull();
    expect(
      rankCorrelation([
        [1, 5],
        [2, 5],
        [3, 5],
      ]),
    ).toBeNull();
  });
});

it("lines are plain data, whatever the tables", () => {
  const count = fc.integer({ min: 0, max: 25 });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(count, count, count, count), { minLength: 1, maxLength: 12 }),
      fc.constantFrom("none" as const, "zero_cells" as const, "all" as const),
      fc.constantFrom("equal" as const, "inverse_variance" as const),
      (tables, correction, weights) => {
        const studies = studiesOf(tables);
        expect(faultsOf(compute(curveRegression, { studies, correction, weights }))).toEqual([]);
        expect(faultsOf(compute(smallStudy, { studies, correction }))).toEqual([]);
      },
    ),
    { numRuns: 60, seed: 9 },
  );
});
