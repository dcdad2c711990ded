import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { jointPower } from "../../src/methods/planning/joint-power.ts";
import { whatIf } from "../../src/methods/planning/what-if.ts";
import type { BenchRow } from "./run.ts";

const SHARED = 800;
const CRITERIA = [
  { label: "analyte 1", expected: 0.9, threshold: 0.875, direction: "at_least" as const, total: 1000 },
  { label: "analyte 2", expected: 0.85, threshold: 0.825, direction: "at_least" as const, total: 1000 },
];
const CORRELATION = 0.3;
/** Ten times as many people, in the middle of the scale, where the distributions are widest. */
const WIDE = CRITERIA.map((one, at) => ({
  ...one,
  expected: 0.52,
  threshold: 0.5 + at / 1000,
  total: 10_000,
}));
const GRID = {
  expected: Array.from({ length: 12 }, (_, step) => 0.999 - step * 0.004),
  thresholds: Array.from({ length: 12 }, (_, step) => 0.98 - step * 0.01),
  prevalences: Array.from({ length: 12 }, (_, step) => 0.01 + step * 0.01),
  direction: "at_least" as const,
};
const HORIZON = 10_000;
const MOST_SECONDS = 1;

const R_POWER = `
needed <- function(n, c) min(which(qbeta(.025, 1:n, n:1) >= c))
n <- 1000; m <- ${SHARED}; p <- .9; q <- .85; a <- needed(n, .875); b <- needed(n, .825)
start <- proc.time()[["elapsed"]]
met <- function(phi) {
  v <- phi * sqrt(p * (1 - p) * q * (1 - q)); q1 <- q + v / p; q0 <- q - v / (1 - p)
  i <- 0:m; w <- dbinom(i, m, p) * pbinom(a - i - 1, n - m, p, lower.tail = FALSE)
  given <- vapply(i, function(s) {
    both <- convolve(dbinom(0:s, s, q1), rev(dbinom(0:(m - s), m - s, q0)), type = "open")
    sum(both * pbinom(b - (0:m) - 1, n - m, q, lower.tail = FALSE))
  }, 0)
  sum(w * given)
}
low <- -min(p * q, (1 - p) * (1 - q)) / sqrt(p * (1 - p) * q * (1 - q))
high <- min(p * (1 - q), q * (1 - p)) / sqrt(p * (1 - p) * q * (1 - q))
found <- c(met(${CORRELATION}), met(low), met(high))
cat(proc.time()[["elapsed"]] - start, sprintf("%.17g", found))`;
const R_GRID = `
start <- proc.time()[["elapsed"]]
n <- 1:${HORIZON}; all <- 0
for (c in .98 - (0:11) * .01) {
  needed <- qbinom(.975, n, c) + 1
  for (p in .999 - (0:11) * .004) if (p > c + 1e-9) {
    missed <- which(pbinom(needed - 1, n, p, lower.tail = FALSE) < .8)
    stays <- max(missed) + 1
    if (stays <= ${HORIZON}) all <- all + stays
  }
}
cat(proc.time()[["elapsed"]] - start, all)`;

/** Power of two criteria, and a table of what-ifs, against one second and against R doing the same. */
export async function benchPlanningTogether(): Promise<BenchRow[]> {
  return [...powers(), ...grids()];
}

function powers(): BenchRow[] {
  const wide = quickest(() =>
    compute(jointPower, { criteria: WIDE, shared: 9000, correlation: CORRELATION }),
  );
  const limit: BenchRow = {
    name: "power of two criteria, 10,000 people each, 9,000 shared, against 1 s",
    ratio: wide.seconds / MOST_SECONDS,
    bar: 1,
    detail: `${(wide.seconds * 1000).toFixed(0)} ms`,
  };
  const theirs = runR(R_POWER);
  if (theirs === null) return [limit];
  const { seconds, found } = quickest(
    () =>
      compute(jointPower, { criteria: CRITERIA, shared: SHARED, correlation: CORRELATION }).values.together,
  );
  const ours = [found.stated, found.lowest, found.highest];
  const apart = Math.max(...ours.map((value, at) => Math.abs((value ?? 0) - (theirs.found[at] as number))));
  const detail = `${(seconds * 1000).toFixed(1)} ms, R ${(theirs.seconds * 1000).toFixed(0)} ms; at most ${apart.toExponential(1)} apart`;
  const name = `power of two criteria, 1,000 people each, ${SHARED} shared, three correlations, against R by convolution`;
  return [limit, { name, ratio: seconds / theirs.seconds, bar: 1, detail }];
}

function grids(): BenchRow[] {
  const { seconds, found } = quickest(() => compute(whatIf, GRID, { horizon: HORIZON }).values.cells);
  const limit: BenchRow = {
    name: "144 sizes up to 10,000 people with 1,728 enrolments, exact interval, against 1 s",
    ratio: seconds / MOST_SECONDS,
    bar: 1,
    detail: `${(seconds * 1000).toFixed(0)} ms`,
  };
  const theirs = runR(R_GRID);
  if (theirs === null) return [limit];
  const sizes = quickest(() => compute(whatIf, { ...GRID, prevalences: [] }, { horizon: HORIZON }));
  const sum = found.reduce((all, { stays }) => all + (stays ?? 0), 0);
  const detail = `${(sizes.seconds * 1000).toFixed(0)} ms, R ${(theirs.seconds * 1000).toFixed(0)} ms; sums of the sizes ${sum} and ${theirs.found[0]}`;
  const name = "the 144 sizes, against R's vectorised qbinom and pbinom at every total";
  return [limit, { name, ratio: sizes.seconds / theirs.seconds, bar: 1, detail }];
}

function quickest<Found>(run: () => Found): { seconds: number; found: Found } {
  let found = run();
  let seconds = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 3; turn += 1) {
    const start = performance.now();
    found = run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return { seconds, found };
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
