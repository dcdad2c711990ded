import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { FALL, meanHalfWidth, RISE } from "../../../src/methods/planning/expected-width.ts";
import { planningPrecision } from "../../../src/methods/planning/precision.ts";
import { planningPrecisionNormal } from "../../../src/methods/planning/precision-normal.ts";
import { INTERVAL_METHODS, type IntervalMethod } from "../../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { expectClose } from "../../tolerance.ts";

/** Every result of a total with its probability, by multiplying out: nothing of the methods' own sums. */
function everyResult(total: number, share: number): number[] {
  let masses = [1];
  for (let person = 0; person < total; person += 1) {
    masses = Array.from(
      { length: masses.length + 1 },
      (_, count) => (masses[count] ?? 0) * (1 - share) + (masses[count - 1] ?? 0) * share,
    );
  }
  return masses;
}

function halfWidths(total: number, method: IntervalMethod, level: number): number[] {
  return Array.from({ length: total + 1 }, (_, count) => {
    const { lower, upper } = proportionInterval(count, total, { method, level });
    return (upper - lower) / 2;
  });
}

/** The first total at which something holds, and the one from which on it holds up to the last. */
function reached(holds: readonly boolean[]): { first: number | null; stays: number | null } {
  const first = holds.indexOf(true) + 1;
  const last = holds.lastIndexOf(false) + 1;
  return { first: first === 0 ? null : first, stays: last === holds.length ? null : last + 1 };
}

describe("planning.precision", () => {
  const HORIZON = 115;
  it.each(INTERVAL_METHODS)("finds the totals that going through all results finds: %s", (method) => {
    for (const [expected, halfWidth] of [
      [0.98, 0.045],
      [0.6, 0.1],
      [1, 0.03],
      [0.05, 0.06],
    ] as const) {
      const options = { method, assurance: 0.8, horizon: HORIZON };
      const { expectedWidth, assured } = compute(planningPrecision, { expected, halfWidth }, options).values;
      const totals = Array.from({ length: HORIZON }, (_, at) => {
        const masses = everyResult(at + 1, expected);
        const widths = halfWidths(at + 1, method, 0.95);
        return {
          mean: masses.reduce((sum, mass, count) => sum + mass * (widths[count] ?? 0), 0),
          chance: masses.reduce(
            (sum, mass, count) => sum + ((widths[count] ?? 1) <= halfWidth ? mass : 0),
            0,
          ),
        };
      });
      const place = `${method} ${expected} within ${halfWidth}`;
      const byMean = reached(totals.map(({ mean }) => mean <= halfWidth));
      expect({ first: expectedWidth.first, stays: expectedWidth.stays }, place).toEqual(byMean);
      const byChance = reached(totals.map(({ chance }) => chance >= 0.8));
      expect({ first: assured.first, stays: assured.stays }, place).toEqual(byChance);
      if (byMean.stays !== null) {
        const { mean } = totals[byMean.stays - 1] as { mean: number };
        expectClose(expectedWidth.halfWidth, mean, { relative: 1e-12 }, place);
      }
      if (byChance.stays !== null) {
        const { chance } = totals[byChance.stays - 1] as { chance: number };
        expectClose(assured.probability, chance, { relative: 1e-12 }, place);
      }
    }
  });

  it.each(INTERVAL_METHODS)(
    "may pass over totals as it does: widths move slowly, mirror each other: %s",
    (method) => {
      const blaker = method === "blaker";
      for (const level of blaker ? [0.9] : [0.5, 0.95, 0.999]) {
        for (const share of [0, 0.002, 0.03, 0.2, 0.5]) {
          let before = 0;
          for (let total = 1; total <= (blaker ? 45 : 75); total += 1) {
            const mean = meanHalfWidth(total, share, { method, level });
            if (before > 0) {
              const power = Math.log(mean / before) / Math.log(total / (total - 1));
              expect(power).toBeGreaterThan(-FALL);
              if (!blaker) expect(power).toBeLessThan(RISE);
            }
            before = mean;
          }
        }
        for (const total of [1, 2, 7, 30, 61, 200]) {
          const widths = halfWidths(total, method, level);
          for (let count = 0; count <= total / 2; count += 1) {
            expectClose(
              widths[count],
              widths[total - count] as number,
              { relative: 1e-9 },
              `${count}/${total}`,
            );
            if (!blaker && count > 0) {
              expect(widths[count] as number).toBeGreaterThanOrEqual(
                (widths[count - 1] as number) * (1 - 1e-12),
              );
            }
          }
        }
      }
    },
  );

  it("knows that Blaker's interval lies between the exact ones at its level and with twice the error", () => {
    for (const total of [1, 5, 24, 57, 130]) {
      for (const level of [0.6, 0.95]) {
        const [inside, outside] = [
          halfWidths(total, "clopper_pearson", 2 * level - 1),
          halfWidths(total, "clopper_pearson", level),
        ];
        for (const [count, width] of halfWidths(total, "blaker", level).entries()) {
          expect(width).toBeGreaterThanOrEqual((inside[count] as number) * (1 - 1e-9));
          expect(width).toBeLessThanOrEqual((outside[count] as number) * (1 + 1e-9));
        }
      }
    }
  });

  it("gives null and says what to change where the horizon is too near", () => {
    const { values, notes } = compute(planningPrecision, { expected: 0.9, halfWidth: 0.01 }, { horizon: 50 });
    expect(values.expectedWidth).toEqual({ first: null, stays: null, halfWidth: null });
    expect(values.assured).toEqual({ first: null, stays: null, probability: null });
    const paths = ["first", "stays", "halfWidth"].map((field) => `expectedWidth.${field}`);
    expect(notes.map(({ path }) => path)).toEqual([
      ...paths,
      "assured.first",
      "assured.stays",
      "assured.probability",
    ]);
    expect(notes[0]?.message).toContain("look further");
  });

  it("refuses a half-width that no interval can have", () => {
    expect(() => compute(planningPrecision, { expected: 0.9, halfWidth: 0.6 })).toThrow(/input.halfWidth/);
    expect(() => compute(planningPrecision, { expected: 1.1, halfWidth: 0.1 })).toThrow(/input.expected/);
  });
});

describe("planning.precision_normal", () => {
  // Recomputed with R 4.2.2: ceiling(qnorm(.975)^2 * p * (1 - p) / h^2).
  it.each([
    [0.98, 0.02, 189],
    [0.95, 0.03, 203],
    [0.9, 0.05, 139],
  ])("%d within %d takes %i", (sensitivity, halfWidth, diseased) => {
    const input = { sensitivity, specificity: 0.9, halfWidth, prevalence: 0.02 };
    expect(compute(planningPrecisionNormal, input).values.diseased).toBe(diseased);
  });

  it("mirrors when the condition and its absence change places", () => {
    const input = { sensitivity: 0.93, specificity: 0.81, halfWidth: 0.04, prevalence: 0.3 };
    const mirrored = { sensitivity: 0.81, specificity: 0.93, halfWidth: 0.04, prevalence: 0.7 };
    const [one, other] = [input, mirrored].map((each) => compute(planningPrecisionNormal, each).values);
    expect(one?.diseased).toBe(other?.nondiseased);
    expect(one?.enrolledForSensitivity).toBe(other?.enrolledForSpecificity);
    expect(one?.enrolled).toBe(other?.enrolled);
  });
});
