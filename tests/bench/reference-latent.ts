import { compute } from "../../src/core/method.ts";
import { randomStream } from "../../src/core/random.ts";
import { latentClass } from "../../src/methods/reference/latent-class.ts";
import { drawnPeople, INDEPENDENT, twoPopulations } from "../methods/reference/latent-people.ts";
import type { BenchRow } from "./run.ts";

const five = (dependence: object) => ({
  tests: ["a", "b", "c", "d", "e"],
  populations: [0.1, 0.3, 0.6].map((prevalence, place) => ({
    label: `${place}`,
    patterns: drawnPeople(randomStream(3, place), 1000, prevalence, {
      se: [0.9, 0.85, 0.8, 0.75, 0.9],
      sp: [0.95, 0.9, 0.97, 0.9, 0.92],
    }),
  })),
  dependence,
});

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  ["two tests in two populations, profile limits", 0.5, () => compute(latentClass, twoPopulations)],
  [
    "five tests in three populations, profile limits",
    5,
    () => compute(latentClass, five(INDEPENDENT) as typeof twoPopulations),
  ],
  [
    "five tests in three populations, a pair, Wald limits",
    2,
    () =>
      compute(
        latentClass,
        five({ kind: "pairs", pairs: [{ first: "a", second: "b" }] }) as typeof twoPopulations,
        { interval: "wald" },
      ),
  ],
  [
    "five tests in three populations, a shared effect, Wald limits",
    10,
    () =>
      compute(latentClass, five({ kind: "random_effect" }) as typeof twoPopulations, {
        interval: "wald",
        starts: 5,
      }),
  ],
];

/** Each question against its seconds. */
export async function benchReferenceLatent(): Promise<BenchRow[]> {
  return QUESTIONS.map(([name, most, ask]): BenchRow => {
    ask();
    const start = performance.now();
    ask();
    const seconds = (performance.now() - start) / 1000;
    return {
      name: `${name}, against ${most} s`,
      ratio: seconds / most,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(0)} ms`,
    };
  });
}
