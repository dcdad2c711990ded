import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { decisionAssurance } from "../../../src/methods/decision/assurance.ts";
import { criterion } from "../../../src/methods/proportion/criterion.ts";
import { INTERVAL_METHODS } from "../../../src/methods/proportion/intervals/rules.ts";
import { expectClose } from "../../tolerance.ts";
import { binomialMasses, logChoose } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";

const ASKED = fc.record({
  total: fc.integer({ min: 0, max: 60 }),
  part: fc.double({ min: 0, max: 1, noNaN: true }),
  percent: fc.integer({ min: 0, max: 100 }),
  direction: fc.constantFrom<("at_least" | "at_most")[]>("at_least", "at_most"),
  further: fc.integer({ min: 0, max: 60 }),
});
const METHOD = fc.constantFrom(...INTERVAL_METHODS);
type Asked = typeof ASKED extends fc.Arbitrary<infer T> ? T : never;
const inputOf = ({ total, part, percent, direction, further }: Asked) => ({
  count: Math.round(part * total),
  total,
  threshold: percent / 100,
  direction,
  further,
});

/** log (a)(a + 1)...(a + steps - 1), a product written out. */
function logRise(from: number, steps: number): number {
  let sum = 0;
  for (let at = 0; at < steps; at += 1) sum += Math.log(from + at);
  return sum;
}

/** Probabilities of 0..total events by the products of the urn scheme, for a Jeffreys posterior. */
function predictiveMasses(total: number, a: number, b: number): number[] {
  return Array.from({ length: total + 1 }, (_, count) =>
    Math.exp(logChoose(total, count) + logRise(a, count) + logRise(b, total - count) - logRise(a + b, total)),
  );
}

/** The probability of a verdict by asking the criterion about every result. */
function byListing(input: ReturnType<typeof inputOf>, method: (typeof INTERVAL_METHODS)[number]) {
  const { count, total, threshold, direction, further } = input;
  const share = count / total;
  const held = share === 0 || share === 1 ? null : binomialMasses(further, share);
  const predictive = predictiveMasses(further, count + 0.5, total - count + 0.5);
  const sums = { held: { met: 0, notMet: 0 }, predictive: { met: 0, notMet: 0 } };
  for (let more = 0; more <= further; more += 1) {
    const asked = { count: count + more, total: total + further, threshold, direction };
    const { verdict } = compute(criterion, asked, { method }).values;
    if (verdict !== "met" && verdict !== "not_met") continue;
    const key = verdict === "met" ? "met" : "notMet";
    sums.predictive[key] += predictive[more] ?? 0;
    sums.held[key] += held?.[more] ?? (more === share * further ? 1 : 0);
  }
  return sums;
}

describe("the assurance", () => {
  it("agrees with asking the criterion about every result, for every interval", () => {
    fc.assert(
      fc.property(ASKED, METHOD, (asked, method) => {
        const input = inputOf(asked);
        if (input.total === 0) return;
        const { values } = compute(decisionAssurance, input, { method, horizon: 0 });
        const sums = byListing(input, method);
        const close = { relative: 1e-9, absolute: 1e-12 };
        for (const key of ["met", "notMet"] as const) {
          expectClose(values.estimateHeld[key], sums.held[key], close, `held ${key}`);
          expectClose(values.predictive[key], sums.predictive[key], close, `predictive ${key}`);
        }
      }),
      { numRuns: 150 },
    );
  });

  it("finds the first number that reaches a target, and the one from which on it stays", () => {
    let compared = 0;
    fc.assert(
      fc.property(ASKED, METHOD, fc.constantFrom(0.5, 0.8, 0.9), (asked, method, target) => {
        const input = inputOf(asked);
        if (input.total === 0) return;
        const horizon = 60;
        const options = { method, targets: [target], horizon };
        const [found] = compute(decisionAssurance, input, options).values.smallest;
        const each = Array.from({ length: horizon + 1 }, (_, further) => {
          const { values } = compute(decisionAssurance, { ...input, further }, { method, horizon: 0 });
          return { estimateHeld: values.estimateHeld.met ?? 0, predictive: values.predictive.met ?? 0 };
        });
        for (const kind of ["estimateHeld", "predictive"] as const) {
          if (each.some((one) => Math.abs(one[kind] - target) < 1e-9)) continue;
          const reached = each.map((one) => one[kind] >= target);
          const first = reached.indexOf(true);
          const lastOpen = reached.lastIndexOf(false);
          expect(found?.[kind].first).toBe(first === -1 ? null : first);
          expect(found?.[kind].stays).toBe(lastOpen === horizon ? null : lastOpen + 1);
          compared += 1;
        }
      }),
      { numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(60);
  });

  it("is plain data with every null explained", () => {
    fc.assert(
      fc.property(ASKED, METHOD, (asked, method) => {
        const found = compute(decisionAssurance, inputOf(asked), { method, horizon: 40 });
        expect(faultsOf(found)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  it("tends to the probability that the criterion is truly reached, with very many more people", () => {
    const input = {
      count: 111,
      total: 113,
      threshold: 0.95,
      direction: "at_least",
      further: 500_000,
    } as const;
    const { values } = compute(decisionAssurance, input, { horizon: 0 });
    // The interval's own width at half a million people shifts the threshold by about 0.0006.
    expect(Math.abs((values.predictive.met ?? 0) - (values.probabilityNow ?? 1))).toBeLessThan(0.005);
  });

  it("with nobody more is the verdict so far", () => {
    for (const [count, verdict] of [
      [100, "met"],
      [93, "undecided"],
      [60, "not_met"],
    ] as const) {
      const input = { count, total: 100, threshold: 0.95, direction: "at_least", further: 0 } as const;
      const { values } = compute(decisionAssurance, input, { horizon: 0 });
      expect(values.verdictNow).toBe(verdict);
      expect(values.predictive.met).toBe(verdict === "met" ? 1 : 0);
      expect(values.estimateHeld.notMet).toBe(verdict === "not_met" ? 1 : 0);
    }
  });

  it("searches ten thousand numbers in less than a second", () => {
    const input = { count: 951, total: 1000, threshold: 0.95, direction: "at_least", further: 10 } as const;
    const start = performance.now();
    compute(decisionAssurance, input);
    expect(performance.now() - start).toBeLessThan(1000);
  });
});
