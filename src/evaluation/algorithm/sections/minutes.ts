import type { OutcomesValues } from "../../../methods/algorithms/outcomes-fields.ts";
import type { AlgorithmFile } from "../../../records/algorithm/algorithm-schema.ts";
import { centreOf, shareOf } from "../centre.ts";
import type { AlgorithmLine, FollowedAlgorithm } from "../document.ts";

/** Kits of the usual algorithms that everybody is tested with, and so at the same time. */
const TOGETHER = { parallel: Number.POSITIVE_INFINITY, tie_breaker: 2 } as const;

/** How long a decision takes; `null` where a kit doesn't say its minutes. */
export function minutesOf(
  file: AlgorithmFile,
  followed: FollowedAlgorithm,
  { runsAtStep }: OutcomesValues,
  prevalence: number,
): AlgorithmLine["minutes"] {
  const waits = new Map(file.kits.map(({ id, minutes }) => [id, minutes]));
  if (followed.kits.some((id) => waits.get(id) === undefined)) return { mean: null, most: null };
  const wait = (id: string) => waits.get(id) ?? 0;
  const mean = followed.steps.reduce((sum, { id, kit, again }) => {
    const reached = runsAtStep.find(({ step }) => step === id);
    const people = prevalence * (reached?.diseased ?? 0) + (1 - prevalence) * (reached?.nondiseased ?? 0);
    return sum + people * runsHere(file, kit, again) * wait(kit);
  }, 0);
  return { mean, most: longest(file, followed, wait) };
}

/** Mean number of runs at a step for somebody who comes to it. */
function runsHere({ kits }: AlgorithmFile, id: string, again: number): number {
  const invalid = centreOf(shareOf(kits.find((kit) => kit.id === id)?.invalid ?? { value: 0 }));
  return Array.from({ length: again + 1 }, (_, run) => Math.pow(invalid, run)).reduce(
    (sum, one) => sum + one,
    0,
  );
}

function longest({ algorithms }: AlgorithmFile, followed: FollowedAlgorithm, wait: (kit: string) => number) {
  const stated = algorithms.find(({ id }) => id === followed.algorithm);
  const preset = stated?.preset;
  if (preset === "parallel" || preset === "tie_breaker") {
    const waits = (stated?.kits ?? []).map(wait);
    const first = Math.max(...waits.slice(0, TOGETHER[preset]));
    return waits.slice(TOGETHER[preset]).reduce((sum, one) => sum + one, first);
  }
  const from = (id: string): number => {
    const step = followed.steps.find((one) => one.id === id);
    return step === undefined ? 0 : wait(step.kit) + Math.max(from(step.reactive), from(step.nonreactive));
  };
  return from(followed.steps[0]?.id ?? "");
}
