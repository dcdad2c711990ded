import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { jointPower } from "../../../src/methods/planning/joint-power.ts";
import { jointSize } from "../../../src/methods/planning/joint-size.ts";
import type { CriterionOptions } from "../../../src/methods/proportion/criterion.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { type Expected, powersByCounting, sizesByCounting } from "./planned-power.ts";

const HORIZON = 90;
const WILSON: CriterionOptions = { method: "wilson", level: 0.9, sides: "two" };

const CRITERION: fc.Arbitrary<Expected> = fc.record({
  expected: fc.integer({ min: 1, max: 19 }).map((part) => part / 20),
  threshold: fc.integer({ min: 2, max: 18 }).map((part) => part / 20),
  direction: fc.constantFrom("at_least" as const, "at_most" as const),
});
const labelled = (criteria: readonly Expected[]) =>
  criteria.map((criterion, at) => ({ label: `${at + 1}`, ...criterion }));
const isBeyond = ({ expected, threshold, direction }: Expected) =>
  direction === "at_least" ? expected > threshold : expected < threshold;

describe("people needed to meet several criteria", () => {
  it("gives each the total from which on it keeps its power, found by counting every result", () => {
    const criteria = fc.array(CRITERION, { minLength: 2, maxLength: 3 });
    const wanted = fc.constantFrom(0.5, 0.8, 0.9);
    fc.assert(
      fc.property(criteria, wanted, (asked, power) => {
        const options = { ...WILSON, power, horizon: HORIZON };
        const found = compute(jointSize, { criteria: labelled(asked) }, options);
        expect(faultsOf(found)).toEqual([]);
        const curves = asked.map((criterion) => powersByCounting(criterion, WILSON, HORIZON));
        const each = {
          independent: power ** (1 / asked.length),
          guaranteed: 1 - (1 - power) / asked.length,
        };
        for (const kind of ["independent", "guaranteed"] as const) {
          const { eachPower, sizes, together } = found.values[kind];
          expectClose(eachPower, each[kind], { relative: 1e-15 });
          const powers = asked.map((criterion, at) => {
            const curve = curves[at] as number[];
            const { stays } = isBeyond(criterion) ? sizesByCounting(curve, each[kind]) : { stays: null };
            expect(sizes[at]?.size.total).toBe(stays);
            if (stays === null) return null;
            expectClose(sizes[at]?.size.power, curve[stays] as number, { relative: 1e-11 });
            expectClose(sizes[at]?.size.powerBefore, curve[stays - 1] as number, { absolute: 1e-12 });
            return curve[stays] as number;
          });
          if (!powers.every((value) => value !== null)) {
            expect(together).toBeNull();
            continue;
          }
          const all =
            kind === "independent"
              ? powers.reduce((product, value) => product * value, 1)
              : 1 - powers.reduce((sum, value) => sum + 1 - value, 0);
          expectClose(together, all, { absolute: 1e-11 });
          expect(together).toBeGreaterThanOrEqual(power - 1e-11);
        }
      }),
      { numRuns: 60, seed: 2 },
    );
  });

  it("guarantees what it says even where the shared people hang together in the worst way", () => {
    const criteria = labelled([
      { expected: 0.9, threshold: 0.75, direction: "at_least" },
      { expected: 0.7, threshold: 0.5, direction: "at_least" },
    ]);
    const options = { ...WILSON, power: 0.5 };
    const { independent, guaranteed } = compute(jointSize, { criteria }, options).values;
    const lowest = (sizes: typeof guaranteed.sizes) => {
      const planned = criteria.map((one, at) => ({ ...one, total: sizes[at]?.size.total ?? 1 }));
      const shared = Math.min(...planned.map(({ total }) => total));
      const { together } = compute(jointPower, { criteria: planned, shared }, WILSON).values;
      return together.lowest as number;
    };
    expect(lowest(guaranteed.sizes)).toBeGreaterThanOrEqual(guaranteed.together as number);
    expect(guaranteed.together).toBeGreaterThanOrEqual(0.5);
    expect(lowest(independent.sizes)).toBeLessThan(independent.together as number);
  });

  it("says which criterion can't be shown, and that all can't be met then", () => {
    const criteria = labelled([
      { expected: 0.9, threshold: 0.75, direction: "at_least" },
      { expected: 0.76, threshold: 0.75, direction: "at_least" },
    ]);
    const { values, notes } = compute(jointSize, { criteria }, { ...WILSON, horizon: HORIZON });
    expect(values.independent.sizes[0]?.size.total).toBeGreaterThan(0);
    expect(values.guaranteed.together).toBeNull();
    expect(notes.map(({ code, path }) => [code, path])).toEqual([
      ["beyond_horizon", "independent.sizes.1.size"],
      ["no_size", "independent.together"],
      ["beyond_horizon", "guaranteed.sizes.1.size"],
      ["no_size", "guaranteed.together"],
    ]);
  });

  it("takes two to eight criteria", () => {
    const one = { expected: 0.9, threshold: 0.75, direction: "at_least" } as const;
    const many = (count: number) => labelled(Array.from({ length: count }, () => one));
    expect(() => compute(jointSize, { criteria: many(1) })).toThrow("expected two criteria or more");
    expect(() => compute(jointSize, { criteria: many(9) })).toThrow("expected at most 8 criteria");
    expect(compute(jointSize, { criteria: many(8) }).values.guaranteed.eachPower).toBeCloseTo(0.975);
  });
});
