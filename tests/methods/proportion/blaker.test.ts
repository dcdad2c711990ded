import { describe, expect, it } from "vitest";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { binomialMasses } from "../enumeration.ts";

/** Blaker's acceptability by its definition, from enumerated masses. Source: blaker2000 (recalled). */
function acceptability(count: number, masses: readonly number[]): number {
  const sum = (from: number, to: number) => {
    let total = 0;
    for (let at = from; at <= to; at += 1) total += masses[at] as number;
    return total;
  };
  const last = masses.length - 1;
  const lowerTail = sum(0, count);
  const upperTail = sum(count, last);
  if (lowerTail <= upperTail) {
    let opposite = 0;
    for (let at = last; at >= 0; at -= 1) {
      if (opposite + (masses[at] as number) > lowerTail * (1 + 1e-13)) break;
      opposite += masses[at] as number;
    }
    return Math.min(1, lowerTail + opposite);
  }
  let opposite = 0;
  for (let at = 0; at <= last; at += 1) {
    if (opposite + (masses[at] as number) > upperTail * (1 + 1e-13)) break;
    opposite += masses[at] as number;
  }
  return Math.min(1, upperTail + opposite);
}

const STEPS = 2000;

describe("Blaker's interval, against a search over a grid of 1,999 proportions", () => {
  it.each([1, 2, 3, 5, 8, 13, 20, 31])("total %i, every count: no acceptable proportion outside", (total) => {
    const wrong: string[] = [];
    for (const level of [0.9, 0.95, 0.99]) {
      const limits = Array.from({ length: total + 1 }, (_, count) =>
        proportionInterval(count, total, { method: "blaker", level }),
      );
      for (let step = 1; step < STEPS; step += 1) {
        const masses = binomialMasses(total, step / STEPS);
        limits.forEach(({ lower, upper }, count) => {
          const share = step / STEPS;
          if (share > lower - 1e-9 && share < upper + 1e-9) return;
          if (acceptability(count, masses) > 1 - level + 1e-9) wrong.push(`${count}/${total} at ${share}`);
        });
      }
    }
    expect(wrong).toEqual([]);
  });

  it("has limits that are themselves acceptable from just inside", () => {
    for (const total of [1, 2, 5, 13, 31, 60]) {
      for (let count = 0; count <= total; count += 1) {
        const { lower, upper } = proportionInterval(count, total, { method: "blaker", level: 0.95 });
        for (const share of [lower + 1e-9, upper - 1e-9]) {
          if (share <= 1e-9 || share >= 1 - 1e-9) continue;
          const accepted = acceptability(count, binomialMasses(total, share));
          expect(accepted, `${count}/${total} at ${share}`).toBeGreaterThan(0.05 - 1e-6);
        }
      }
    }
  });

  it("lies within Clopper and Pearson's", () => {
    for (const total of [1, 4, 17, 100, 1000, 100_000]) {
      for (const share of [0, 0.01, 0.3, 0.5, 0.97, 1]) {
        const count = Math.round(share * total);
        const inner = proportionInterval(count, total, { method: "blaker" });
        const outer = proportionInterval(count, total);
        expect(inner.lower).toBeGreaterThanOrEqual(outer.lower);
        expect(inner.upper).toBeLessThanOrEqual(outer.upper);
      }
    }
  });
});
