import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { randomStream } from "../../src/core/random.ts";
import { type ChainDiagnostics, chainDiagnostics } from "../../src/numeric/chain-diagnostics.ts";
import { diceOf } from "../../src/numeric/dice.ts";
import { effectiveDraws } from "../../src/numeric/effective-draws.ts";
import { placeFinder } from "../../src/numeric/place-finder.ts";
import { expectClose } from "../tolerance.ts";

/** Made by numpy 1.24 and SciPy 1.10.1 with `tests/reference/scripts/second-opinion-chains.py`. */
interface Opinion {
  readonly name: string;
  readonly chains: readonly (readonly number[])[];
  readonly expected: Record<keyof ChainDiagnostics, number>;
}
const file = new URL("../reference/second-opinion-chains.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as readonly Opinion[];

const diagnosed = (chains: readonly Float64Array[]) =>
  chainDiagnostics(chains, Float64Array.from(chains.flatMap((chain) => [...chain])).sort());

/** Each number a share `memory` of the one before, standard normal throughout. */
function remembering(memory: number, length: number, chain: number): Float64Array {
  const { normal } = diceOf(randomStream(41, chain));
  const series = new Float64Array(length);
  let last = normal();
  for (let k = 0; k < length; k += 1) {
    last = memory * last + Math.sqrt(1 - memory * memory) * normal();
    series[k] = last;
  }
  return series;
}

describe("chainDiagnostics", () => {
  it.each(opinions)("agrees with the formulas written out in numpy: $name", ({ chains, expected }) => {
    const found = diagnosed(chains.map((chain) => Float64Array.from(chain)));
    for (const key of ["rHat", "bulkEffective", "tailEffective", "meanEffective"] as const) {
      expectClose(found[key], expected[key], { relative: 1e-9 }, key);
    }
  });

  it.each([-0.3, 0, 0.5, 0.9])("knows how many draws of an autoregression count (memory %f)", (memory) => {
    // An AR(1) series of n numbers is worth n (1 - memory) / (1 + memory) for its mean: any book on time series.
    const length = 20_000;
    const chains = [0, 1, 2, 3].map((chain) => remembering(memory, length, chain));
    const worth = (4 * length * (1 - memory)) / (1 + memory);
    // Measured: within 4 % at this length; Geyer's sum errs upwards in the time.
    expectClose(effectiveDraws(chains), worth, { relative: 0.06 });
    const { rHat, bulkEffective } = diagnosed(chains);
    expect(rHat).toBeLessThan(1.01);
    expectClose(bulkEffective, worth, { relative: 0.06 });
  });

  it("minds neither a rising transformation (but for the mean) nor the order of the chains", () => {
    const chains = [0, 1, 2].map((chain) => remembering(0.4, 500, chain));
    const here = diagnosed(chains);
    const turned = diagnosed([...chains].reverse());
    for (const key of ["rHat", "bulkEffective", "tailEffective", "meanEffective"] as const) {
      expectClose(turned[key], here[key] as number, { relative: 1e-9 }, key);
    }
    const risen = diagnosed(chains.map((chain) => chain.map((x) => Math.exp(3 * x))));
    expectClose(risen.bulkEffective, here.bulkEffective as number, { relative: 1e-9 });
    expectClose(risen.tailEffective, here.tailEffective as number, { relative: 0.02 });
  });

  it("has nothing to say where nothing varies", () => {
    const still = [new Float64Array(50).fill(0.3), new Float64Array(50).fill(0.3)];
    expect(diagnosed(still)).toEqual({
      rHat: null,
      bulkEffective: null,
      tailEffective: null,
      meanEffective: null,
    });
  });
});

describe("placeFinder", () => {
  it("finds the first number that is not below, however the numbers lie", () => {
    const random = randomStream(3, 3);
    for (const bend of [1, 8, 40]) {
      const sorted = Float64Array.from({ length: 300 }, () => Math.round(40 * random()) ** bend).sort();
      const find = placeFinder(sorted);
      const asked = [...sorted, -1, 0.5, ...sorted.map((value) => value * 1.0001), 1e300];
      for (const value of asked) {
        const first = sorted.findIndex((other) => other >= value);
        expect(find(value)).toBe(first < 0 ? sorted.length : first);
      }
    }
  });
});
