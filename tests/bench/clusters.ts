import { existsSync, readFileSync } from "node:fs";
import { Worker } from "node:worker_threads";
import { parse } from "csv-parse/sync";
import { compute } from "../../src/core/method.ts";
import { clustersBootstrap } from "../../src/methods/clusters/bootstrap.ts";
import { clusterReplicates } from "../../src/methods/clusters/cluster-replicates.ts";
import type { BenchRow } from "./run.ts";

const REPLICATES = 10_000;
const MOST_SECONDS = 2;
const DEMO = new URL("../../data/demo/", import.meta.url);
/** Built by `npm run bench` before it measures: a worker needs plain JavaScript. */
const BUILT = new URL("../../dist/methods/clusters/cluster-replicates.js", import.meta.url);

interface Counted {
  readonly label: string;
  readonly count: number;
  readonly total: number;
}

/** Speed of the cluster bootstrap on the demo's own clusters, and whether two threads would gain. */
export async function benchClusters(): Promise<BenchRow[]> {
  const { operators, sites, persons } = demoClusters();
  const all = [operators, sites, persons];
  const seconds = quickest(() => {
    for (const clusters of all) compute(clustersBootstrap, { clusters }, { replicates: REPLICATES });
  });
  const sizes = all.map((clusters) => clusters.length).join(" + ");
  return [
    {
      name: `cluster bootstrap of the demo, ${REPLICATES} replicates each, against ${MOST_SECONDS} s`,
      ratio: seconds / MOST_SECONDS,
      bar: 1,
      detail: `${seconds.toFixed(3)} s for ${sizes} clusters (operators, sites, persons), both intervals`,
    },
    ...(await againstTwoThreads(persons)),
  ];
}

/** Valid cassettes among first attempts, by operator, site and person. */
function demoClusters() {
  const rows = (name: string) =>
    parse(readFileSync(new URL(`${name}.csv`, DEMO), "utf8"), { columns: true }) as Record<string, string>[];
  const people = new Map(rows("participants").map((row) => [row.participant_id, row]));
  const specimens = new Map(
    rows("specimens").map((row) => [row.specimen_id, people.get(row.participant_id)]),
  );
  const firsts = rows("index_tests").filter((row) => row.attempt_no === "1");
  const by = (keyOf: (row: Record<string, string>) => string | undefined): Counted[] => {
    const tallies = new Map<string, { count: number; total: number }>();
    for (const row of firsts) {
      const key = keyOf(row);
      if (key === undefined) continue;
      const tally = tallies.get(key) ?? { count: 0, total: 0 };
      tally.count += row.invalid_reason === "" ? 1 : 0;
      tally.total += 1;
      tallies.set(key, tally);
    }
    return [...tallies].map(([label, tally]) => ({ label, ...tally }));
  };
  return {
    operators: by((row) => row.operator_id),
    sites: by((row) => specimens.get(row.specimen_id)?.site_id),
    persons: by((row) => specimens.get(row.specimen_id)?.person_key),
  };
}

function quickest(run: () => unknown): number {
  let seconds = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < 4; turn += 1) {
    const start = performance.now();
    run();
    seconds = Math.min(seconds, (performance.now() - start) / 1000);
  }
  return seconds;
}

/** One thread over two, the start of the workers included: below 1 one thread is the quicker. */
async function againstTwoThreads(clusters: readonly Counted[]): Promise<BenchRow[]> {
  if (!existsSync(BUILT)) return [];
  const alone = quickest(() => clusterReplicates(clusters, 0, REPLICATES, 1));
  let together = Number.POSITIVE_INFINITY;
  let halves: Float64Array[] = [];
  for (let turn = 0; turn < 4; turn += 1) {
    const start = performance.now();
    halves = await Promise.all([
      inWorker(clusters, 0, REPLICATES / 2),
      inWorker(clusters, REPLICATES / 2, REPLICATES),
    ]);
    together = Math.min(together, (performance.now() - start) / 1000);
  }
  const joined = halves.flatMap((half) => [...half]);
  const same = clusterReplicates(clusters, 0, REPLICATES, 1).every((value, at) => value === joined[at]);
  if (!same) throw new Error("two threads gave other replicates than one");
  const detail = `${(alone * 1000).toFixed(0)} ms alone, ${(together * 1000).toFixed(0)} ms on two threads with their start, the same numbers`;
  return [
    { name: `${clusters.length} persons: one thread over two`, ratio: alone / together, bar: 2, detail },
  ];
}

function inWorker(clusters: readonly Counted[], from: number, to: number): Promise<Float64Array> {
  const code = `
    const { parentPort, workerData } = require("node:worker_threads");
    import(workerData.built).then(({ clusterReplicates }) => {
      const { clusters, from, to } = workerData;
      parentPort.postMessage(clusterReplicates(clusters, from, to, 1));
    });`;
  const worker = new Worker(code, { eval: true, workerData: { built: BUILT.href, clusters, from, to } });
  return new Promise((resolve, reject) => {
    worker.once("message", (found: Float64Array) => resolve(found));
    worker.once("error", reject);
  });
}
