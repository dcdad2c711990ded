import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { rocCalibration } from "../../../src/methods/roc/calibration.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Numbers = readonly number[];
interface Instrument {
  readonly probabilities: Numbers;
  readonly ill: Numbers;
  readonly groups: number;
  readonly large: Numbers;
  readonly line: Numbers;
  readonly test: Numbers;
  readonly brier: Numbers;
  readonly groupTest: Numbers;
  readonly sizes: Numbers;
  readonly predicted: Numbers;
  readonly counts: Numbers;
}

/** R 4.2.2; see tests/reference/README.md. */
const instruments = (
  JSON.parse(
    readFileSync(
      new URL("../../reference/second-opinion-detection-calibration.json", import.meta.url),
      "utf8",
    ),
  ) as { calibration: readonly Instrument[] }
).calibration;

const codes = (notes: readonly { code: string; path: string }[]) =>
  notes.map(({ code, path }) => `${code} ${path}`);

describe("the calibration of an instrument", () => {
  it.each(instruments)("agrees with glm() and sums over people: $groups groups", (row) => {
    const positives = row.probabilities.filter((_, at) => row.ill[at] === 1);
    const negatives = row.probabilities.filter((_, at) => row.ill[at] === 0);
    const found = compute(rocCalibration, { positives, negatives }, { groups: row.groups });
    expect(faultsOf(found)).toEqual([]);
    const { large, recalibration, brier, groupTest, groups } = found.values;
    const near = { relative: 1e-9, absolute: 1e-13 };
    [large.intercept.value, large.standardError].forEach((value, at) => {
      expectClose(value, row.large[at] as number, near, `large ${at}`);
    });
    const { intercept, slope, interceptError, slopeError, chiSquare, p } = recalibration;
    [intercept.value, slope.value, interceptError, slopeError].forEach((value, at) => {
      expectClose(value, row.line[at] as number, near, `line ${at}`);
    });
    [chiSquare, p].forEach((value, at) => {
      expectClose(value, row.test[at] as number, { relative: 1e-8 }, `test ${at}`);
    });
    const parts = [
      brier.score,
      brier.standardError,
      brier.reliability,
      brier.resolution,
      brier.uncertainty,
      brier.within,
      brier.expected,
      brier.z,
      brier.p,
    ];
    parts.forEach((value, at) => {
      expectClose(value, row.brier[at] as number, near, `brier ${at}`);
    });
    [groupTest.chiSquare, groupTest.degreesOfFreedom, groupTest.p].forEach((value, at) => {
      expectClose(value, row.groupTest[at] as number, near, `groups ${at}`);
    });
    expect(groups.map(({ people }) => people)).toEqual(row.sizes);
    expect(groups.map(({ observed }) => observed.count)).toEqual(row.counts);
    groups.forEach(({ predicted }, at) => {
      expectClose(predicted, row.predicted[at] as number, near, `predicted ${at}`);
    });
  });

  it("finds nothing amiss where shares are as promised", () => {
    // 20 of 100, 50 of 100, 80 of 100.
    const many = (probability: number, people: number) => new Array<number>(people).fill(probability);
    const found = compute(rocCalibration, {
      positives: [...many(0.2, 20), ...many(0.5, 50), ...many(0.8, 80)],
      negatives: [...many(0.2, 80), ...many(0.5, 50), ...many(0.8, 20)],
    });
    expect(faultsOf(found)).toEqual([]);
    const { large, recalibration, brier, groupTest, overall } = found.values;
    expectClose(large.intercept.value, 0, { absolute: 1e-12 });
    expectClose(recalibration.slope.value, 1, { relative: 1e-10 });
    expectClose(recalibration.chiSquare, 0, { absolute: 1e-9 });
    expectClose(brier.reliability, 0, { absolute: 1e-15 });
    // The score is then what it should be: (0.16 + 0.25 + 0.16) / 3.
    expectClose(brier.score, 0.19, { relative: 1e-12 });
    expectClose(brier.z, 0, { absolute: 1e-9 });
    expectClose(brier.within, 0, { absolute: 1e-15 });
    expectClose(groupTest.chiSquare, 0, { absolute: 1e-20 });
    expectClose(overall.ratio.value, 1, { relative: 1e-14 });
  });

  it("turns round with what is predicted", () => {
    const input = { positives: [0.9, 0.4, 0.7, 0.2], negatives: [0.1, 0.5, 0.3, 0.8, 0.15] };
    const one = compute(rocCalibration, input, { groups: 3 }).values;
    const turned = compute(
      rocCalibration,
      { positives: input.negatives.map((p) => 1 - p), negatives: input.positives.map((p) => 1 - p) },
      { groups: 3 },
    ).values;
    expectClose(turned.brier.score, one.brier.score ?? 0, { relative: 1e-12 });
    expectClose(turned.recalibration.slope.value, one.recalibration.slope.value ?? 0, { relative: 1e-8 });
    expectClose(turned.recalibration.intercept.value, -(one.recalibration.intercept.value ?? 0), {
      relative: 1e-8,
    });
    expectClose(turned.large.intercept.value, -(one.large.intercept.value ?? 0), { relative: 1e-8 });
  });

  it("asks for an edge where the instrument is certain", () => {
    const input = { positives: [1, 0.7, 0.4], negatives: [0, 0, 0.6, 0.2] };
    const found = compute(rocCalibration, input);
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toEqual(expect.arrayContaining(["certain large", "certain recalibration"]));
    const moved = compute(rocCalibration, input, { edge: 0.01 });
    expect(faultsOf(moved)).toEqual([]);
    expect(moved.values.moved).toBe(3);
    expect(moved.values.recalibration.slope.value).not.toBeNull();
    expect(moved.values.brier).toEqual(found.values.brier);
  });

  it("says what can't be had", () => {
    const cases: readonly [string, Numbers, Numbers][] = [
      ["all_alike large", [0.2, 0.4], []],
      ["separated recalibration", [0.7, 0.9], [0.1, 0.3]],
      ["separated_downwards recalibration", [0.1, 0.2], [0.6]],
      ["one_value recalibration", [0.5], [0.5, 0.5]],
      ["impossible groupTest.p", [0], [1]],
      ["nothing_predicted overall.ratio", [0], [0]],
      ["no_variation brier.z", [0.5, 0.5], [0.5]],
      ["one_person brier.standardError", [0.3], []],
    ];
    for (const [code, positives, negatives] of cases) {
      const found = compute(rocCalibration, { positives: [...positives], negatives: [...negatives] });
      expect(faultsOf(found), code).toEqual([]);
      expect(codes(found.notes)).toContain(code);
    }
    expect(() => compute(rocCalibration, { positives: [], negatives: [] })).toThrow("at least one person");
    expect(() => compute(rocCalibration, { positives: [1.2], negatives: [] })).toThrow(
      "input.positives.0: expected a probability between 0 and 1",
    );
  });

  it("is plain data, and its parts add up, whatever the people", () => {
    const list = fc.array(
      fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1, 0.5, 0.25)),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(
        list,
        list,
        fc.integer({ min: 1, max: 12 }),
        fc.constantFrom(0, 0.001),
        (positives, negatives, groups, edge) => {
          fc.pre(positives.length + negatives.length > 0);
          const found = compute(rocCalibration, { positives, negatives }, { groups, edge });
          expect(faultsOf(found)).toEqual([]);
          expect(found.values.groups.length).toBeLessThanOrEqual(groups);
          expect(found.values.groups.reduce((sum, { people }) => sum + people, 0)).toBe(
            positives.length + negatives.length,
          );
          const { score, reliability, resolution, uncertainty, within } = found.values.brier;
          const sum = (reliability ?? 0) - (resolution ?? 0) + (uncertainty ?? 0) + (within ?? 0);
          expectClose(sum, score ?? 0, { absolute: 1e-12 });
        },
      ),
      { numRuns: 300, seed: 6 },
    );
  });
});
