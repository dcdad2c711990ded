import type { DependenceSweep } from "../../evaluation/algorithm/document.ts";
import type { AlgorithmReport } from "./context.ts";
import { pairTitle } from "./names.ts";

/** The sweeps of one algorithm over one pair's dependence, channel by channel: one chart. */
export interface SweepGroup {
  readonly algorithm: string;
  readonly over: DependenceSweep["over"];
  readonly first: string | null;
  readonly second: string | null;
  readonly sweeps: readonly DependenceSweep[];
}

export function sweepGroups({ algorithms }: AlgorithmReport): SweepGroup[] {
  const keyOf = ({ algorithm, over, first, second }: DependenceSweep) =>
    JSON.stringify([algorithm, over, first, second]);
  const { sweeps } = algorithms.dependence;
  return [...new Set(sweeps.map(keyOf))].flatMap((key) => {
    const mine = sweeps.filter((sweep) => keyOf(sweep) === key);
    const [one] = mine;
    if (one === undefined) return [];
    const { algorithm, over, first, second } = one;
    return [{ algorithm, over, first, second, sweeps: mine }];
  });
}

/** The two kits, or all kits where they share an effect. */
export function sweepTitle(report: AlgorithmReport, { first, second }: SweepGroup): string {
  return first === null || second === null
    ? report.words.algorithm.allKits
    : pairTitle(report, first, second);
}
