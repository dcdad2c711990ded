import { describe, expect, it } from "vitest";
import type { Estimate } from "../../../src/core/estimate.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { chanceCorrected } from "../../../src/methods/agreement/chance-corrected.ts";
import { manyReaders } from "../../../src/methods/agreement/many-readers.ts";

/** The shares of the four cells in the population, and what the coefficients are there by definition. */
const CELLS = [0.3, 0.1, 0.1, 0.5] as const;
const [BOTH, FIRST, SECOND, NEITHER] = CELLS;
const OBSERVED = BOTH + NEITHER;
const SHARE = BOTH + (FIRST + SECOND) / 2;
const beyond = (expected: number) => (OBSERVED - expected) / (1 - expected);
const TRUTH = {
  // Both readers are reactive equally often, so that kappa and pi are the same here.
  kappa: beyond(SHARE ** 2 + (1 - SHARE) ** 2),
  scottPi: beyond(SHARE ** 2 + (1 - SHARE) ** 2),
  ac1: beyond(2 * SHARE * (1 - SHARE)),
  pabak: beyond(0.5),
};

/** Answers of the two readers, 1 for reactive, by a stream of its own for each study. */
function study(items: number, number: number): [number, number][] {
  const random = randomStream(20240613, number);
  return Array.from({ length: items }, () => {
    const place = random();
    if (place < BOTH) return [1, 1];
    if (place < BOTH + FIRST) return [1, 0];
    return place < BOTH + FIRST + SECOND ? [0, 1] : [0, 0];
  });
}

const holds = ({ lower, upper }: Estimate, truth: number) =>
  lower !== null && upper !== null && lower <= truth && truth <= upper;

describe("95 % intervals in 100 items, agreement 0.8, by simulation", () => {
  it("hold the truth in 92 to 97 % of 2,000 studies; the exact one of PABAK in 95 % or more", () => {
    const held = { kappa: 0, scottPi: 0, ac1: 0, pabak: 0 };
    for (let number = 0; number < 2000; number += 1) {
      const pairs = study(100, number);
      const many = (one: number, other: number) => pairs.filter(([a, b]) => a === one && b === other).length;
      const table = [
        [many(1, 1), many(1, 0)],
        [many(0, 1), many(0, 0)],
      ];
      const { values } = compute(chanceCorrected, { table });
      for (const name of ["kappa", "scottPi", "ac1", "pabak"] as const) {
        if (holds(values[name], TRUTH[name])) held[name] += 1;
      }
    }
    for (const name of ["kappa", "scottPi", "ac1"] as const) {
      expect(held[name] / 2000, name).toBeGreaterThan(0.92);
      expect(held[name] / 2000, name).toBeLessThan(0.97);
    }
    expect(held.pabak / 2000).toBeGreaterThan(0.95);
  });

  it("by redrawn items hold it in 90 % or more of 200 studies", () => {
    let held = 0;
    for (let number = 0; number < 200; number += 1) {
      const options = { replicates: 200, seed: number };
      const { values } = compute(manyReaders, { ratings: study(100, number) }, options);
      if (holds(values.gwetAgreement.bootstrap, TRUTH.ac1)) held += 1;
    }
    expect(held / 200).toBeGreaterThan(0.9);
    expect(held / 200).toBeLessThan(0.99);
  });
});
