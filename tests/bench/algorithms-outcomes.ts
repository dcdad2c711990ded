import { compute } from "../../src/core/method.ts";
import { recompute } from "../../src/methods/algorithms/at-prevalences.ts";
import type { Dependence } from "../../src/methods/algorithms/fields.ts";
import { followAlgorithm, layOut } from "../../src/methods/algorithms/followed.ts";
import { algorithmsOutcomes } from "../../src/methods/algorithms/outcomes.ts";
import { presetSteps } from "../../src/methods/algorithms/presets.ts";
import type { BenchRow } from "./run.ts";

const MOST_SECONDS = 0.005;
const PREVALENCES = Array.from({ length: 200 }, (_, at) => 0.001 * 500 ** (at / 199));
const IDS = ["A", "B", "C"];
const KITS = IDS.map((id, at) => ({
  id,
  sensitivity: 0.99 - 0.01 * at,
  specificity: 0.98 + 0.005 * at,
  invalid: 0.02,
}));
const ALGORITHM = { steps: presetSteps("consecutive_three", IDS), retest: { share: 0.62 } };
const PAIRS: Dependence = {
  kind: "pairs",
  pairs: [
    { first: "A", second: "B", diseased: 0.1, nondiseased: 0.08 },
    { first: "A", second: "C", diseased: 0.05, nondiseased: 0.02 },
  ],
};
const SHARED: Dependence = { kind: "shared", diseased: { spread: 0.6 }, nondiseased: { spread: 0.9 } };
const INDEPENDENT: Dependence = { kind: "independent" };

/** One algorithm of three kits at 200 prevalences: moved along, and wholly anew, against 5 ms. */
export async function benchAlgorithmsOutcomes(): Promise<BenchRow[]> {
  const followed = followAlgorithm(layOut(KITS, ALGORITHM), INDEPENDENT);
  const whole = (retest: { share: number } | null, dependence: Dependence) => () =>
    compute(algorithmsOutcomes, {
      kits: KITS,
      steps: ALGORITHM.steps,
      retest,
      dependence,
      prevalences: PREVALENCES,
    });
  const runs: readonly [string, () => unknown][] = [
    ["moved to other prevalences", () => recompute(followed, PREVALENCES)],
    ["anew, independent, retest", whole(ALGORITHM.retest, INDEPENDENT)],
    ["anew, error correlations of pairs", whole(null, PAIRS)],
    ["anew, shared effect, retest", whole(ALGORITHM.retest, SHARED)],
  ];
  return runs.map(([name, run]): BenchRow => {
    const seconds = quickest(run);
    return {
      name: `three kits in a row at 200 prevalences, ${name}, against 5 ms`,
      ratio: seconds / MOST_SECONDS,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(2)} ms`,
    };
  });
}

/** The quickest of ten runs, after ten to warm up. */
function quickest(run: () => unknown): number {
  for (let time = 0; time < 10; time += 1) run();
  const seconds = Array.from({ length: 10 }, () => {
    const start = performance.now();
    run();
    return (performance.now() - start) / 1000;
  });
  return Math.min(...seconds);
}
