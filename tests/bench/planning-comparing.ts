import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { planningKappa } from "../../src/methods/planning/kappa.ts";
import { planningPairedDifference } from "../../src/methods/planning/paired-difference.ts";
import { planningPairedNoninferiority } from "../../src/methods/planning/paired-noninferiority.ts";
import { pearsonPower } from "../../src/methods/planning/two-group-power.ts";
import { planningUnpairedDifference } from "../../src/methods/planning/unpaired-difference.ts";
import { planningUnpairedNoninferiority } from "../../src/methods/planning/unpaired-noninferiority.ts";
import type { BenchRow } from "./run.ts";

const MOST_SECONDS = 1;
/** Plans of some hundreds of people, by the defaults. */
const PLANS: readonly [string, () => unknown][] = [
  [
    "a difference on the same people, mid-P, at four shares judged differently",
    () => compute(planningPairedDifference, { first: 0.95, second: 0.88, discordant: 0.16 }),
  ],
  [
    "non-inferiority on the same people, at four shares judged differently",
    () => compute(planningPairedNoninferiority, { first: 0.92, second: 0.92, discordant: 0.1, margin: 0.05 }),
  ],
  [
    "a difference of two groups, Fisher's test",
    () => compute(planningUnpairedDifference, { first: 0.95, second: 0.9 }),
  ],
  [
    "non-inferiority of two groups, Miettinen and Nurminen's interval",
    () => compute(planningUnpairedNoninferiority, { first: 0.92, second: 0.92, margin: 0.05 }),
  ],
  [
    "kappa with 2,000 simulated studies",
    () => compute(planningKappa, { kappa: 0.8, reactiveFirst: 0.3, reactiveSecond: 0.3, halfWidth: 0.05 }),
  ],
];

const [FIRST, SECOND, MOST] = [0.75, 0.5, 300];
const R_PROGRAM = `
power <- function(n) {
  z <- outer(0:n, 0:n, function(x, y) { p <- (x + y) / (2 * n)
    ifelse(p %in% c(0, 1), 0, (x - y) / n / sqrt(p * (1 - p) * 2 / n)) })
  sum(outer(dbinom(0:n, n, ${FIRST}), dbinom(0:n, n, ${SECOND}))[z >= qnorm(.975)])
}
power(50)
start <- proc.time()[["elapsed"]]
found <- sapply(1:${MOST}, power)
cat(proc.time()[["elapsed"]] - start, formatC(sum(found), digits = 15))`;

/** Each plan with its default search, against one second; the exact power of every size, against R's. */
export async function benchPlanningComparing(): Promise<BenchRow[]> {
  const rows = PLANS.map(([name, plan]): BenchRow => {
    const seconds = quickest(plan).seconds;
    return {
      name: `size for ${name}, against 1 s`,
      ratio: seconds / MOST_SECONDS,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(0)} ms`,
    };
  });
  const theirs = runR();
  if (theirs === null) return rows;
  const ours = quickest(() => {
    let sum = 0;
    for (let total = 1; total <= MOST; total += 1) {
      sum += pearsonPower({ first: { share: FIRST, total }, second: { share: SECOND, total } }, 0.05);
    }
    return sum;
  });
  const apart = Math.abs((ours.found as number) / theirs.sum - 1);
  const detail = `${(ours.seconds * 1000).toFixed(1)} ms, R ${(theirs.seconds * 1000).toFixed(0)} ms; sums of powers apart by ${apart.toExponential(0)}`;
  const name = `exact power of Pearson's test at every size up to ${MOST}, against R with outer and dbinom`;
  return [...rows, { name, ratio: ours.seconds / theirs.seconds, bar: 1, detail }];
}

/** The quickest of three runs, after one to warm up. */
function quickest<Found>(run: () => Found): { seconds: number; found: Found } {
  const found = run();
  const seconds = [1, 2, 3].map(() => {
    const start = performance.now();
    run();
    return (performance.now() - start) / 1000;
  });
  return { seconds: Math.min(...seconds), found };
}

/** `null` where R is not installed. */
function runR(): { seconds: number; sum: number } | null {
  try {
    const out = execFileSync("Rscript", ["-e", R_PROGRAM], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
    });
    const [seconds = 0, sum = 0] = (out.trim().split("\n").at(-1) ?? "").split(" ").map(Number);
    return { seconds, sum };
  } catch {
    return null;
  }
}
