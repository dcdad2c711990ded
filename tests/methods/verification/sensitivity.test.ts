import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { beggGreenes } from "../../../src/methods/verification/begg-greenes.ts";
import { unverifiedShare } from "../../../src/methods/verification/completed.ts";
import { MEASURES } from "../../../src/methods/verification/fields.ts";
import { sensitivity } from "../../../src/methods/verification/sensitivity.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { strataOf } from "./tables.ts";

const SCAN = strataOf([231, 32, 166, 27, 54, 140]);
const demand = (measure: (typeof MEASURES)[number], threshold: number) => ({
  measure,
  threshold,
  direction: "at_least" as const,
});

describe("if the diseased were verified more readily", () => {
  it("is the correction of Begg and Greenes at an odds ratio of 1", () => {
    const corrected = compute(beggGreenes, { strata: SCAN }).values;
    for (const measure of MEASURES) {
      const found = compute(sensitivity, { strata: SCAN, criterion: demand(measure, 0.5) }).values;
      expect(found.atRandom).toEqual(corrected[measure]);
      expect(found.axes.both.points.find(({ oddsRatio }) => oddsRatio === 1)?.estimate).toEqual(
        corrected[measure],
      );
    }
  });

  it("recovers a truth in which the odds of verification are known", () => {
    // 1,000 nonreactive people, 100 diseased. 50 of them and 150 of the 900 others verified: odds 1 against .2,
    // an odds ratio of 5; 100 reactive, all verified. True sensitivity 80 / 180, specificity 900 / 920.
    const strata = strataOf([80, 20, 0, 50, 150, 800]);
    const cell = {
      label: "1",
      result: "nonreactive" as const,
      diseased: 50,
      nondiseased: 150,
      unverified: 800,
    };
    expectClose(unverifiedShare(cell, 5), 50 / 800, { relative: 1e-14 });
    const found = compute(
      sensitivity,
      { strata, criterion: demand("sensitivity", 0.5) },
      { highest: 5 },
    ).values;
    const last = found.axes.nonreactive.points.at(-1);
    expect(last?.oddsRatio).toBe(5);
    expectClose(last?.sensitivity, 80 / 180, { relative: 1e-13 });
    expectClose(last?.specificity, 900 / 920, { relative: 1e-13 });
  });

  it("finds the border of the estimate by arithmetic", () => {
    const criterion = demand("sensitivity", 0.8);
    const found = compute(sensitivity, { strata: SCAN, criterion }, { rule: "point" });
    expect(faultsOf(found)).toEqual([]);
    // Reactive diseased 231 / 263 × 429; four to one of them missed at the border; the rest is solving for the odds.
    const missed = ((231 / 263) * 429) / 4;
    const share = (missed - 27) / 140;
    const [border] = found.values.axes.nonreactive.borders;
    expectClose(border?.oddsRatio, 27 / 54 / (share / (1 - share)), { relative: 1e-11 });
    expectClose(border?.unverifiedNonreactive, share, { relative: 1e-11 });
    expectClose(border?.unverifiedReactive, 231 / 263, { relative: 1e-13 });
    expect(border).toMatchObject({ below: "not_met", above: "met" });
    expect(found.values.axes.nonreactive.holds).toEqual({ from: border?.oddsRatio, to: 10 });
    expect(found.values.verdictHolds).toBe(false);
  });

  it("judges each point as its own limits say, and changes at the borders only", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 80 }), { minLength: 6, maxLength: 6 }),
        fc.constantFrom(...MEASURES),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.constantFrom("at_least" as const, "at_most" as const),
        (numbers, measure, threshold, direction) => {
          const found = compute(sensitivity, {
            strata: strataOf(numbers),
            criterion: { measure, threshold, direction },
          });
          expect(faultsOf(found)).toEqual([]);
          const { axes } = found.values;
          for (const { points, borders, holds } of Object.values(axes)) {
            for (const [at, point] of points.entries()) {
              const { lower, upper } = point.estimate as { lower: number; upper: number };
              const met = direction === "at_least" ? lower >= threshold : upper <= threshold;
              const failed = direction === "at_least" ? upper < threshold : lower > threshold;
              expect(point.verdict).toBe(met ? "met" : failed ? "not_met" : "undecided");
              const within =
                (point.oddsRatio ?? 0) > (holds.from ?? 0) && (point.oddsRatio ?? 0) < (holds.to ?? 0);
              if (within) expect(point.verdict).toBe(found.values.verdict);
              const before = points[at - 1];
              if (before === undefined || before.verdict === point.verdict) continue;
              const between = borders.filter(
                ({ oddsRatio }) =>
                  (oddsRatio ?? 0) >= (before.oddsRatio ?? 0) && (oddsRatio ?? 0) <= (point.oddsRatio ?? 0),
              );
              expect(between.length).toBeGreaterThan(0);
            }
          }
        },
      ),
      { numRuns: 60, seed: 8 },
    );
  });

  it("lowers sensitivity and specificity with the reactive's odds ratio, and raises both with the other", () => {
    const found = compute(sensitivity, { strata: SCAN, criterion: demand("sensitivity", 0.8) }).values.axes;
    for (const measure of ["sensitivity", "specificity"] as const) {
      const falling = found.reactive.points.map((point) => -(point[measure] as number));
      const rising = found.nonreactive.points.map((point) => point[measure] as number);
      expect(falling).toEqual([...falling].sort((one, other) => one - other));
      expect(rising).toEqual([...rising].sort((one, other) => one - other));
    }
  });

  it("holds throughout where everybody was verified", () => {
    const found = compute(sensitivity, {
      strata: strataOf([96, 1, 0, 4, 99, 0]),
      criterion: demand("sensitivity", 0.8),
    });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values).toMatchObject({ verdict: "met", verdictHolds: true });
    expect(found.notes.map(({ code }) => code)).toContain("all_verified");
  });

  it("says what it can't judge: nobody verified, nobody missed", () => {
    const criterion = demand("sensitivity", 0.8);
    const blind = compute(sensitivity, { strata: strataOf([90, 10, 0, 0, 0, 900]), criterion });
    expect(faultsOf(blind)).toEqual([]);
    expect(blind.values.verdict).toBe("not_estimable");
    expect(blind.values.bounds).toEqual({ lowest: 90 / 990, highest: 1 });
    const flawless = compute(sensitivity, { strata: strataOf([50, 2, 10, 0, 80, 320]), criterion });
    expect(faultsOf(flawless)).toEqual([]);
    expect(flawless.values.verdict).toBe("not_estimable");
    expect(flawless.notes.map(({ code }) => code)).toContain("one_kind_only");
    const byPoint = compute(
      sensitivity,
      { strata: strataOf([50, 2, 10, 0, 80, 320]), criterion },
      { rule: "point" },
    );
    expect(byPoint.values.verdict).toBe("met");
  });

  it("is plain data, whatever the counts", () => {
    const counts = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(
        counts,
        fc.constantFrom(...MEASURES),
        fc.constantFrom("interval" as const, "point" as const),
        (numbers, measure, rule) => {
          fc.pre(numbers.some((people) => people > 0));
          const input = { strata: strataOf(numbers), criterion: demand(measure, 0.7) };
          expect(faultsOf(compute(sensitivity, input, { rule, points: 3 }))).toEqual([]);
        },
      ),
      { numRuns: 100, seed: 12 },
    );
  });

  it.each([
    [{ lowest: 2 }, "options.lowest: expected at most 1"],
    [{ highest: 0.5 }, "options.highest: expected at least 1"],
    [{ points: 51 }, "options.points"],
    [{ lowest: 0 }, "options.lowest"],
  ])("refuses %o", (options, message) => {
    expect(() =>
      compute(sensitivity, { strata: SCAN, criterion: demand("sensitivity", 0.8) }, options),
    ).toThrow(message);
  });
});
