import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningAtLeastOne } from "../../../src/methods/planning/at-least-one.ts";
import { expectClose } from "../../tolerance.ts";
import { choose, quotient } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";

describe("people needed to find at least one", () => {
  it("agrees with counting every sample of a small population", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 90 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.constantFrom(0.5, 0.8, 0.9, 0.95, 0.99),
        (population, part, assurance) => {
          const affected = Math.max(1, Math.min(population - 1, Math.round(part * population)));
          const prevalence = affected / population;
          const found = compute(planningAtLeastOne, { prevalence, population }, { assurance });
          expect(faultsOf(found)).toEqual([]);
          expect(found.values.affected).toBe(affected);
          const chance = (total: number) =>
            1 - quotient(choose(population - affected, total), choose(population, total));
          const total = found.values.total as number;
          expectClose(found.values.probability, chance(total), { relative: 1e-11 }, "probability");
          expect(chance(total)).toBeGreaterThan(assurance - 1e-11);
          expect(chance(total - 1)).toBeLessThan(assurance);
        },
      ),
      { numRuns: 300, seed: 20263 },
    );
  });

  it("counts no one more for a power that is exact: 1 - 0.1² is 0.99", () => {
    const { values } = compute(planningAtLeastOne, { prevalence: 0.9 }, { assurance: 0.99 });
    expect(values.total).toBe(2);
  });

  it("takes fewer from a small population, and as many from a very large one", () => {
    const very = compute(planningAtLeastOne, { prevalence: 0.02 }).values.total as number;
    const large = compute(planningAtLeastOne, { prevalence: 0.02, population: 1_000_000_000 });
    const small = compute(planningAtLeastOne, { prevalence: 0.02, population: 200 });
    expect(large.values.total).toBe(very);
    expect(small.values.total).toBeLessThan(very);
  });

  it("rounds the people affected up: a share above 0 is one person or more", () => {
    const { values } = compute(planningAtLeastOne, { prevalence: 0.001, population: 10 });
    expect(values).toMatchObject({ affected: 1, total: 10, probability: 1 });
    expect(compute(planningAtLeastOne, { prevalence: 0.07, population: 100 }).values.affected).toBe(7);
  });

  it("says what to change where more are needed than can be counted", () => {
    const found = compute(planningAtLeastOne, { prevalence: 1e-17 });
    expect(found.values).toMatchObject({ total: null, probability: null });
    expect(faultsOf(found)).toEqual([]);
    expect(found.notes[1]?.message).toMatch(/look for a higher prevalence/);
  });

  it("refuses a prevalence of nobody or everybody", () => {
    expect(() => compute(planningAtLeastOne, { prevalence: 0 })).toThrow(/prevalence/);
    expect(() => compute(planningAtLeastOne, { prevalence: 1 })).toThrow(/prevalence/);
    expect(() => compute(planningAtLeastOne, { prevalence: 0.5, population: 0 })).toThrow(/population/);
  });
});
