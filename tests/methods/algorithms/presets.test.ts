import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { PRESETS, type Preset } from "../../../src/core/preset-names.ts";
import { dependenceBounds } from "../../../src/methods/algorithms/dependence-bounds.ts";
import type { Dependence } from "../../../src/methods/algorithms/fields.ts";
import type { Kit } from "../../../src/methods/algorithms/model.ts";
import { algorithmsOutcomes } from "../../../src/methods/algorithms/outcomes.ts";
import { checkAlgorithm } from "../../../src/methods/algorithms/paths.ts";
import { PRESET_KITS, presetSteps } from "../../../src/methods/algorithms/presets.ts";
import { expectClose } from "../../tolerance.ts";

const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const kit = (invalid: fc.Arbitrary<number>) => fc.record({ sensitivity: share, specificity: share, invalid });
const kitsOf = (least: number, most: number, invalid: fc.Arbitrary<number> = fc.constant(0)) =>
  fc
    .array(kit(invalid), { minLength: least, maxLength: most })
    .map((some): Kit[] => some.map((one, at) => ({ id: `kit ${at + 1}`, ...one })));
const idsOf = (kits: readonly Kit[]) => kits.map(({ id }) => id);
const product = (parts: readonly number[]) => parts.reduce((so, part) => so * part, 1);

function outcomes(
  preset: Preset,
  kits: Kit[],
  dependence: Dependence = { kind: "independent" },
  share?: number,
) {
  const steps = presetSteps(preset, idsOf(kits));
  const retest = share === undefined ? null : { share };
  return compute(algorithmsOutcomes, { kits, steps, retest, dependence, prevalences: [0.1] }).values;
}

describe.each(PRESETS)("%s", (preset) => {
  const [least, most] = PRESET_KITS[preset];
  const invalid = fc.double({ min: 0, max: 0.3, noNaN: true });

  it("can be followed, with every number of kits it takes, and refuses others", () => {
    for (let kits = least; kits <= most; kits += 1) {
      const ids = Array.from({ length: kits }, (_, at) => ({ id: `${at}` }));
      const steps = presetSteps(
        preset,
        ids.map(({ id }) => id),
      );
      expect(() => checkAlgorithm({ steps, retest: null }, ids)).not.toThrow();
    }
    expect(() => presetSteps(preset, [])).toThrow(/kits: expected .* kit ids for/);
    expect(() => presetSteps(preset, new Array<string>(most + 1).fill("A"))).toThrow(/kit ids/);
  });

  it("the probabilities of each truth sum to 1, and the devices at steps to those of kits", () => {
    fc.assert(
      fc.property(kitsOf(least, Math.min(most, 3), invalid), share, (kits, returning) => {
        const { byTruth, runsAtStep, paths } = outcomes(preset, kits, { kind: "independent" }, returning);
        for (const truth of ["diseased", "nondiseased"] as const) {
          const { positive, negative, inconclusive, lost, runs } = byTruth[truth];
          const ends = [positive, negative, inconclusive, lost] as number[];
          expectClose(
            ends.reduce((sum, end) => sum + end, 0),
            1,
            { relative: 1e-12 },
          );
          expectClose(
            paths.reduce((sum, path) => sum + (path[truth] ?? Number.NaN), 0),
            1,
            { relative: 1e-12 },
          );
          const byStep = truth === "diseased" ? "runsDiseased" : "runsNondiseased";
          expectClose(
            runsAtStep.reduce((sum, step) => sum + (step[byStep] ?? Number.NaN), 0),
            runs.reduce((sum, { mean }) => sum + (mean ?? Number.NaN), 0),
            { relative: 1e-12 },
          );
          for (const { distribution } of runs) {
            expectClose(
              distribution.reduce((sum, { probability }) => sum + (probability ?? Number.NaN), 0),
              1,
              { relative: 1e-12 },
            );
          }
        }
      }),
      { numRuns: 25, seed: 7 },
    );
  });
});

describe("textbook formulas (common practice; Vacek 1985 for the covariance, recalled)", () => {
  it("all reactive, independent: Se the product, Sp 1 - product of (1 - Sp)", () => {
    fc.assert(
      fc.property(kitsOf(2, 5), (kits) => {
        const { net } = outcomes("serial_confirm", kits);
        const [se, sp] = [kits.map((one) => one.sensitivity), kits.map((one) => one.specificity)];
        expectClose(net.sensitivity, product(se), { relative: 1e-12 });
        expectClose(net.specificity, 1 - product(sp.map((one) => 1 - one)), { relative: 1e-12 });
      }),
      { seed: 11 },
    );
  });

  it("any reactive, independent: Se 1 - product of (1 - Se), Sp the product", () => {
    fc.assert(
      fc.property(kitsOf(2, 4), (kits) => {
        const { net, byTruth } = outcomes("parallel", kits);
        const [se, sp] = [kits.map((one) => one.sensitivity), kits.map((one) => one.specificity)];
        expectClose(net.sensitivity, 1 - product(se.map((one) => 1 - one)), { relative: 1e-12 });
        expectClose(net.specificity, product(sp), { relative: 1e-12 });
        for (const { mean } of byTruth.diseased.runs) expectClose(mean, 1, { relative: 1e-12 });
      }),
      { seed: 12 },
    );
  });

  it("two kits with phi: the covariance is added where both agree", () => {
    fc.assert(
      fc.property(kitsOf(2, 2), share, share, (kits, partDiseased, partNondiseased) => {
        const [one, other] = kits as [Kit, Kit];
        const within = (first: number, second: number, part: number) => {
          const { least, most } = dependenceBounds(first, second).phi;
          return least + part * (most - least);
        };
        const diseased = within(one.sensitivity, other.sensitivity, partDiseased);
        const nondiseased = within(one.specificity, other.specificity, partNondiseased);
        const pairs = [{ first: one.id, second: other.id, diseased, nondiseased }];
        const covariance = (phi: number, first: number, second: number) =>
          phi * Math.sqrt(first * (1 - first) * second * (1 - second));
        const forDiseased = covariance(diseased, one.sensitivity, other.sensitivity);
        const forNondiseased = covariance(nondiseased, one.specificity, other.specificity);
        const bothRight = one.sensitivity * other.sensitivity + forDiseased;
        const bothFalse = (1 - one.specificity) * (1 - other.specificity) + forNondiseased;
        const tolerance = { relative: 1e-11, absolute: 1e-14 };
        const serial = outcomes("serial_confirm", kits, { kind: "pairs", pairs }).net;
        expectClose(serial.sensitivity, bothRight, tolerance);
        expectClose(serial.specificity, 1 - bothFalse, tolerance);
        const parallel = outcomes("parallel", kits, { kind: "pairs", pairs }).net;
        expectClose(parallel.sensitivity, one.sensitivity + other.sensitivity - bothRight, tolerance);
        expectClose(parallel.specificity, one.specificity + other.specificity - 1 + bothFalse, tolerance);
      }),
      { seed: 13 },
    );
  });

  it("a tie-breaker: two of three", () => {
    fc.assert(
      fc.property(kitsOf(3, 3), (kits) => {
        const [a, b, c] = kits.map((one) => one.sensitivity) as [number, number, number];
        const two = a * b + a * c + b * c - 2 * a * b * c;
        expectClose(outcomes("tie_breaker", kits).net.sensitivity, two, { relative: 1e-12 });
      }),
      { seed: 14 },
    );
  });
});

describe("the laboratory", () => {
  const kits: Kit[] = [
    { id: "rapid", sensitivity: 0.95, specificity: 0.97, invalid: 0.04 },
    { id: "next", sensitivity: 0.9, specificity: 0.99, invalid: 0.03 },
    { id: "laboratory", sensitivity: 0.999, specificity: 0.998, invalid: 0 },
  ];

  it("decides on reactive and invalid results of the one rapid kit", () => {
    const { net, runsAtStep } = outcomes("laboratory_confirm", [kits[0] as Kit, kits[2] as Kit]);
    const none = 0.04 ** 2;
    const sent = none + (1 - none) * 0.95;
    expectClose(runsAtStep[1]?.diseased, sent, { relative: 1e-14 });
    expectClose(net.sensitivity, sent * 0.999, { relative: 1e-14 });
    const sentWrongly = none + (1 - none) * 0.03;
    expectClose(net.specificity, 1 - sentWrongly * 0.002, { relative: 1e-14 });
  });

  it("is asked only where two rapid kits differ or fail", () => {
    const { net } = outcomes("laboratory_confirm", kits);
    const [first, second] = [1 - 0.04 ** 2, 1 - 0.03 ** 2];
    const agree = first * 0.95 * second * 0.9;
    const sent = 1 - first + first * 0.95 * (1 - second * 0.9);
    expectClose(net.sensitivity, agree + sent * 0.999, { relative: 1e-14 });
  });
});
