import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { type CriterionInput, criterion } from "../../src/methods/proportion/criterion.ts";
import { INTERVAL_METHODS } from "../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval } from "../../src/methods/proportion/proportion-interval.ts";
import type { BenchRow } from "./run.ts";

const INTERVALS = 1_000_000;
/** Totals 1..997 in turn and counts spread over 0..total, the same in R. */
const totalAt = (index: number) => 1 + (index % 997);
const countAt = (index: number) => (index * 7919) % (totalAt(index) + 1);
const R_PROGRAM = `
i <- 0:${INTERVALS - 1}; n <- 1 + i %% 997; k <- (i * 7919) %% (n + 1)
time <- function() system.time({
  lower <<- qbeta(.025, k, n - k + 1); lower[k == 0] <<- 0
  upper <<- qbeta(.025, k + 1, n - k, lower.tail = FALSE); upper[k == n] <<- 1
})[["elapsed"]]
warm <- suppressWarnings(time()); quickest <- suppressWarnings(min(time(), time()))
cat(quickest, sprintf("%.17g", sum(lower)), sprintf("%.17g", sum(upper)))`;

/** Speed of the methods: against R where it is installed, and against the stated limit of 20 ms. */
export async function benchMethods(): Promise<BenchRow[]> {
  return [...millionIntervals(), slowestCriterion()];
}

function millionIntervals(): BenchRow[] {
  const run = () => {
    let [lower, upper] = [0, 0];
    for (let index = 0; index < INTERVALS; index += 1) {
      const limits = proportionInterval(countAt(index), totalAt(index));
      lower += limits.lower;
      upper += limits.upper;
    }
    return { lower, upper };
  };
  run();
  const { seconds, sums } = quickest(run, 2);
  const theirs = runR();
  if (theirs === null) return [];
  const apart = Math.abs(theirs.lower / sums.lower - 1) + Math.abs(theirs.upper / sums.upper - 1);
  return [
    {
      name: "a million Clopper-Pearson intervals through proportionInterval, against R's vectorised qbeta",
      ratio: seconds / theirs.seconds,
      bar: 1,
      detail: `${seconds.toFixed(2)} s, R ${theirs.seconds.toFixed(2)} s; sums of the limits agree to ${apart.toExponential(1)}`,
    },
  ];
}

function quickest<Sums>(run: () => Sums, times: number): { seconds: number; sums: Sums } {
  let seconds = Number.POSITIVE_INFINITY;
  let sums = run();
  for (let turn = 0; turn < times; turn += 1) {
    const start = performance.now();
    sums = run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return { seconds, sums };
}

/** `null` where R is not installed. */
function runR(): { seconds: number; lower: number; upper: number } | null {
  try {
    const out = execFileSync("Rscript", ["--vanilla", "-e", R_PROGRAM], { encoding: "utf8" });
    const [seconds, lower, upper] = out.trim().split(" ").map(Number);
    return { seconds: seconds ?? 0, lower: lower ?? 0, upper: upper ?? 0 };
  } catch {
    return null;
  }
}

/** Estimates close to their threshold need the longest search. */
const HARD: readonly CriterionInput[] = [
  { count: 951, total: 1000, threshold: 0.95, direction: "at_least" },
  { count: 500, total: 1000, threshold: 0.501, direction: "at_least" },
  { count: 499, total: 997, threshold: 0.5, direction: "at_least" },
  { count: 48, total: 1000, threshold: 0.05, direction: "at_most" },
  { count: 198, total: 200, threshold: 0.98, direction: "at_least" },
];
const MOST_MILLISECONDS = 20;

function slowestCriterion(): BenchRow {
  let slowest = { milliseconds: 0, detail: "" };
  for (const method of INTERVAL_METHODS) {
    for (const input of HARD) {
      const run = () => compute(criterion, input, { method }).values.settledBy;
      run();
      const { seconds, sums } = quickest(run, 3);
      if (seconds * 1000 < slowest.milliseconds) continue;
      const detail = `${(seconds * 1000).toFixed(1)} ms for ${input.count} of ${input.total}, ${method}, settled by ${sums}`;
      slowest = { milliseconds: seconds * 1000, detail };
    }
  }
  return {
    name: "slowest verdict with its search for the total that settles it, against 20 ms",
    ratio: slowest.milliseconds / MOST_MILLISECONDS,
    bar: 1,
    detail: slowest.detail,
  };
}
