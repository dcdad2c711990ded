import type * as v from "valibot";
import { compute, type Method } from "../../core/method.ts";
import type { Note } from "../../core/note.ts";
import { taskNumber } from "../../core/random.ts";
import type { Dependence } from "../../methods/algorithms/fields.ts";
import type { Kit, Retest } from "../../methods/algorithms/model.ts";
import { observedDependence } from "../../methods/algorithms/observed-dependence.ts";
import type { UncertainKit } from "../../methods/algorithms/uncertain-fields.ts";
import type { AlgorithmFile, FileChannel, FileKit } from "../../records/algorithm/algorithm-schema.ts";
import { type Carried, carried } from "../plan/asked.ts";
import { centreOf, moneyOf, shareOf } from "./centre.ts";
import type { DependentPair, FollowedAlgorithm } from "./document.ts";
import { followedAlgorithms, type RunTogether, runTogether } from "./follow.ts";
import { boundsOf, pairStated, within } from "./pairs.ts";

/** What is used of a pair: its error correlation by truth, and where it comes from. */
export interface PairUsed {
  readonly analyte: string;
  readonly first: string;
  readonly second: string;
  readonly source: DependentPair["source"];
  readonly diseased: number;
  readonly nondiseased: number;
  readonly estimated: DependentPair["estimated"];
  readonly notes: readonly Note[];
}

/** What every section works with: the file, its algorithms drawn step by step, and one way to call a method. */
export interface AlgorithmWorktop {
  readonly file: AlgorithmFile;
  readonly followed: readonly FollowedAlgorithm[];
  ask<Input extends v.GenericSchema, Options extends v.GenericSchema, Values extends v.GenericSchema>(
    method: Method<Input, Options, Values>,
    input: v.InferInput<Input>,
    options?: v.InferInput<Options>,
  ): Carried<v.InferOutput<Input>, v.InferOutput<Options>, v.InferOutput<Values>>;
  kit(id: string): FileKit;
  /** Kits at their centre, for one analyte, in the order given. */
  kitsOf(analyte: string, ids: readonly string[]): Kit[];
  /** The same with what is known of each; a price is that of a device used, those lost paid with it. */
  uncertainKitsOf(analyte: string, ids: readonly string[]): UncertainKit[];
  /** What is used of two kits; `null` where dependence is not stated by pairs, or the pair not at all. */
  pairOf(analyte: string, pair: RunTogether): PairUsed | null;
  /** The dependence of all runs that these algorithms, of one analyte, may make. */
  dependenceOf(algorithms: readonly FollowedAlgorithm[]): Dependence;
  /** The dependence of these kits' runs, of one analyte, where they may come together in these pairs. */
  dependenceAmong(analyte: string, kits: readonly string[], together: readonly RunTogether[]): Dependence;
  prevalenceOf(channel: FileChannel, analyte: string): number;
  retestOf(algorithm: FollowedAlgorithm, channel: FileChannel): Retest;
  /** Seed of one random result: of the file's seed and the place, so that no two share their draws. */
  seedOf(place: string): number;
  used(): { id: string; version: number }[];
}

export function algorithmWorktop(file: AlgorithmFile): AlgorithmWorktop {
  const used = new Map<string, number>();
  const pairs = new Map<string, PairUsed | null>();
  const kit = (id: string) => file.kits.find((one) => one.id === id) as FileKit;
  const worktop: AlgorithmWorktop = {
    file,
    followed: followedAlgorithms(file),
    ask(method, input, options) {
      used.set(method.id, method.version);
      return carried(compute(method, input, options));
    },
    kit,
    kitsOf: (analyte, ids) =>
      worktop.uncertainKitsOf(analyte, ids).map(({ id, sensitivity, specificity, invalid }) => ({
        id,
        sensitivity: centreOf(sensitivity),
        specificity: centreOf(specificity),
        invalid: centreOf(invalid),
      })),
    uncertainKitsOf: (analyte, ids) => ids.map((id) => uncertainKit(kit(id), analyte)),
    pairOf(analyte, { first, second }) {
      const key = `${analyte} ${first} ${second}`;
      const known = pairs.get(key);
      if (known !== undefined) return known;
      const found = pairUsed(worktop, analyte, first, second);
      pairs.set(key, found);
      return found;
    },
    dependenceOf(algorithms) {
      const kits = algorithms.flatMap((one) => one.kits);
      const together = algorithms.flatMap((one) => runTogether(file, one));
      return dependenceAmong(worktop, algorithms[0]?.analyte ?? "", kits, together);
    },
    dependenceAmong: (analyte, kits, together) => dependenceAmong(worktop, analyte, kits, together),
    prevalenceOf: ({ prevalence }, analyte) => centreOf(shareOf(prevalence[analyte] ?? {})),
    retestOf: ({ retested }, channel) => (retested === null ? null : { share: channel.return ?? 0 }),
    seedOf: (place) => (file.seed ^ taskNumber(place)) >>> 0,
    used: () =>
      [...used].map(([id, version]) => ({ id, version })).sort((one, other) => (one.id < other.id ? -1 : 1)),
  };
  return worktop;
}

function uncertainKit(kit: FileKit, analyte: string): UncertainKit {
  const accuracy = kit.analytes[analyte];
  return {
    id: kit.id,
    sensitivity: shareOf(accuracy?.sensitivity ?? {}),
    specificity: shareOf(accuracy?.specificity ?? {}),
    invalid: shareOf(kit.invalid),
    price: moneyOf(kit),
  };
}

function pairUsed(
  worktop: AlgorithmWorktop,
  analyte: string,
  first: string,
  second: string,
): PairUsed | null {
  const { file } = worktop;
  const stated = pairStated(file, analyte, first, second);
  if (stated === null) return null;
  const pair = { analyte, first, second };
  if (stated.source !== "estimated") {
    const { source, diseased, nondiseased } = stated;
    return { ...pair, source, diseased, nondiseased, estimated: null, notes: [] };
  }
  const { counts, turned } = stated;
  const input = { diseased: inOrder(counts.positive, turned), nondiseased: inOrder(counts.negative, turned) };
  const options = {
    level: file.level,
    draws: file.draws,
    seed: worktop.seedOf(`${analyte} ${first} ${second}`),
  };
  const estimated = worktop.ask(observedDependence, input, options);
  const bounds = boundsOf(file, analyte, first, second);
  const phi = (truth: "diseased" | "nondiseased") =>
    within(estimated.values[truth].phi.value ?? 0, bounds[truth], truth);
  const [diseased, nondiseased] = [phi("diseased"), phi("nondiseased")];
  return {
    ...pair,
    source: "estimated",
    diseased: diseased.phi,
    nondiseased: nondiseased.phi,
    estimated,
    notes: [...diseased.notes, ...nondiseased.notes],
  };
}

interface Table {
  readonly both: number;
  readonly first: number;
  readonly second: number;
  readonly neither: number;
}

function inOrder({ both, first, second, neither }: Table, turned: boolean) {
  const [firstOnly, secondOnly] = turned ? [second, first] : [first, second];
  return { bothReactive: both, firstOnly, secondOnly, neither };
}

function dependenceAmong(
  worktop: AlgorithmWorktop,
  analyte: string,
  kits: readonly string[],
  together: readonly RunTogether[],
): Dependence {
  const { dependence } = worktop.file;
  if (dependence?.kind === "shared") {
    const { positive, negative, loadings, same_kit } = dependence;
    return {
      kind: "shared",
      diseased: { spread: positive },
      nondiseased: { spread: negative },
      loadings: Object.fromEntries(Object.entries(loadings).filter(([id]) => kits.includes(id))),
      ...(same_kit === undefined
        ? {}
        : { sameKit: { diseased: same_kit.positive, nondiseased: same_kit.negative } }),
    };
  }
  if (dependence?.kind !== "pairs") return { kind: "independent" };
  const used = new Map<string, PairUsed>();
  for (const pair of together) {
    const found = worktop.pairOf(analyte, pair);
    if (found !== null) used.set(`${pair.first} ${pair.second}`, found);
  }
  return {
    kind: "pairs",
    pairs: [...used.values()].map(({ first, second, diseased, nondiseased }) => ({
      first,
      second,
      diseased,
      nondiseased,
    })),
  };
}
