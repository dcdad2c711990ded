import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { exactProbabilities } from "../../src/methods/comparison/exact-probabilities.ts";
import { exactUnconditional } from "../../src/methods/comparison/exact-unconditional.ts";
import type { Share } from "../../src/methods/proportion/difference-interval.ts";
import type { BenchRow } from "./run.ts";

/** Results of 150 and 150 people: near the ends, in the middle, far apart. */
const RESULTS = [
  [141, 130],
  [75, 60],
  [148, 150],
  [0, 3],
  [120, 60],
] as const;
const PEOPLE = 150;
const MOST_SECONDS = 1;
const PYTHON_PROGRAM = `
import time
from scipy.stats import barnard_exact
tables = [[[a, b], [${PEOPLE} - a, ${PEOPLE} - b]] for a, b in ${JSON.stringify(RESULTS)}]
barnard_exact(tables[0])
start = time.perf_counter()
found = [barnard_exact(table).pvalue for table in tables]
print((time.perf_counter() - start) / len(tables), *(repr(float(p)) for p in found))`;

/** The exact unconditional test with its interval, against one second; the test alone, against SciPy's. */
export async function benchComparison(): Promise<BenchRow[]> {
  const slowest = Math.max(...quickest((groups) => compute(exactUnconditional, groups)).seconds);
  const limit: BenchRow = {
    name: "exact unconditional test and exact interval, 150 and 150 people, against 1 s",
    ratio: slowest / MOST_SECONDS,
    bar: 1,
    detail: `slowest of ${RESULTS.length} results ${(slowest * 1000).toFixed(0)} ms`,
  };
  const theirs = runSciPy();
  if (theirs === null) return [limit];
  const ours = quickest(({ first, second }) => exactProbabilities(first, second, 0));
  const mean = ours.seconds.reduce((sum, seconds) => sum + seconds, 0) / RESULTS.length;
  const apart = ours.found.map(({ twoSided }, at) => twoSided / (theirs.p[at] ?? Number.NaN) - 1);
  return [
    limit,
    {
      name: "exact unconditional test, three p-values, against SciPy's barnard_exact, one p-value",
      ratio: mean / theirs.seconds,
      bar: 1,
      detail: `${(mean * 1000).toFixed(1)} ms, SciPy ${(theirs.seconds * 1000).toFixed(0)} ms; p-values above SciPy's by ${apart.map((share) => share.toExponential(0)).join(", ")}`,
    },
  ];
}

interface Groups {
  readonly first: Share;
  readonly second: Share;
}

/** The quickest of three runs for each result, after one to warm up. */
function quickest<Found>(run: (groups: Groups) => Found): { seconds: number[]; found: Found[] } {
  const all = RESULTS.map(([first, second]) => ({
    first: { count: first, total: PEOPLE },
    second: { count: second, total: PEOPLE },
  }));
  const found = all.map(run);
  const seconds = all.map((groups) =>
    Math.min(
      ...[1, 2, 3].map(() => {
        const start = performance.now();
        run(groups);
        return (performance.now() - start) / 1000;
      }),
    ),
  );
  return { seconds, found };
}

/** `null` where SciPy is not installed. */
function runSciPy(): { seconds: number; p: readonly number[] } | null {
  for (const python of ["/usr/bin/python3", "python3"]) {
    try {
      const out = execFileSync(python, ["-W", "ignore", "-c", PYTHON_PROGRAM], {
        encoding: "utf8",
        stdio: ["ignore", "pipe", "ignore"],
      });
      const [seconds, ...p] = out.trim().split(" ").map(Number);
      return { seconds: seconds ?? 0, p };
    } catch {}
  }
  return null;
}
