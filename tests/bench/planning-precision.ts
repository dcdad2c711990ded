import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { planningEnrolment } from "../../src/methods/planning/enrolment.ts";
import { enrolledFor } from "../../src/methods/planning/enrolment-size.ts";
import { planningPrecision } from "../../src/methods/planning/precision.ts";
import { INTERVAL_METHODS, type IntervalMethod } from "../../src/methods/proportion/intervals/rules.ts";
import type { BenchRow } from "./run.ts";

const HORIZON = 10_000;
/** Proportion expected and half-width: all need nearly as many people as are looked at. */
const ASKED = [
  [0.98, 0.003],
  [0.95, 0.0045],
  [0.5, 0.01],
] as const;
/** R goes through the results of one total in one stroke; every total up to here, as ours does. */
const R_HORIZON = 1000;
const R_ASKED = [0.95, 0.016] as const;
const R_PRECISION = `
p <- ${R_ASKED[0]}; h <- ${R_ASKED[1]}
search <- function() { good <- sapply(1:${R_HORIZON}, function(n) {
  k <- 0:n; lower <- qbeta(.025, k, n - k + 1); lower[k == 0] <- 0
  upper <- qbeta(.025, k + 1, n - k, lower.tail = FALSE); upper[k == n] <- 1
  d <- dbinom(k, n, p); w <- (upper - lower) / 2; c(sum(d * w) <= h, sum(d[w <= h]) >= .9) })
  apply(!good, 1, function(bad) max(which(bad)) + 1) }
seconds <- suppressWarnings(system.time(found <- search())[["elapsed"]])
cat(seconds, found)`;
const R_ENROLMENT = `
chance <- function(N) { d <- 0:N; m <- exp(lchoose(N, d) + lbeta(50.5 + d, 50.5 + N - d) - lbeta(50.5, 50.5))
  sum(m * pbinom(399, d, .9, lower.tail = FALSE) * pbinom(399, N - d, .9, lower.tail = FALSE)) }
search <- function(wanted) { low <- 800; high <- 3200
  while (high - low > 1) { middle <- (low + high) %/% 2; if (chance(middle) >= wanted) high <- middle else low <- middle }
  high }
turn <- function() system.time(found <<- sapply(c(.8, .9, .95), search))[["elapsed"]]
warm <- turn(); cat(min(turn(), turn()), found)`;

/** Speed of the plans for precision and enrolment: against stated limits, and against R where it is installed. */
export async function benchPlanningPrecision(): Promise<BenchRow[]> {
  return [
    ...INTERVAL_METHODS.map(everyTotal),
    ...precisionAgainstR(),
    ...enrolmentAgainstR(),
    enrolmentOfMillions(),
  ];
}

function secondsOf(run: () => unknown, times: number): number {
  let seconds = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < times; turn += 1) {
    const start = performance.now();
    run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return seconds;
}

function everyTotal(method: IntervalMethod): BenchRow {
  const times = ASKED.map(([expected, halfWidth]) =>
    secondsOf(() => compute(planningPrecision, { expected, halfWidth }, { method, horizon: HORIZON }), 2),
  );
  const seconds = Math.max(...times);
  return {
    name: `size for precision, ${HORIZON.toLocaleString("en-GB")} totals, ${method}, against 1 s`,
    ratio: seconds,
    bar: 1,
    detail: `${(seconds * 1000).toFixed(0)} ms, the slowest of ${ASKED.length} questions`,
  };
}

function precisionAgainstR(): BenchRow[] {
  const [expected, halfWidth] = R_ASKED;
  const ours = () => compute(planningPrecision, { expected, halfWidth }, { horizon: R_HORIZON }).values;
  const theirs = runR(R_PRECISION);
  if (theirs === null) return [];
  ours();
  const seconds = secondsOf(ours, 3);
  const { expectedWidth, assured } = ours();
  return [
    {
      name: `size for precision among ${R_HORIZON} totals, exact interval, against R going through all results`,
      ratio: seconds / theirs.seconds,
      bar: 1,
      detail: `${milliseconds(seconds)}, R ${milliseconds(theirs.seconds)}; ${expectedWidth.stays} and ${assured.stays}, R ${theirs.found.join(" and ")}`,
    },
  ];
}

function enrolmentAgainstR(): BenchRow[] {
  const theirs = runR(R_ENROLMENT);
  if (theirs === null) return [];
  const ours = () =>
    compute(planningEnrolment, {
      positives: 400,
      negatives: 400,
      prevalence: { kind: "counts", positive: 50, total: 100 },
      losses: { invalid: 0.1 },
    }).values.targets;
  ours();
  const seconds = secondsOf(ours, 3);
  return [
    {
      name: "people to enrol for three assurances of 400 and 400, prevalence uncertain, against R's sums",
      ratio: seconds / theirs.seconds,
      bar: 1,
      detail: `${milliseconds(seconds)} (for each kind as well), R ${milliseconds(theirs.seconds)}; ${ours()
        .map(({ total }) => total)
        .join(", ")}, R ${theirs.found.join(", ")}`,
    },
  ];
}

const MOST_MILLISECONDS = 5;

function enrolmentOfMillions(): BenchRow {
  const run = () => enrolledFor(100_000, 0.01, 0.9);
  run();
  const seconds = secondsOf(run, 5);
  return {
    name: `how many of ten million to enrol, against ${MOST_MILLISECONDS} ms`,
    ratio: (seconds * 1000) / MOST_MILLISECONDS,
    bar: 1,
    detail: `${milliseconds(seconds)} for 100,000 with a share of 1 %: ${run().toLocaleString("en-GB")}`,
  };
}

function milliseconds(seconds: number): string {
  return `${(seconds * 1000).toFixed(2)} ms`;
}

/** `null` where R is not installed. */
function runR(program: string): { seconds: number; found: number[] } | null {
  try {
    const out = execFileSync("Rscript", ["--vanilla", "-e", program], { encoding: "utf8" });
    const [seconds, ...found] = out.trim().split(" ").map(Number);
    return { seconds: seconds ?? 0, found };
  } catch {
    return null;
  }
}
