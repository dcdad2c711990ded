import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { planningGroupSequential } from "../../src/methods/planning/group-sequential.ts";
import { planningStoppingRule } from "../../src/methods/planning/stopping-rule.ts";
import { planningTwoStage } from "../../src/methods/planning/two-stage.ts";
import type { BenchRow } from "./run.ts";

/** Plans with looks: each with its search against a stated limit; the two-stage search also against R's. */
export async function benchPlanningStopping(): Promise<BenchRow[]> {
  return [...twoStageRows(), againstR(), ...sequentialRows(), ruleRow()].filter((row) => row !== null);
}

function quickest(run: () => unknown): number {
  run();
  let seconds = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 2; turn += 1) {
    const start = performance.now();
    run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return seconds;
}

function against(name: string, limit: number, run: () => unknown): BenchRow {
  const seconds = quickest(run);
  return {
    name: `${name}, against ${limit} s`,
    ratio: seconds / limit,
    bar: 1,
    detail: `${(seconds * 1000).toFixed(0)} ms`,
  };
}

/** Pairs of proportions that need most of the people allowed, and pairs that need more. */
const PAIRS: readonly (readonly [number, number])[] = [
  [0.9, 0.98],
  [0.85, 0.93],
  [0.5, 0.63],
  [0.05, 0.13],
  [0.95, 0.99],
];

function twoStageRows(): BenchRow[] {
  const slowest = (largest: number) => () => {
    for (const [unacceptable, expected] of PAIRS) {
      compute(planningTwoStage, { unacceptable, expected }, { largest });
    }
  };
  return [
    against(`every two-stage design up to 100 people, ${PAIRS.length} pairs of proportions`, 3, slowest(100)),
    against("the same up to 300 people", 15, slowest(300)),
  ];
}

const LARGEST = 40;
const R_PROGRAM = `
best <- Inf
start <- proc.time()[["elapsed"]]
for (n in 2:${LARGEST}) for (n1 in 1:(n - 1)) {
  pass <- function(p) { x <- n1:0
    all <- apply(outer(x, 0:(n - 1), function(x, r) dbinom(x, n1, p) * pbinom(r - x, n - n1, p, lower.tail = FALSE)), 2, cumsum)
    all[n1:1, , drop = FALSE] }
  fits <- which(pass(.1) <= .05 & pass(.3) >= .8, arr.ind = TRUE)
  if (nrow(fits)) best <- min(best, n1 + (n - n1) * pbinom(fits[, 1] - 1, n1, .1, lower.tail = FALSE))
}
cat(proc.time()[["elapsed"]] - start, formatC(best, digits = 15))`;

/** `null` where R is not installed. */
function againstR(): BenchRow | null {
  let theirs: readonly number[];
  try {
    const out = execFileSync("Rscript", ["--vanilla", "-e", R_PROGRAM], { encoding: "utf8" });
    theirs = out.trim().split(/\s+/).map(Number);
  } catch {
    return null;
  }
  const find = () => compute(planningTwoStage, { unacceptable: 0.1, expected: 0.3 }, { largest: LARGEST });
  const seconds = quickest(find);
  const [theirSeconds = 0, theirBest = 0] = theirs;
  const apart = Math.abs((find().values.smallestExpected?.expectedTotal ?? 0) / theirBest - 1);
  return {
    name: `every two-stage design up to ${LARGEST} people, against R's vectors`,
    ratio: seconds / theirSeconds,
    bar: 1,
    detail: `${(seconds * 1000).toFixed(1)} ms, R ${(theirSeconds * 1000).toFixed(0)} ms; fewest people on average agree to ${apart.toExponential(1)}`,
  };
}

function sequentialRows(): BenchRow[] {
  const ten = Array.from({ length: 10 }, (_, at) => (at + 1) / 10);
  const plan = (unacceptable: number, expected: number, fractions: number[], horizon: number) => () =>
    compute(
      planningGroupSequential,
      { unacceptable, expected, fractions },
      { spending: "pocock", failure: true, horizon },
    );
  return [
    against("final total for four looks, 90 % against 95 %", 1, plan(0.9, 0.95, [0.25, 0.5, 0.75, 1], 2000)),
    against("final total for ten looks, 95 % against 97 %", 1, plan(0.95, 0.97, ten, 2000)),
    against("ten looks, 50 % against 52 %, not reached by 5,000", 5, plan(0.5, 0.52, ten, 5000)),
  ];
}

function ruleRow(): BenchRow {
  const looks = [
    { total: 62, failAt: 57 },
    { total: 124, passFrom: 122, failAt: 115 },
    { total: 300, passFrom: 291, failAt: 290 },
  ];
  const truths = [0.9, 0.93, 0.95, 0.97, 0.99];
  return against("a rule of three looks, five truths, 10,000 simulated studies each", 1, () =>
    compute(planningStoppingRule, { looks, truths }),
  );
}
