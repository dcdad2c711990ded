import * as v from "valibot";
import { choice, count, draws, estimate, level, quantity, seed } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { bootstrapExamples } from "./bootstrap-examples.ts";
import {
  acceleratedLimits,
  acceleration,
  biasCorrection,
  limitError,
  percentileLimits,
} from "./bootstrap-limits.ts";
import { clusterReplicates, differenceReplicates } from "./cluster-replicates.ts";
import { pairOf } from "./compared-pair.ts";
import { type ClusterCounts, clusterList, requireClusters } from "./fields.ts";
import { leftOutEstimates } from "./left-out-estimates.ts";
import { ratioEstimate } from "./ratio-estimate.ts";

const Input = v.strictObject({
  clusters: clusterList("counts by cluster"),
  second: v.optional(
    v.nullable(clusterList("counts of a second test or group: the difference is then resampled")),
    null,
  ),
});
const Options = v.strictObject({
  design: v.optional(
    choice(["separate", "same"], "same: entry i of both lists is one cluster, drawn together"),
    "separate",
  ),
  level: level(),
  replicates: draws("number of replicates", 10_000, 1_000_000),
  seed: seed(1),
});
const Values = v.strictObject({
  value: quantity("proportion", "the proportion, or the difference, in the data"),
  percentile: estimate("proportion", "percentile interval"),
  bca: estimate("proportion", "bias-corrected and accelerated interval"),
  standardError: quantity("proportion", "standard deviation of the replicates"),
  bias: quantity("proportion", "mean of the replicates less the value in the data"),
  biasCorrection: quantity("statistic", "z0 of the accelerated interval"),
  acceleration: quantity("statistic", "acceleration, from leaving out one cluster at a time"),
  monteCarloError: v.pipe(
    v.strictObject({
      lower: quantity("proportion", "standard error of the lower percentile limit"),
      upper: quantity("proportion", "the same of the upper limit"),
    }),
    v.description("what another seed would change"),
  ),
  clusters: count("clusters drawn in each replicate, of both groups where they are separate"),
  replicates: count("replicates that have a value"),
});
export type ClustersBootstrapInput = v.InferOutput<typeof Input>;
export type ClustersBootstrapOptions = v.InferOutput<typeof Options>;
export type ClustersBootstrapValues = v.InferOutput<typeof Values>;

/** What the rest needs to know of the question. */
interface Question {
  readonly value: number | null;
  readonly clusters: number;
  readonly fewest: number;
  readonly replicates: () => Float64Array;
  readonly leftOut: () => readonly (readonly number[])[];
}

/**
 * The bootstrap of a proportion, or of a difference, that draws whole clusters.
 *
 * @param input   counts by cluster; clusters with a total of 0 are not drawn
 * @param options replicates, seed (same seed, same numbers, however the work is split), level
 * @returns proportions in 0..1, differences in -1..1. `null` with a note where there are fewer than two
 *   clusters; the accelerated interval also where every replicate is the same
 * Behaves badly with few clusters (below about 15): too narrow.
 * Source: efron1993
 */
export function bootstrapClusters(
  input: ClustersBootstrapInput,
  options: ClustersBootstrapOptions,
): Finding<ClustersBootstrapValues> {
  const question =
    input.second === null ? ofProportion(input.clusters, options) : ofDifference(input, options);
  const { value, clusters, fewest } = question;
  if (value === null || fewest < 2) return nothing(value, clusters);
  const all = question.replicates();
  const sorted = all.filter((replicate) => !Number.isNaN(replicate)).sort();
  const percentile = percentileLimits(sorted, options.level);
  const correction = biasCorrection(sorted, value);
  const speed = acceleration(question.leftOut());
  const limits =
    correction === null || speed === null
      ? null
      : acceleratedLimits(sorted, correction, speed, options.level);
  const { mean, deviation } = moments(sorted);
  const values: ClustersBootstrapValues = {
    value,
    percentile: { value, ...percentile },
    bca: limits === null ? { value, lower: null, upper: null } : { value, ...limits },
    standardError: deviation,
    bias: mean - value,
    biasCorrection: correction,
    acceleration: speed,
    monteCarloError: {
      lower: limitError(sorted, (1 - options.level) / 2),
      upper: limitError(sorted, (1 + options.level) / 2),
    },
    clusters,
    replicates: sorted.length,
  };
  return { values, notes: notesOn(values, fewest, all.length - sorted.length) };
}

function ofProportion(clusters: readonly ClusterCounts[], options: ClustersBootstrapOptions): Question {
  requireClusters(clusters, "clusters");
  const drawn = clusters.filter(({ total }) => total > 0);
  return {
    value: ratioEstimate(drawn).value,
    clusters: drawn.length,
    fewest: drawn.length,
    replicates: () => clusterReplicates(drawn, 0, options.replicates, options.seed),
    leftOut: () => [leftOutEstimates(drawn)],
  };
}

function ofDifference(
  { clusters, second }: ClustersBootstrapInput,
  options: ClustersBootstrapOptions,
): Question {
  const others = second ?? [];
  requireClusters(clusters, "clusters");
  requireClusters(others, "second");
  const { design, replicates, seed: chosen } = options;
  if (design === "same" && clusters.length !== others.length) {
    throw new InputError(
      ["input", "second"],
      `${clusters.length} clusters, as the first list`,
      others.length,
    );
  }
  const kept = (list: readonly ClusterCounts[], partner: readonly ClusterCounts[]) =>
    list.filter(({ total }, at) => total > 0 || (design === "same" && (partner[at]?.total ?? 0) > 0));
  const [one, other] = [kept(clusters, others), kept(others, clusters)];
  const { value, fewest } = pairOf(one, other, design);
  return {
    value,
    fewest,
    clusters: design === "same" ? one.length : one.length + other.length,
    replicates: () => differenceReplicates(one, other, design, 0, replicates, chosen),
    leftOut: () => {
      const [mine, theirs] = [leftOutEstimates(one), leftOutEstimates(other)];
      if (design === "separate") return [mine, theirs.map((part) => -part)];
      return [mine.map((part, at) => part - (theirs[at] as number))];
    },
  };
}

function moments(sorted: Float64Array): { mean: number; deviation: number } {
  const total = sorted.length;
  const mean = sorted.reduce((sum, part) => sum + part, 0) / total;
  const squares = sorted.reduce((sum, part) => sum + Math.pow(part - mean, 2), 0);
  return { mean, deviation: Math.sqrt(squares / (total - 1)) };
}

const BY_DRAWING = [
  "percentile",
  "bca",
  "standardError",
  "bias",
  "biasCorrection",
  "acceleration",
  "monteCarloError",
];

function nothing(value: number | null, clusters: number): Finding<ClustersBootstrapValues> {
  const none = { value, lower: null, upper: null };
  const values: ClustersBootstrapValues = {
    value,
    percentile: none,
    bca: none,
    standardError: null,
    bias: null,
    biasCorrection: null,
    acceleration: null,
    monteCarloError: { lower: null, upper: null },
    clusters,
    replicates: 0,
  };
  const notes =
    value === null
      ? notesAt("no_observations", ["value", ...BY_DRAWING], "nothing was observed")
      : notesAt("one_cluster", BY_DRAWING, "one cluster can't be resampled");
  return { values, notes };
}

function notesOn(values: ClustersBootstrapValues, fewest: number, undefinedOnes: number): Note[] {
  const notes: Note[] = [];
  if (values.percentile.lower === values.percentile.upper) {
    const message = "every replicate is the same: no width, which does not mean certainty";
    notes.push(note("no_width", "percentile", message));
  }
  if (values.bca.lower === null) {
    const absent = (["biasCorrection", "acceleration"] as const).filter((key) => values[key] === null);
    const message = "the replicates vary too little, or too one-sidedly, for this interval";
    notes.push(...notesAt("not_estimable", ["bca", ...absent], message));
  }
  if (undefinedOnes > 0) {
    const message = `${undefinedOnes} replicates drew no observation on one side and were left out`;
    notes.push(note("undefined_replicates", "replicates", message));
  }
  if (fewest < 15) {
    const message = `only ${fewest} clusters to draw from: the interval is likely too narrow`;
    notes.push(note("few_clusters", "percentile", message));
  }
  return notes;
}

export const clustersBootstrap = defineMethod({
  id: "clusters.bootstrap",
  version: 1,
  title: "Cluster bootstrap",
  question: "How precisely is a proportion, or a difference, known when whole clusters are resampled?",
  formula:
    "draw m of the m clusters with replacement, take all events over all observations, many times; percentile interval: the (1 - level) / 2 and (1 + level) / 2 shares of the replicates. Accelerated: the shares Phi(z0 + (z0 + z) / (1 - a (z0 + z))), z0 from the share of replicates below the value (ties half), a from leaving out one cluster at a time",
  caution:
    "too narrow with fewer than about 15 clusters; no width where all results are the same. Numbers change a little with the seed: see the Monte Carlo error",
  sources: ["efron1993"],
  input: Input,
  options: Options,
  values: Values,
  run: bootstrapClusters,
  examples: bootstrapExamples,
});
