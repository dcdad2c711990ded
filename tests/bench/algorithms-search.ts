import { existsSync } from "node:fs";
import { Worker } from "node:worker_threads";
import type { InferInput } from "valibot";
import { demand } from "../../src/core/check.ts";
import { compute } from "../../src/core/method.ts";
import { algorithmsFrontier } from "../../src/methods/algorithms/frontier.ts";
import {
  type FrontierTally,
  frontierDraws,
  mergeFrontierDraws,
} from "../../src/methods/algorithms/frontier-draws.ts";
import { FrontierInput } from "../../src/methods/algorithms/frontier-input.ts";
import type { BenchRow } from "./run.ts";

const DRAWS = 10_000;
const SEED = 1;
const MOST_SECONDS = 5;
const KITS: readonly [string, number, number, number][] = [
  ["A", 196, 490, 2.1],
  ["B", 197, 498, 1.4],
  ["C", 198, 497, 1.9],
  ["D", 195, 499, 1.75],
  ["E", 199, 485, 2.5],
];
type Asked = InferInput<typeof FrontierInput>;
type Dependence = Asked["dependence"];

const PAIRS = KITS.flatMap(([first], at) =>
  KITS.slice(at + 1).map(([second]) => ({ first, second, diseased: 0.05, nondiseased: 0.04 })),
);
const DEPENDENCES: readonly [string, Dependence][] = [
  ["independent", { kind: "independent" }],
  ["a shared effect", { kind: "shared", diseased: { spread: 0.5 }, nondiseased: { spread: 0.5 } }],
  ["error correlations of all pairs", { kind: "pairs", pairs: PAIRS }],
];

function asked(dependence: Dependence): Asked {
  const known = (value: number) => ({ kind: "value" as const, value });
  return {
    kits: KITS.map(([id, found, cleared, price]) => ({
      id,
      sensitivity: { kind: "counts" as const, right: found, total: 200 },
      specificity: { kind: "counts" as const, right: cleared, total: 500 },
      invalid: { kind: "range" as const, low: 0.005, high: 0.02 },
      price: known(price),
      minutes: 15,
      group: null,
    })),
    dependence,
    prevalences: Array.from({ length: 200 }, (_, at) => (at + 1) / 1000),
    costs: { perPerson: known(2), perInconclusive: known(25) },
    constraints: {
      minimumPpv: 0.99,
      minimumNpv: 0.99,
      mostInconclusive: 0.05,
      mostMinutes: null,
      differentGroups: false,
    },
    inconclusiveDiseased: "apart",
  };
}

/** 5 kits, all 205 algorithms up to three tests, 200 prevalences, 10,000 draws, against five seconds. */
export async function benchAlgorithmsSearch(): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  for (const [name, dependence] of DEPENDENCES) {
    const question = asked(dependence);
    const start = performance.now();
    compute(algorithmsFrontier, question, { draws: DRAWS, seed: SEED });
    const seconds = (performance.now() - start) / 1000;
    const label = `search of 5 kits, 200 prevalences, 10,000 draws, ${name}, against ${MOST_SECONDS} s`;
    const detail = `${seconds.toFixed(2)} s`;
    rows.push({ name: `${label}, one thread`, ratio: seconds / MOST_SECONDS, bar: 1, detail });
    const two = await onTwoThreads(question);
    if (two === null) continue;
    rows.push({
      name: `${label}, two threads`,
      ratio: two / MOST_SECONDS,
      bar: 1,
      detail: `${two.toFixed(2)} s`,
    });
  }
  return rows;
}

const BUILT = new URL("../../dist/methods/algorithms/frontier-draws.js", import.meta.url);
/** A worker that makes one slice of the draws; it needs the built code, as workers read no TypeScript. */
const SLICE = `
const { parentPort, workerData } = require("node:worker_threads");
import(workerData.built).then(({ frontierDraws }) =>
  parentPort.postMessage(frontierDraws(workerData.input, workerData.seed, workerData.first, workerData.count)));`;

/** Seconds; `null` where nothing is built. Throws where the merged slices are not what one thread gives. */
async function onTwoThreads(question: Asked): Promise<number | null> {
  if (!existsSync(BUILT)) return null;
  const input = demand(FrontierInput, question, "input");
  const start = performance.now();
  const half = DRAWS / 2;
  const slices = await Promise.all([slice(input, 0, half), slice(input, half, half)]);
  const merged = mergeFrontierDraws(slices as [FrontierTally, FrontierTally]);
  const seconds = (performance.now() - start) / 1000;
  const few = 100;
  const [here, there] = [frontierDraws(input, SEED, 0, few), await slice(input, 0, few)];
  if (merged.draws !== DRAWS || here.best.some((times, at) => times !== there.best[at])) {
    throw new Error("threads give other numbers than one thread");
  }
  return seconds;
}

function slice(input: FrontierInput, first: number, count: number): Promise<FrontierTally> {
  const workerData = { built: BUILT.href, input, seed: SEED, first, count };
  const worker = new Worker(SLICE, { eval: true, workerData });
  return new Promise((resolve, reject) => {
    worker.once("message", resolve);
    worker.once("error", reject);
  });
}
