import { spawnSync } from "node:child_process";
import { randomStream } from "../../src/core/random.ts";
import { jointTable } from "../../src/methods/algorithms/dependence.ts";
import type { Dependence } from "../../src/methods/algorithms/fields.ts";
import { prepareDependence } from "../../src/methods/algorithms/prepared-dependence.ts";
import { normalOrthant } from "../../src/numeric/orthant.ts";
import type { BenchRow } from "./run.ts";

const IDS = ["a", "b", "c", "d", "e"];
const TRUTHS = ["diseased", "nondiseased"] as const;
const DRAWS = 10_000;
const TRIPLES = IDS.flatMap((_, one) =>
  IDS.flatMap((_, two) =>
    IDS.flatMap((_, three) => (one < two && two < three ? [[one, two, three] as const] : [])),
  ),
);
const PAIRS: Dependence = {
  kind: "pairs",
  pairs: IDS.flatMap((first, one) =>
    IDS.slice(one + 1).map((second) => ({ first, second, diseased: 0.05 + 0.01 * one, nondiseased: 0.08 })),
  ),
};
const SHARED: Dependence = { kind: "shared", diseased: { spread: 1 }, nondiseased: { spread: 0.7 } };
const INDEPENDENT: Dependence = { kind: "independent" };

/** Speed of the tables of three runs over many draws, and of orthants against SciPy where it is installed. */
export async function benchAlgorithmsDependence(): Promise<BenchRow[]> {
  return [
    tables("pairs", PAIRS, 2),
    tables("a shared effect", SHARED, 1.5),
    tables("independent", INDEPENDENT, 0.2),
    ...orthantsAgainstScipy(),
  ];
}

function tables(name: string, dependence: Dependence, limit: number): BenchRow {
  const seconds = Math.min(
    secondsOf(() => allTables(dependence)),
    secondsOf(() => allTables(dependence)),
  );
  return {
    name: `${TRIPLES.length} triples of kits, both truths, ${DRAWS.toLocaleString("en-GB")} draws: ${name}, against ${limit} s`,
    ratio: seconds / limit,
    bar: 1,
    detail: `${seconds.toFixed(2)} s, ${((seconds * 1e6) / (2 * TRIPLES.length * DRAWS)).toFixed(1)} µs a table`,
  };
}

/** Draw by draw, so that what is known of a draw's kits and pairs serves all triples. */
function allTables(dependence: Dependence): number {
  const random = randomStream(1);
  const into = new Float64Array(8);
  let sum = 0;
  for (const truth of TRUTHS) {
    const model = prepareDependence(IDS, dependence, truth);
    for (let draw = 0; draw < DRAWS; draw += 1) {
      const shares = IDS.map(
        (_, kit) => (truth === "diseased" ? 0.96 : 0.005) + 0.005 * kit + 0.01 * random(),
      );
      for (const triple of TRIPLES) sum += jointTable(triple, shares, model, into)[7] as number;
    }
  }
  return sum;
}

function secondsOf(run: () => unknown): number {
  const start = performance.now();
  run();
  return (performance.now() - start) / 1000;
}

const SCIPY = `
import time, numpy
from scipy.stats import multivariate_normal as normal
m = numpy.full((5, 5), .4) + numpy.eye(5) * .6
run = lambda: [normal.cdf([-1 - .1 * i, -1, -.5, 0, .5], numpy.zeros(5), m, maxpts=1000000, abseps=1e-8, releps=0) for i in range(10)]
run(); before = time.perf_counter(); found = run(); print(time.perf_counter() - before, found[0])`;

function orthantsAgainstScipy(): BenchRow[] {
  const { status, stdout } = spawnSync("/usr/bin/python3", ["-c", SCIPY], { encoding: "utf8" });
  if (status !== 0) return [];
  const [theirs, found] = stdout.trim().split(" ").map(Number) as [number, number];
  const matrix = IDS.map((_, row) => IDS.map((_, column) => (row === column ? 1 : 0.4)));
  const one = (at: number) => normalOrthant([-1 - 0.1 * at, -1, -0.5, 0, 0.5], matrix);
  const all = () => IDS.flatMap((_, at) => [one(2 * at), one(2 * at + 1)]);
  all();
  const ours = secondsOf(all);
  return [
    {
      name: "ten orthants of five variables, against SciPy's asked for 1e-8 (ours gives 1e-14)",
      ratio: ours / theirs,
      bar: 1,
      detail: `${(ours * 1000).toFixed(1)} ms, SciPy ${(theirs * 1000).toFixed(1)} ms; first ${one(0).toFixed(9)}, SciPy ${found.toFixed(9)}`,
    },
  ];
}
