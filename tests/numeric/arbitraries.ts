import fc from "fast-check";

/** The same cases on each run, so that a failure can be seen again. */
export const RUNS = { seed: 20_240_611, numRuns: 500 } as const;

/** Numbers whose logarithm is spread evenly from 10^low to 10^high. */
export function spread(low: number, high: number): fc.Arbitrary<number> {
  return fc.double({ min: low, max: high, noNaN: true }).map((exponent) => 10 ** exponent);
}

/** Probabilities of at most 1/2: half of them everyday ones, half down to 1e-250. */
export const smallProbability = fc.oneof(
  fc.double({ min: 1e-3, max: 0.5, noNaN: true }),
  spread(-250, -0.31),
);

export const tail = fc.constantFrom("lower" as const, "upper" as const);
