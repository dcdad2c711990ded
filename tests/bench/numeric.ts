import { spawnSync } from "node:child_process";
import { betaQuantile } from "../../src/numeric/beta-quantile.ts";
import { incompleteBeta } from "../../src/numeric/incomplete-beta.ts";
import type { BenchRow } from "./run.ts";

const CASES = 1_000_000;
const ROUNDS = 3;

/** Seconds, the best of a few rounds, and the sum of all results (it shows that the same was computed). */
interface Timing {
  readonly seconds: number;
  readonly sum: number;
}

interface Task {
  readonly name: string;
  readonly ours: () => number;
  /** The largest ratio wanted. Single tails are only asked to be of the same order. */
  readonly bar: number;
  /** R and Python expressions giving the sum of the same results, of vectors x and n. */
  readonly inR: string;
  readonly inPython: string;
}

/** Sample sizes from 10 to 5,000 and counts from 0 to n, by a formula that R and Python repeat. */
function sizeOf(index: number): number {
  return 10 + ((index * 7919) % 4991);
}

function countOf(index: number): number {
  return (index * 104729) % (sizeOf(index) + 1);
}

function sumOver(result: (x: number, n: number) => number): () => number {
  return () => {
    let sum = 0;
    for (let index = 0; index < CASES; index++) sum += result(countOf(index), sizeOf(index));
    return sum;
  };
}

const TASKS: readonly Task[] = [
  {
    name: "a million exact (Clopper–Pearson) intervals, n from 10 to 5,000",
    bar: 1,
    ours: sumOver((x, n) => {
      const lower = x === 0 ? 0 : betaQuantile(0.025, x, n - x + 1);
      const upper = x === n ? 1 : betaQuantile(0.025, x + 1, n - x, "upper");
      return lower + upper;
    }),
    inR: "sum(qbeta(.025, x[x>0], (n-x+1)[x>0])) + sum(qbeta(.025, (x+1)[x<n], (n-x)[x<n], lower.tail=FALSE)) + sum(x==n)",
    inPython:
      "betaincinv(x[x>0], (n-x+1)[x>0], .025).sum() + betaincinv((x+1)[x<n], (n-x)[x<n], .975).sum() + (x==n).sum()",
  },
  {
    name: "a million beta tail probabilities beside the mean, the same n",
    bar: 1.5,
    ours: sumOver((x, n) => incompleteBeta((0.97 * (x + 1)) / (n + 2), x + 1, n - x + 1)),
    inR: "sum(pbeta(.97*(x+1)/(n+2), x+1, n-x+1))",
    inPython: "betainc(x+1, n-x+1, .97*(x+1)/(n+2)).sum()",
  },
];

/**
 * Our special functions against R (vectorised, timed inside R) and SciPy (timed inside Python), on the same
 * numbers in one run. A program that is not installed is named with a ratio of 0.
 */
export async function benchNumeric(): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  for (const task of TASKS) {
    const ours = timeOurs(task.ours);
    rows.push(rowAgainst("R", task, ours, timeInR(task.inR)));
    rows.push(rowAgainst("SciPy", task, ours, timeInPython(task.inPython)));
  }
  return rows;
}

function rowAgainst(other: string, { name, bar }: Task, ours: Timing, theirs: Timing | null): BenchRow {
  const title = `${name}, against ${other}`;
  if (theirs === null) {
    return {
      name: title,
      ratio: 0,
      bar: 1,
      detail: `${ours.seconds.toFixed(2)} s; ${other} is not installed`,
    };
  }
  const gap = Math.abs(ours.sum / theirs.sum - 1).toExponential(0);
  const detail = `${ours.seconds.toFixed(2)} s, ${other} ${theirs.seconds.toFixed(2)} s; sums differ by ${gap}`;
  return { name: title, ratio: ours.seconds / theirs.seconds, bar, detail };
}

function timeOurs(task: () => number): Timing {
  let best = { seconds: Number.POSITIVE_INFINITY, sum: 0 };
  for (let round = 0; round < ROUNDS; round++) {
    const before = performance.now();
    const sum = task();
    const seconds = (performance.now() - before) / 1000;
    if (seconds < best.seconds) best = { seconds, sum };
  }
  return best;
}

function timeInR(expression: string): Timing | null {
  return timeOutside("Rscript", [
    "-e",
    `i <- 0:${CASES - 1}; n <- 10 + (i * 7919) %% 4991; x <- (i * 104729) %% (n + 1); best <- Inf;
     for (round in 1:${ROUNDS}) best <- min(best, system.time(total <- ${expression})[["elapsed"]]);
     cat(best, format(total, digits = 17))`,
  ]);
}

function timeInPython(expression: string): Timing | null {
  return timeOutside("/usr/bin/python3", [
    "-c",
    `
import time, numpy
from scipy.special import betainc, betaincinv
i = numpy.arange(${CASES}); n = 10 + (i * 7919) % 4991; x = (i * 104729) % (n + 1); best = float("inf")
for _ in range(${ROUNDS}):
    before = time.perf_counter(); total = ${expression}; best = min(best, time.perf_counter() - before)
print(best, repr(float(total)))`,
  ]);
}

/** Runs a program that prints seconds and sum; null where it can't be run. */
function timeOutside(program: string, args: readonly string[]): Timing | null {
  const { status, stdout } = spawnSync(program, args, { encoding: "utf8" });
  if (status !== 0) return null;
  const [seconds, sum] = stdout.trim().split(/\s+/).map(Number);
  return seconds === undefined || sum === undefined ? null : { seconds, sum };
}
