import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { criterion, criterionVerdict } from "../../../src/methods/proportion/criterion.ts";
import { faultsOf } from "../plain-values.ts";

const ASKED = fc
  .record({
    total: fc.integer({ min: 1, max: 300 }),
    part: fc.double({ min: 0, max: 1, noNaN: true }),
    percent: fc.integer({ min: 1, max: 99 }),
    direction: fc.constantFrom<("at_least" | "at_most")[]>("at_least", "at_most"),
  })
  .map(({ total, part, percent, direction }) => ({
    count: Math.round(part * total),
    total,
    threshold: percent / 100,
    direction,
  }));

describe("the rule of a criterion", () => {
  it("changes nothing when it is absent or says interval", () => {
    fc.assert(
      fc.property(ASKED, (input) => {
        const plain = compute(criterion, input);
        const named = compute(criterion, input, { rule: "interval" });
        expect(plain.values).toEqual(named.values);
        expect(Object.keys(plain.options)).toEqual(["method", "level", "sides"]);
      }),
      { numRuns: 60 },
    );
  });

  it("one_sided is what sides: one is", () => {
    fc.assert(
      fc.property(ASKED, (input) => {
        const { values } = compute(criterion, input, { rule: "one_sided" });
        expect(values).toEqual(compute(criterion, input, { sides: "one" }).values);
      }),
      { numRuns: 60 },
    );
  });

  it("point compares count with threshold times total in whole numbers, and is never undecided", () => {
    fc.assert(
      fc.property(ASKED, (input) => {
        const found = compute(criterion, input, { rule: "point" });
        const share = 100 * input.count;
        const demanded = Math.round(100 * input.threshold) * input.total;
        const met = input.direction === "at_least" ? share >= demanded : share <= demanded;
        expect(found.values.verdict).toBe(met ? "met" : "not_met");
        expect(found.values.further).toBe(0);
        expect(faultsOf(found)).toEqual([]);
        expect(criterionVerdict(input, found.options)).toBe(found.values.verdict);
      }),
      { numRuns: 400 },
    );
  });

  it("has the same verdict alone as with all the rest", () => {
    fc.assert(
      fc.property(ASKED, fc.constantFrom<("two" | "one")[]>("two", "one"), (input, sides) => {
        const found = compute(criterion, input, { sides });
        expect(criterionVerdict(input, found.options)).toBe(found.values.verdict);
      }),
      { numRuns: 100 },
    );
  });
});
