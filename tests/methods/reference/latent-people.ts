import type { RandomSource } from "../../../src/core/random.ts";
import type { LatentInput } from "../../../src/methods/reference/latent-fields.ts";

export const INDEPENDENT = { kind: "independent" as const };

export const four = (both: number, first: number, second: number, neither: number) => [
  { reactive: [true, true], people: both },
  { reactive: [true, false], people: first },
  { reactive: [false, true], people: second },
  { reactive: [false, false], people: neither },
];

/** Counts of Hui and Walter 1980 (memory), under plain names. */
export const twoPopulations: LatentInput = {
  tests: ["kit", "reference"],
  populations: [
    { label: "first", patterns: four(14, 4, 9, 528) },
    { label: "second", patterns: four(887, 31, 37, 367) },
  ],
  dependence: INDEPENDENT,
};

export interface Truth {
  readonly se: readonly number[];
  readonly sp: readonly number[];
  /** Share of people in whom the first two tests answer alike, with the condition and without. */
  readonly copied?: readonly number[];
}

/** People drawn one by one, counted by pattern. */
export function drawnPeople(random: RandomSource, people: number, prevalence: number, truth: Truth) {
  const counts = new Map<number, number>();
  for (let person = 0; person < people; person += 1) {
    const diseased = random() < prevalence;
    const chances = diseased ? truth.se : truth.sp.map((share) => 1 - share);
    const alike = random() < (truth.copied?.[diseased ? 0 : 1] ?? 0);
    const shared = random();
    const x = chances.reduce((sum, chance, test) => {
      const own = random();
      return sum + Number((alike && test < 2 ? shared : own) < chance) * 2 ** test;
    }, 0);
    counts.set(x, (counts.get(x) ?? 0) + 1);
  }
  return [...counts].map(([x, seen]) => ({
    reactive: truth.se.map((_, test) => ((x >> test) & 1) === 1),
    people: seen,
  }));
}
