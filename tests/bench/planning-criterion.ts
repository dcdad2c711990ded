import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { planningCriterionSize, powerCurve } from "../../src/methods/planning/criterion-size.ts";
import { INTERVAL_METHODS } from "../../src/methods/proportion/intervals/rules.ts";
import type { BenchRow } from "./run.ts";

const TOTALS = 5000;
/** Expected and demanded: the last pair reaches no power within the horizon, so that nothing ends the search. */
const ASKED = [
  [0.99, 0.98],
  [0.9, 0.88],
  [0.52, 0.5],
  [0.951, 0.95],
] as const;
/** The same search in R, for all totals at once: the quantile that the exact limit stands for. */
const R_PROGRAM = `
n <- 1:${TOTALS}; expected <- c(${ASKED.map(([expected]) => expected)}); demanded <- c(${ASKED.map(([, demanded]) => demanded)})
search <- function() sapply(seq_along(expected), function(i) {
  needed <- qbinom(.025, n, demanded[i], lower.tail = FALSE) + 1
  power <- ifelse(needed > n, 0, pbinom(needed - 1, n, expected[i], lower.tail = FALSE))
  c(which(power >= .8)[1], if (power[${TOTALS}] < .8) NA else max(which(power < .8)) + 1)
})
seconds <- function(times) system.time(for (turn in seq_len(times)) found <<- search())[["elapsed"]] / times
warm <- seconds(5); cat(min(seconds(20), seconds(20)), ifelse(is.na(found), 0, found))`;

/** Speed of the search for a size: against one second, and against R where it is installed. */
export async function benchPlanningCriterion(): Promise<BenchRow[]> {
  return [...INTERVAL_METHODS.map(everyTotal), ...againstR()];
}

function quickest(run: () => void, times: number): number {
  let seconds = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < times; turn += 1) {
    const start = performance.now();
    run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return seconds;
}

function everyTotal(method: (typeof INTERVAL_METHODS)[number]): BenchRow {
  const times = ASKED.map(([expected, threshold]) => {
    const asked = { expected, threshold, direction: "at_least" } as const;
    return quickest(() => powerCurve(asked, { method, level: 0.95, sides: "two" }, 1, TOTALS), 2);
  });
  const seconds = Math.max(...times);
  return {
    name: `power at every total up to ${TOTALS.toLocaleString("en-GB")}, ${method}, against 1 s`,
    ratio: seconds,
    bar: 1,
    detail: `${(seconds * 1000).toFixed(0)} ms, the slowest of ${ASKED.length} questions`,
  };
}

function againstR(): BenchRow[] {
  const ours = () =>
    ASKED.flatMap(([expected, threshold]) => {
      const asked = { expected, threshold, direction: "at_least" } as const;
      const { first, stays } = compute(planningCriterionSize, asked, { horizon: TOTALS }).values;
      return [first.total ?? 0, stays.total ?? 0];
    });
  const theirs = runR();
  if (theirs === null) return [];
  const found = ours();
  const seconds = quickest(ours, 20);
  const same = found.every((total, at) => total === theirs.found[at]);
  return [
    {
      name: `both exact sizes of ${ASKED.length} questions up to ${TOTALS.toLocaleString("en-GB")} people, against R's vectorised qbinom and pbinom`,
      ratio: seconds / theirs.seconds,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(1)} ms, R ${(theirs.seconds * 1000).toFixed(1)} ms; ${same ? "the same sizes" : `sizes differ: ${found} and ${theirs.found}`}`,
    },
  ];
}

/** `null` where R is not installed. */
function runR(): { seconds: number; found: number[] } | null {
  try {
    const out = execFileSync("Rscript", ["--vanilla", "-e", R_PROGRAM], { encoding: "utf8" });
    const [seconds = 0, ...found] = out.trim().split(" ").map(Number);
    return { seconds, found };
  } catch {
    return null;
  }
}
