import { jointOf } from "../../../methods/algorithms/dependence.ts";
import type { TwoKitDependence } from "../../../methods/algorithms/two-kits-fields.ts";
import { twoTests } from "../../../methods/algorithms/two-tests.ts";
import type { AlgorithmDependence, DependentPair } from "../document.ts";
import { type RunTogether, runTogether } from "../follow.ts";
import { reactiveShares } from "../pairs.ts";
import { searchedTogether } from "../searched.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { sweepsOf } from "./sweeps.ts";
import { twoWayOf } from "./two-way.ts";

/** How far kits are wrong about the same people, what the file says of it, and what it does to the answer. */
export function dependenceSection(worktop: AlgorithmWorktop): AlgorithmDependence {
  const pairs = pairsUsed(worktop);
  const kind = worktop.file.dependence?.kind ?? "none";
  return {
    kind: pairs.length === 0 ? "none" : kind,
    pairs: pairs.map(({ analyte, pair }) => pairEntry(worktop, analyte, pair)),
    sweeps: sweepsOf(worktop),
    twoWay: twoWayOf(worktop),
  };
}

interface Used {
  readonly analyte: string;
  readonly pair: RunTogether;
}

/** Every two runs that some algorithm, or the search, may make in one person; each once. */
function pairsUsed({ file, followed }: AlgorithmWorktop): Used[] {
  const found = new Map<string, Used>();
  const add = (analyte: string, { first, second }: RunTogether) => {
    const key = `${analyte} ${first} ${second}`;
    if (!found.has(key)) found.set(key, { analyte, pair: { first, second } });
  };
  for (const one of followed) for (const pair of runTogether(file, one)) add(one.analyte, pair);
  for (const { analyte, ...pair } of searchedTogether(file)) add(analyte, pair);
  const rank = (id: string) => file.analytes.findIndex((analyte) => analyte.id === id);
  return [...found.values()].sort((one, other) => rank(one.analyte) - rank(other.analyte));
}

function pairEntry(worktop: AlgorithmWorktop, analyte: string, pair: RunTogether): DependentPair {
  const used = worktop.pairOf(analyte, pair);
  const [first, second] = worktop.kitsOf(analyte, [pair.first, pair.second]);
  const prevalences = new Set(worktop.file.channels.map((channel) => worktop.prevalenceOf(channel, analyte)));
  const accuracy = (kit: typeof first) => ({
    sensitivity: kit?.sensitivity ?? 0,
    specificity: kit?.specificity ?? 0,
  });
  const table = worktop.ask(twoTests, {
    first: accuracy(first),
    second: accuracy(second),
    dependence: twoKitDependenceOf(worktop, analyte, pair),
    prevalences: [...prevalences],
  });
  const { diseased, nondiseased } = table.values;
  return {
    analyte,
    ...pair,
    source: used?.source ?? "shared",
    diseased: used?.diseased ?? diseased.phi ?? 0,
    nondiseased: used?.nondiseased ?? nondiseased.phi ?? 0,
    estimated: used?.estimated ?? null,
    table,
    notes: [...(used?.notes ?? [])],
  };
}

/** The dependence of two kits alone: as stated, or as the effect that all share gives it. */
export function twoKitDependenceOf(
  worktop: AlgorithmWorktop,
  analyte: string,
  pair: RunTogether,
): TwoKitDependence {
  const { dependence } = worktop.file;
  if (dependence?.kind === "pairs") {
    const used = worktop.pairOf(analyte, pair);
    return { kind: "phi", diseased: used?.diseased ?? 0, nondiseased: used?.nondiseased ?? 0 };
  }
  if (dependence?.kind !== "shared") return { kind: "independent" };
  return {
    kind: "covariance",
    diseased: covarianceOf(worktop, analyte, pair, "diseased"),
    nondiseased: covarianceOf(worktop, analyte, pair, "nondiseased"),
  };
}

function covarianceOf(
  worktop: AlgorithmWorktop,
  analyte: string,
  { first, second }: RunTogether,
  truth: "diseased" | "nondiseased",
): number {
  const ids = [...new Set([first, second])];
  const kits = ids.map((id) => ({ id, reactive: reactiveShares(worktop.kit(id), analyte)[truth] }));
  const joint = jointOf(kits, worktop.dependenceAmong(analyte, ids, [{ first, second }]), truth);
  const last = ids.length - 1;
  const both = joint([
    { kit: 0, reactive: true },
    { kit: last, reactive: true },
  ]);
  return both - (kits[0]?.reactive ?? 0) * (kits[last]?.reactive ?? 0);
}
