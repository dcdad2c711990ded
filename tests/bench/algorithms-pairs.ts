import { execFileSync } from "node:child_process";
import { compute } from "../../src/core/method.ts";
import { expectedDiscordance } from "../../src/methods/algorithms/expected-discordance.ts";
import { observedDependence } from "../../src/methods/algorithms/observed-dependence.ts";
import { patternFit } from "../../src/methods/algorithms/pattern-fit.ts";
import { exactMoreThan, momentsOf } from "../../src/methods/algorithms/runs-needed.ts";
import { stock } from "../../src/methods/algorithms/stock.ts";
import { twoTests } from "../../src/methods/algorithms/two-tests.ts";
import type { BenchRow } from "./run.ts";

const value = (share: number) => ({ kind: "value" as const, value: share });
const counts = (right: number, total: number) => ({ kind: "counts" as const, right, total });
const KIT = { sensitivity: 0.99, specificity: 0.98 };
const FEW = { bothReactive: 3, firstOnly: 5, secondOnly: 4, neither: 488 };
const AGAIN = [
  { runs: 0, probability: 0.9 },
  { runs: 1, probability: 0.08 },
  { runs: 2, probability: 0.02 },
];
const situation = (share: number) => ({
  weight: 1,
  perPerson: [
    { runs: 0, probability: 1 - share },
    { runs: 1, probability: share },
  ],
});

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  [
    "two tests over 200 prevalences",
    0.01,
    () =>
      compute(twoTests, {
        first: KIT,
        second: KIT,
        dependence: { kind: "phi", diseased: 0.1, nondiseased: 0.1 },
        prevalences: Array.from({ length: 200 }, (_, place) => place / 400),
      }),
  ],
  [
    "observed dependence, 10,000 draws for each truth",
    0.25,
    () => compute(observedDependence, { diseased: FEW, nondiseased: FEW }),
  ],
  [
    "discordance with four uncertain shares, 10,000 draws",
    0.5,
    () =>
      compute(expectedDiscordance, {
        first: { sensitivity: counts(198, 200), specificity: counts(392, 400) },
        second: { sensitivity: counts(195, 200), specificity: value(0.995) },
        dependence: { kind: "phi", diseased: 0.05, nondiseased: 0.05 },
        prevalence: 0.02,
        observed: { tested: 4000, firstReactive: 98, secondNonreactive: 61 },
      }),
  ],
  [
    "fit of four patterns, 170 people: all 866,000 tables",
    0.5,
    () =>
      compute(patternFit, {
        patterns: [100, 30, 20, 20].map((observed, place) => ({
          pattern: `${place}`,
          observed,
          probability: [0.6, 0.2, 0.1, 0.1][place] ?? 0,
        })),
      }),
  ],
  [
    "stock for 400,000 people, exact",
    0.5,
    () =>
      compute(stock, {
        clients: 400_000,
        situations: [{ weight: 1, perPerson: AGAIN }],
        waste: 0.03,
        packSize: 25,
      }),
  ],
  [
    "stock for 100,000 people at 21 prevalences",
    0.5,
    () =>
      compute(stock, {
        clients: 100_000,
        situations: Array.from({ length: 21 }, (_, place) => situation(0.02 + place / 400)),
        waste: 0.03,
        packSize: 25,
      }),
  ],
];

const PEOPLE = 20_000;
const R_PROGRAM = `
one <- c(.9, .08, .02)
double <- function(s) { k <- convolve(s, rev(s), type = "open"); pmax(k, 0) }
start <- proc.time()[["elapsed"]]
for (again in 1:5) {
  sum <- 1
  for (bit in rev(as.integer(intToBits(${PEOPLE}))[1:15])) {
    sum <- double(sum)
    if (bit == 1) sum <- pmax(convolve(sum, rev(one), type = "open"), 0)
  }
}
cat((proc.time()[["elapsed"]] - start) / 5, which(cumsum(sum) >= .95)[1] - 1)`;

/** Each question against its seconds; the exact sum over all people against R's convolution by FFT. */
export async function benchAlgorithmsPairs(): Promise<BenchRow[]> {
  const rows = QUESTIONS.map(([name, most, ask]): BenchRow => {
    const { seconds } = quickest(ask);
    return {
      name: `${name}, against ${most} s`,
      ratio: seconds / most,
      bar: 1,
      detail: `${(seconds * 1000).toFixed(1)} ms`,
    };
  });
  const theirs = runR();
  if (theirs === null) return rows;
  const ours = quickest(() => exactMoreThan(AGAIN, momentsOf(AGAIN), PEOPLE));
  const same = ours.result(theirs.ordered) <= 0.05 && ours.result(theirs.ordered - 1) > 0.05;
  rows.push({
    name: `devices used by ${PEOPLE.toLocaleString("en-GB")} people, exact, against R's convolve`,
    ratio: same ? ours.seconds / theirs.seconds : Number.POSITIVE_INFINITY,
    bar: 1,
    detail: `${(ours.seconds * 1000).toFixed(1)} ms, R ${(theirs.seconds * 1000).toFixed(1)} ms, ${same ? "the same order" : "orders differ"}`,
  });
  return rows;
}

function quickest<Result>(run: () => Result): { seconds: number; result: Result } {
  let result = run();
  let seconds = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 3; round += 1) {
    const start = performance.now();
    result = run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return { seconds, result };
}

function runR(): { seconds: number; ordered: number } | null {
  try {
    const output = execFileSync("Rscript", ["-e", R_PROGRAM], {
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
    });
    const [seconds, ordered] = output.trim().split(" ").map(Number);
    return seconds === undefined || ordered === undefined ? null : { seconds, ordered };
  } catch {
    return null;
  }
}
