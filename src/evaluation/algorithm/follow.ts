import type { Algorithm, Step } from "../../methods/algorithms/model.ts";
import { pathsOf } from "../../methods/algorithms/paths.ts";
import { presetSteps } from "../../methods/algorithms/presets.ts";
import type { AlgorithmFile, FileAlgorithm } from "../../records/algorithm/algorithm-schema.ts";
import { shareOf } from "./centre.ts";
import type { FollowedAlgorithm } from "./document.ts";

/** The steps of an algorithm of the file: its own, or those of the usual one that it names. */
export function stepsOf({ preset, kits = [], steps, again = 1, discordant }: FileAlgorithm): Step[] {
  if (preset === undefined) return (steps ?? []).map((step) => ({ ...step }));
  const repeats = again as 0 | 1 | 2 | 3;
  return presetSteps(preset, kits, {
    again: repeats,
    ...(discordant === undefined ? {} : { discordant }),
  });
}

/** Every algorithm of the file, drawn step by step. */
export function followedAlgorithms({ algorithms }: AlgorithmFile): FollowedAlgorithm[] {
  return algorithms.map((algorithm) => {
    const { id, title, analyte, retest_after } = algorithm;
    const steps = stepsOf(algorithm);
    return {
      algorithm: id,
      title,
      analyte,
      main: mainOf(algorithms, analyte) === id,
      steps,
      kits: [...new Set(steps.map(({ kit }) => kit))],
      retested: retest_after ?? null,
    };
  });
}

/** The algorithm that leads for an analyte: the one that says so, else the first. */
function mainOf(algorithms: readonly FileAlgorithm[], analyte: string): string | undefined {
  const own = algorithms.filter((algorithm) => algorithm.analyte === analyte);
  return (own.find(({ main }) => main === true) ?? own[0])?.id;
}

/** Two kits that may both give a valid result to one person; the same twice: a repeat. */
export interface RunTogether {
  readonly first: string;
  readonly second: string;
}

/** Every two kits that an algorithm may run, both valid, on one person, both passes together. */
export function runTogether(file: AlgorithmFile, followed: FollowedAlgorithm): RunTogether[] {
  const kits = file.kits.map(({ id, invalid }) => {
    const known = shareOf(invalid);
    return known.kind === "value" ? { id, invalid: known.value } : { id };
  });
  const algorithm: Algorithm = { steps: [...followed.steps], retest: null };
  const paths = pathsOf(algorithm, kits).map(({ parts, status }) => ({
    status,
    runs: parts.flatMap(({ kit, result }) => (result === "invalid" ? [] : [kits[kit]?.id ?? ""])),
  }));
  const returning = followed.retested === null ? [] : paths.filter(({ status }) => status === "inconclusive");
  const found = new Map<string, RunTogether>();
  const add = (one: string, other: string) => {
    const [first, second] = inOrder(file, one, other);
    found.set(`${first} ${second}`, { first, second });
  };
  for (const { runs } of paths) {
    runs.forEach((one, at) => {
      for (const other of runs.slice(at + 1)) add(one, other);
    });
  }
  const again = new Set(paths.flatMap(({ runs }) => runs));
  for (const one of new Set(returning.flatMap(({ runs }) => runs))) {
    for (const other of again) add(one, other);
  }
  return [...found.values()];
}

/** Two kits in the order of the file. */
function inOrder({ kits }: AlgorithmFile, one: string, other: string): readonly [string, string] {
  const place = (id: string) => kits.findIndex((kit) => kit.id === id);
  return place(one) <= place(other) ? [one, other] : [other, one];
}
