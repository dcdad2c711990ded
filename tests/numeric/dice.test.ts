import { describe, expect, it } from "vitest";
import { randomStream } from "../../src/core/random.ts";
import { bent, bentNormalThrough, bentSlope, unbent } from "../../src/numeric/bend.ts";
import { binomialMass } from "../../src/numeric/binomial.ts";
import { chiSquareCdf } from "../../src/numeric/chi-square.ts";
import { diceOf } from "../../src/numeric/dice.ts";
import { incompleteBeta } from "../../src/numeric/incomplete-beta.ts";
import { kernelDensity } from "../../src/numeric/kernel-density.ts";
import { normalCdf, normalDensity } from "../../src/numeric/normal.ts";
import { sortedQuantile } from "../../src/numeric/sorted-quantile.ts";
import { expectClose } from "../tolerance.ts";

const DRAWS = 40_000;
/** Seeds are fixed: a p below this would come once in 10,000 sets of draws. */
const LEAST_P = 1e-4;

/** p of the chi-square test that probabilities fall evenly into 50 bins. */
function evenness(probabilities: readonly number[]): number {
  const bins = new Array<number>(50).fill(0);
  for (const p of probabilities) {
    const bin = Math.min(49, Math.floor(50 * p));
    bins[bin] = (bins[bin] as number) + 1;
  }
  const expected = probabilities.length / 50;
  return chiSquareCdf(
    bins.reduce((sum, seen) => sum + (seen - expected) ** 2 / expected, 0),
    49,
    "upper",
  );
}

describe("diceOf", () => {
  it("draws standard normal variables, neighbours unrelated", () => {
    const { normal } = diceOf(randomStream(5, 1));
    const drawn = Array.from({ length: DRAWS }, normal);
    expect(evenness(drawn.map((z) => normalCdf(z)))).toBeGreaterThan(LEAST_P);
    const lagged = drawn.reduce((sum, z, k) => sum + z * (drawn[k - 1] ?? 0), 0) / DRAWS;
    expectClose(lagged, 0, { absolute: 4 / Math.sqrt(DRAWS) });
  });

  it.each([
    [0.05, 0.05],
    [0.5, 3],
    [1, 1],
    [4.1, 1.76],
    [900, 31],
    [2e6, 3],
  ])("draws beta(%f, %f) variables", (alpha, beta) => {
    const { betaLogit } = diceOf(randomStream(5, 2));
    const drawn = Array.from({ length: DRAWS }, () => betaLogit(alpha, beta));
    const tails = drawn.map((logit) =>
      logit < 0
        ? incompleteBeta(1 / (1 + Math.exp(-logit)), alpha, beta)
        : incompleteBeta(1 / (1 + Math.exp(logit)), beta, alpha, "upper"),
    );
    expect(tails.every(Number.isFinite)).toBe(true);
    expect(evenness(tails)).toBeGreaterThan(LEAST_P);
  });

  it.each([
    [7, 0.3],
    [60, 0.02],
    [60, 0.97],
    [45, 0.5],
    [887, 0.2],
    [887, 0.985],
    [100_000, 0.4],
  ])("draws binomial(%i, %f) counts", (trials, chance) => {
    const { binomial } = diceOf(randomStream(5, 3));
    const seen = new Map<number, number>();
    for (let draw = 0; draw < DRAWS; draw += 1) {
      const count = binomial(trials, chance);
      seen.set(count, (seen.get(count) ?? 0) + 1);
    }
    let statistic = 0;
    let cells = 0;
    let rest = DRAWS;
    let restSeen = DRAWS;
    for (const [count, people] of seen) {
      const expected = DRAWS * binomialMass(count, trials, chance);
      if (expected < 10) continue;
      statistic += (people - expected) ** 2 / expected;
      cells += 1;
      rest -= expected;
      restSeen -= people;
    }
    if (rest > 5) statistic += (restSeen - rest) ** 2 / rest;
    expect(chiSquareCdf(statistic, Math.max(1, cells), "upper")).toBeGreaterThan(LEAST_P);
  });

  it("draws counts at the ends of their range", () => {
    const { binomial } = diceOf(randomStream(5, 4));
    for (let draw = 0; draw < 100; draw += 1) {
      expect(binomial(0, 0.4)).toBe(0);
      expect(binomial(12, 0)).toBe(0);
      expect(binomial(12, 1)).toBe(12);
      expect(binomial(1e6, 1 - 1e-17)).toBe(1e6);
    }
  });
});

describe("bending", () => {
  it("is undone, and rises as steeply as said", () => {
    for (const bend of [-0.9, -0.3, 0, 0.5, 0.9]) {
      for (const x of [-30, -2, -0.1, 0, 1, 7]) {
        expectClose(unbent(bent(x, bend), bend), x, { relative: 1e-12, absolute: 1e-12 });
        const slope = (bent(x + 1e-5, bend) - bent(x - 1e-5, bend)) / 2e-5;
        expectClose(bentSlope(x, bend), slope, { relative: 1e-8 });
      }
    }
  });

  it("goes through the three points asked for", () => {
    const { origin, scale, bend } = bentNormalThrough(-2, 0, 3);
    const at = (z: number) => origin + scale * bent(z, bend);
    expectClose(at(-1.6448536269514722), -2, { relative: 1e-14 });
    expectClose(at(1.6448536269514722), 3, { relative: 1e-14 });
    expect(at(0)).toBe(0);
  });
});

describe("kernelDensity", () => {
  it("is near the density that was drawn from, and adds up to 1", () => {
    const { normal } = diceOf(randomStream(5, 5));
    const sorted = Float64Array.from({ length: DRAWS }, normal).sort();
    const density = kernelDensity(sorted);
    for (const z of [-2, -1, 0, 0.7, 1.5]) {
      // Measured: 3 % at this many draws.
      expectClose(density(z), normalDensity(z), { absolute: 0.012 });
    }
    let sum = 0;
    for (let z = -6; z < 6; z += 0.01) sum += 0.01 * density(z);
    expectClose(sum, 1, { absolute: 1e-6 });
  });

  it("is nothing where nothing varies", () => {
    expect(kernelDensity(new Float64Array(9).fill(2))(2)).toBe(0);
  });
});

it("sortedQuantile goes straight between neighbours, as R's type 7", () => {
  // quantile(c(1, 2, 4, 8, 16), c(0, .1, .5, .9, 1)) in R 4.2.2.
  const sorted = Float64Array.of(1, 2, 4, 8, 16);
  expect([0, 0.1, 0.5, 0.9, 1].map((share) => sortedQuantile(sorted, share))).toEqual([1, 1.4, 4, 12.8, 16]);
});
