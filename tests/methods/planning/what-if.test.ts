import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { whatIf } from "../../../src/methods/planning/what-if.ts";
import type { CriterionOptions } from "../../../src/methods/proportion/criterion.ts";
import { binomialMasses } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";
import { powersByCounting, sizesByCounting } from "./planned-power.ts";

const HORIZON = 60;
const MIDDLE: CriterionOptions = { method: "mid_p", level: 0.9, sides: "two" };
const parts = (least: number, most: number, many: number) =>
  fc.array(
    fc.integer({ min: least, max: most }).map((part) => part / 20),
    { minLength: 1, maxLength: many },
  );
/** P(at least so many count among those enrolled), by adding up. */
const chance = (needed: number, enrolled: number, share: number) =>
  binomialMasses(enrolled, share).reduce((sum, mass, count) => (count >= needed ? sum + mass : sum), 0);

describe("what if the kit, the demand or the prevalence is another", () => {
  it("has in every cell the sizes found by counting every result, and enough people enrolled for them", () => {
    const asked = fc.record({
      expected: parts(1, 19, 3),
      thresholds: parts(2, 18, 2),
      prevalences: parts(2, 18, 2),
      direction: fc.constantFrom("at_least" as const, "at_most" as const),
      of: fc.constantFrom("positives" as const, "negatives" as const),
    });
    const usables = fc.constantFrom(0.8, 1);
    fc.assert(
      fc.property(asked, usables, fc.constantFrom(0.5, 0.9), (input, usable, assurance) => {
        const options = { ...MIDDLE, usable, assurance, power: 0.75, horizon: HORIZON };
        const found = compute(whatIf, input, options);
        expect(faultsOf(found)).toEqual([]);
        const { cells } = found.values;
        expect(cells.map(({ expected, threshold }) => [expected, threshold])).toEqual(
          input.expected.flatMap((expected) => input.thresholds.map((threshold) => [expected, threshold])),
        );
        for (const { expected, threshold, first, stays, enrol } of cells as Required<typeof cells>) {
          const truth = { expected: expected as number, threshold: threshold as number };
          const { direction } = input;
          const beyond =
            direction === "at_least" ? truth.expected > truth.threshold : truth.expected < truth.threshold;
          const curve = beyond ? powersByCounting({ ...truth, direction }, MIDDLE, HORIZON) : [0];
          expect({ first, stays }).toEqual(sizesByCounting(curve, 0.75));
          expect(enrol.map(({ prevalence }) => prevalence)).toEqual(input.prevalences);
          for (const { prevalence, expected: mean, assured } of enrol) {
            if (stays === null) {
              expect([mean, assured]).toEqual([null, null]);
              continue;
            }
            const share = (input.of === "positives" ? (prevalence ?? 0) : 1 - (prevalence ?? 0)) * usable;
            expect((mean as number) * share).toBeGreaterThanOrEqual(stays - 1e-9);
            expect(((mean as number) - 1) * share).toBeLessThan(stays);
            expect(chance(stays, assured as number, share)).toBeGreaterThanOrEqual(assurance - 1e-12);
            if (stays < (assured as number)) {
              expect(chance(stays, (assured as number) - 1, share)).toBeLessThan(assurance);
            }
          }
        }
      }),
      { numRuns: 25, seed: 3 },
    );
  });

  it("works out no enrolment where no prevalence is given", () => {
    const input = { expected: [0.98], thresholds: [0.9], direction: "at_least" as const };
    const { values, notes } = compute(whatIf, input);
    expect(values.cells[0]?.enrol).toEqual([]);
    expect(values.cells[0]?.stays).toBeGreaterThan(0);
    expect(notes).toEqual([]);
  });

  it("says where nobody could enrol so many, and where there is nothing to enrol for", () => {
    const input = {
      expected: [0.98, 0.9],
      thresholds: [0.9],
      prevalences: [1e-9, 0.5],
      direction: "at_least" as const,
    };
    const found = compute(whatIf, input);
    expect(found.values.cells[0]?.enrol[0]).toEqual({ prevalence: 1e-9, expected: null, assured: null });
    expect(found.values.cells[0]?.enrol[1]?.assured).toBeGreaterThan(0);
    expect(found.notes.map(({ code, path }) => [code, path])).toEqual([
      ["too_many", "cells.0.enrol.0"],
      ["not_beyond_threshold", "cells.1.first"],
      ["not_beyond_threshold", "cells.1.stays"],
      ["no_size", "cells.1.enrol.0"],
      ["no_size", "cells.1.enrol.1"],
    ]);
  });
});
