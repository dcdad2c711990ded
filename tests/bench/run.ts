import { benchClusters } from "./clusters.ts";
import { benchComparison } from "./comparison.ts";
import { benchMethods } from "./methods.ts";
import { benchNumeric } from "./numeric.ts";
import { benchReport } from "./report.ts";

/**
 * `npm run bench`: speed as ratios measured in one run on one machine, against R and SciPy where they are
 * installed and against the stated limits. Prints to the console; nothing is committed.
 */
export interface BenchRow {
  readonly name: string;
  /** Ours divided by the other's (or by the limit): at most `bar` is wanted. */
  readonly ratio: number;
  readonly bar: number;
  readonly detail: string;
}

const benches: readonly [string, () => Promise<readonly BenchRow[]>][] = [
  ["numeric", benchNumeric],
  ["methods", benchMethods],
  ["comparison", benchComparison],
  ["clusters", benchClusters],
  ["report", benchReport],
];

for (const [title, bench] of benches) {
  console.log(`\n${title}`);
  for (const { name, ratio, bar, detail } of await bench()) {
    const verdict = ratio <= bar ? "within" : "OVER";
    console.log(`  ${ratio.toFixed(2).padStart(6)} (${verdict} ${bar})  ${name}: ${detail}`);
  }
}
