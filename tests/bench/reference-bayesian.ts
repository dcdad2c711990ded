import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { compute } from "../../src/core/method.ts";
import { referenceBayesian } from "../../src/methods/reference/bayesian.ts";
import { chainOf } from "../../src/methods/reference/bayesian-chain.ts";
import type { BayesianInput } from "../../src/methods/reference/bayesian-fields.ts";
import { bayesianModel } from "../../src/methods/reference/bayesian-model.ts";
import { columnOf, unknownsOf } from "../../src/methods/reference/bayesian-unknowns.ts";
import { chainDiagnostics } from "../../src/numeric/chain-diagnostics.ts";
import { flatPopulations, onePopulation } from "../methods/reference/bayesian-people.ts";
import type { BenchRow } from "./run.ts";

const CHAINS = 4;
const DRAWS = 25_000;

/** The same model as flatPopulations: counts by pattern are multinomial, so that nobody's class is drawn. */
const MODEL = `model {
  for (t in 1:2) { se[t] ~ dbeta(1, 1) sp[t] ~ dbeta(1, 1) }
  for (k in 1:2) {
    prev[k] ~ dbeta(1, 1)
    p[k, 1] <- prev[k] * se[1] * se[2] + (1 - prev[k]) * (1 - sp[1]) * (1 - sp[2])
    p[k, 2] <- prev[k] * se[1] * (1 - se[2]) + (1 - prev[k]) * (1 - sp[1]) * sp[2]
    p[k, 3] <- prev[k] * (1 - se[1]) * se[2] + (1 - prev[k]) * sp[1] * (1 - sp[2])
    p[k, 4] <- prev[k] * (1 - se[1]) * (1 - se[2]) + (1 - prev[k]) * sp[1] * sp[2]
    n[k, 1:4] ~ dmulti(p[k, 1:4], N[k])
  }
}`;
const DATA = `"n" <- structure(c(14, 887, 4, 31, 9, 37, 528, 367), .Dim = c(2, 4))\n"N" <- c(555, 1322)\n`;
const STARTS = `"se" <- c(.9, .9)\n"sp" <- c(.9, .9)\n"prev" <- c(.1, .6)\n`;

function commands(updates: number, after: readonly string[]): string {
  return [
    "model in model.bug",
    "data in data.R",
    `compile, nchains(${CHAINS})`,
    "parameters in starts.R",
    "initialize",
    "update 1000",
    "monitor se",
    "monitor sp",
    "monitor prev",
    `update ${updates}`,
    ...after,
  ].join("\n");
}

/** Effective draws of the worst unknown, and the seconds for them, without starting, compiling and writing. */
function byJags(): { effective: number; seconds: number } {
  const folder = mkdtempSync(join(tmpdir(), "chains-"));
  const run = (text: string) => {
    writeFileSync(join(folder, "run.cmd"), text);
    const start = performance.now();
    execFileSync("jags", ["run.cmd"], { cwd: folder, stdio: "ignore" });
    return (performance.now() - start) / 1000;
  };
  try {
    writeFileSync(join(folder, "model.bug"), MODEL);
    writeFileSync(join(folder, "data.R"), DATA);
    writeFileSync(join(folder, "starts.R"), STARTS);
    run(commands(DRAWS, ["coda *, stem(out)"]));
    const seconds = run(commands(DRAWS, [])) - run(commands(1, []));
    const chains = Array.from({ length: CHAINS }, (_, chain) => {
      const lines = readFileSync(join(folder, `outchain${chain + 1}.txt`), "utf8")
        .trim()
        .split("\n");
      return Float64Array.from(lines, (line) => Number(line.trim().split(/\s+/)[1]));
    });
    const unknowns = (chains[0]?.length ?? 0) / DRAWS;
    const columns = Array.from({ length: unknowns }, (_, unknown) =>
      chains.map((chain) => chain.subarray(unknown * DRAWS, (unknown + 1) * DRAWS)),
    );
    return { effective: worstOf(columns), seconds };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function byChains(): { effective: number; seconds: number } {
  const model = bayesianModel(flatPopulations);
  const run = () =>
    Array.from({ length: CHAINS }, (_, chain) => chainOf(model, 1, chain, { draws: DRAWS, warmup: 1000 }));
  run();
  const start = performance.now();
  const chains = run();
  const seconds = (performance.now() - start) / 1000;
  return { effective: worstOf(unknownsOf(model).map((unknown) => columnOf(unknown, chains))), seconds };
}

function worstOf(columns: readonly (readonly Float64Array[])[]): number {
  const effective = columns.map((chains) => {
    const sorted = Float64Array.from(chains.flatMap((chain) => [...chain])).sort();
    return chainDiagnostics(chains, sorted).bulkEffective ?? 0;
  });
  return Math.min(...effective);
}

function wholeMethod(name: string, input: BayesianInput): BenchRow {
  const ask = () => compute(referenceBayesian, input, { chains: CHAINS, draws: DRAWS });
  ask();
  const start = performance.now();
  ask();
  const seconds = (performance.now() - start) / 1000;
  return {
    name: `${name}, 4 x 25,000 draws with everything reported, against 1 s`,
    ratio: seconds,
    bar: 1,
    detail: `${(1000 * seconds).toFixed(0)} ms`,
  };
}

/** Effective draws a second of the worst unknown against JAGS in the same run, and the method as a whole. */
export async function benchReferenceBayesian(): Promise<BenchRow[]> {
  const rows = [
    wholeMethod("two tests in two populations", flatPopulations),
    wholeMethod("two tests in one population", onePopulation),
  ];
  if (spawnSync("jags", { input: "exit\n" }).status !== 0) {
    console.log("  jags is not installed: nothing to hold the chains against");
    return rows;
  }
  const theirs = byJags();
  const ours = byChains();
  const rate = ({ effective, seconds }: typeof ours) => effective / seconds;
  const told = ({ effective, seconds }: typeof ours) =>
    `${Math.round(effective)} effective draws in ${(1000 * seconds).toFixed(0)} ms`;
  rows.push({
    name: "JAGS's effective draws a second (worst unknown) over ours, two tests in two populations",
    ratio: rate(theirs) / rate(ours),
    bar: 0.1,
    detail: `${told(theirs)}; ours ${told(ours)}`,
  });
  return rows;
}
