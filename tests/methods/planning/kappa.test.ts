import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { kappa } from "../../../src/methods/agreement/kappa.ts";
import { planningKappa } from "../../../src/methods/planning/kappa.ts";
import { simulateKappa } from "../../../src/methods/planning/simulated-kappa.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const READERS = { kappa: 0.7, reactiveFirst: 0.4, reactiveSecond: 0.3, halfWidth: 0.1 };

describe("items for two readers", () => {
  it("have the standard error that agreement.kappa gives the expected table", () => {
    // 0.4 * 0.3 + 0.6 * 0.7 = 0.54 by chance, agreement 0.862, both reactive 0.281; 1,000 items.
    const table = [
      [281, 119],
      [19, 581],
    ];
    const seen = compute(kappa, { table }).values;
    expectClose(seen.kappa.value, 0.7, { relative: 1e-12 }, "kappa of the table");
    const { values } = compute(planningKappa, READERS, { draws: 100 });
    const error = (seen.standardError as number) * Math.sqrt(1000 / (values.total as number));
    expectClose(values.standardError, error, { relative: 1e-12 }, "standard error");
    expectClose(values.feasible.most, seen.largestKappa as number, { relative: 1e-12 }, "largest kappa");
    expectClose(values.observedAgreement, 0.862, { relative: 1e-12 }, "agreement");
    const disagreements = 0.138 * (values.total as number);
    expectClose(values.expectedDisagreements, disagreements, { relative: 1e-12 }, "disagreements");
  });

  it("are just enough by the formula: the wanted half-width is met, and with one fewer not", () => {
    const { total, standardError } = compute(planningKappa, READERS, { draws: 100 }).values;
    const half = 1.959963984540054 * (standardError as number);
    expect(half).toBeLessThanOrEqual(0.1);
    expect(half * Math.sqrt((total as number) / ((total as number) - 1))).toBeGreaterThan(0.1);
  });

  it("are drawn alike with the same seed only", () => {
    const drawn = (seed: number) => compute(planningKappa, READERS, { draws: 500, seed }).values.simulated;
    expect(drawn(3)).toEqual(drawn(3));
    expect(drawn(4)).not.toEqual(drawn(3));
  });

  it("give intervals that hold kappa about as often as stated where both results are common", () => {
    const { simulated } = compute(planningKappa, READERS, { draws: 4_000 }).values;
    // Four standard errors of 4,000 draws, and up to 1 % that the large-sample interval misses.
    expectClose(simulated.coverage, 0.95, { absolute: 0.0238 }, "coverage");
    expectClose(simulated.halfWidth, 0.1, { relative: 0.02 }, "half-width");
  });

  it("are assured by as many as other simulated studies confirm, and not by a tenth fewer", () => {
    const { assured, total } = compute(planningKappa, READERS, { draws: 2_000 }).values;
    expect(assured.probability as number).toBeGreaterThanOrEqual(0.9);
    expect(assured.total as number).toBeGreaterThan(total as number);
    const shares = { both: 0.281, firstOnly: 0.119, secondOnly: 0.019, neither: 0.581 };
    const wanted = { kappa: 0.7, halfWidth: 0.1, multiple: 1.959963984540054 };
    const precise = (items: number) =>
      simulateKappa(shares, items, wanted, { draws: 4_000, seed: 77 }).asPrecise;
    // Four standard errors of both simulations together.
    expectClose(precise(assured.total as number), 0.9, { absolute: 0.033 }, "with so many");
    expect(precise(Math.floor(0.9 * (assured.total as number)))).toBeLessThan(0.8);
  });

  it("are not planned for a kappa that the shares do not allow", () => {
    const found = compute(planningKappa, { ...READERS, kappa: 0.9 });
    expect(found.values.total).toBeNull();
    expect(found.notes[0]?.message).toMatch(/from -0\.522 to 0\.783/);
    expect(faultsOf(found)).toEqual([]);
  });

  it("warn where hardly any disagreement is to be expected", () => {
    const rare = { kappa: 0.9, reactiveFirst: 0.05, reactiveSecond: 0.05, halfWidth: 0.1 };
    const { values, notes } = compute(planningKappa, rare);
    expect(notes.map(({ code }) => code)).toContain("few_disagreements");
    expect(values.simulated.coverage as number).toBeLessThan(0.92);
  });

  it("are plain numbers or explained, whatever is asked", () => {
    const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
    const asked = fc.record({
      kappa: fc.double({ min: -0.99, max: 0.99, noNaN: true }),
      reactiveFirst: share,
      reactiveSecond: share,
      halfWidth: fc.double({ min: 1e-5, max: 0.99, noNaN: true }),
    });
    fc.assert(
      fc.property(asked, (input) => {
        expect(faultsOf(compute(planningKappa, input, { draws: 100 }))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
