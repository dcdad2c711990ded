import * as v from "valibot";
import type { Estimate } from "../../core/estimate.ts";
import { choice, count, estimate, level, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { tCdf } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { compareExamples } from "./compare-examples.ts";
import { type Compared, type Design, pairOf } from "./compared-pair.ts";
import { quantileOf, wilsonEffective } from "./effective-intervals.ts";
import { clusterList, FEW_CLUSTERS, REFERENCES, requireClusters } from "./fields.ts";

const Input = v.strictObject({
  first: clusterList("counts by cluster, first test or group"),
  second: clusterList("counts by cluster, second test or group; with the design `same` in the same order"),
});
const Options = v.strictObject({
  design: v.optional(
    choice(
      ["separate", "same"],
      "separate: no cluster is in both lists; same: entry for entry the same clusters",
    ),
    "separate",
  ),
  level: level(),
  reference: v.optional(
    choice(REFERENCES, `auto: Student's t with fewer than ${FEW_CLUSTERS} clusters on a side, else normal`),
    "auto",
  ),
});
const Side = (which: string) =>
  v.pipe(
    v.strictObject({
      count: count("how many of them"),
      total: count("of how many observed"),
      value: quantity("proportion", `proportion, ${which}`),
      standardError: quantity("proportion", "standard error of the ratio estimator"),
      designEffect: quantity("ratio", "its variance over that of independent observations"),
    }),
    v.description(which),
  );
const Values = v.strictObject({
  first: Side("first test or group"),
  second: Side("second test or group"),
  difference: estimate("proportion", "first minus second, ratio estimator"),
  standardError: quantity("proportion", "standard error of the difference"),
  correlation: quantity("statistic", "correlation of the two proportions; 0 for separate clusters"),
  statistic: quantity("statistic", "difference over its standard error"),
  pValue: quantity("probability", "two-sided p-value of no difference"),
  reference: choice(["normal", "t"], "distribution used"),
  scoreDifference: estimate(
    "proportion",
    "first minus second, from Wilson limits with effective totals; keeps to -1..1",
  ),
  raoScott: v.pipe(
    v.strictObject({
      unadjusted: quantity("statistic", "chi-square as if there were no clusters"),
      chiSquare: quantity("statistic", "chi-square of counts and totals divided by the design effects"),
      pValue: quantity("probability", "its p-value"),
    }),
    v.description("Rao and Scott's adjusted chi-square; for separate clusters only"),
  ),
});
export type ClustersCompareInput = v.InferOutput<typeof Input>;
export type ClustersCompareOptions = v.InferOutput<typeof Options>;
export type ClustersCompareValues = v.InferOutput<typeof Values>;

/**
 * Two proportions whose observations come in clusters, in separate clusters or in the same ones.
 *
 * @param input   counts by cluster; with the design `same`, entry i of both lists is one cluster, and an
 *   entry may have a total of 0 on one side
 * @returns differences in -1..1. `null` with a note where a side has fewer than two clusters, or the
 *   clusters leave no variance
 * @throws InputError where counts exceed totals, or the lists differ in length under `same`
 * Sources: obuchowski1998, rao1992, zou2008
 */
export function compareClusters(
  input: ClustersCompareInput,
  options: ClustersCompareOptions,
): Finding<ClustersCompareValues> {
  requireClusters(input.first, "first");
  requireClusters(input.second, "second");
  if (options.design === "same" && input.first.length !== input.second.length) {
    const place = ["input", "second"];
    throw new InputError(place, `${input.first.length} clusters, as the first list`, input.second.length);
  }
  const pair = pairOf(input.first, input.second, options.design);
  const few = pair.fewest < FEW_CLUSTERS && pair.degrees !== null;
  const wantsT = options.reference === "t" || (options.reference === "auto" && few);
  const reference = wantsT && pair.degrees !== null ? "t" : "normal";
  const degrees = reference === "t" ? pair.degrees : null;
  const quantile = quantileOf(options.level, degrees);
  const values: ClustersCompareValues = {
    first: sideOf(pair.first),
    second: sideOf(pair.second),
    difference: limits(pair, quantile),
    standardError: pair.variance === null ? null : Math.sqrt(pair.variance),
    correlation: pair.correlation,
    ...testOf(pair, degrees),
    reference,
    scoreDifference: scoreDifference(pair, quantile),
    raoScott: raoScott(pair, options.design),
  };
  return { values, notes: notesOn(pair, options.design, values) };
}

function sideOf(side: Compared["first"]): ClustersCompareValues["first"] {
  const { count, total, value, variance, designEffect } = side;
  return { count, total, value, standardError: variance === null ? null : Math.sqrt(variance), designEffect };
}

function limits({ value, variance }: Compared, quantile: number): Estimate {
  if (value === null || variance === null) return { value, lower: null, upper: null };
  const reach = quantile * Math.sqrt(variance);
  return { value, lower: Math.max(-1, value - reach), upper: Math.min(1, value + reach) };
}

function testOf({ value, variance }: Compared, degrees: number | null) {
  if (value === null || variance === null || variance === 0) return { statistic: null, pValue: null };
  const statistic = value / Math.sqrt(variance);
  const size = Math.abs(statistic);
  const beyond = degrees === null ? normalCdf(size, "upper") : tCdf(size, degrees, "upper");
  return { statistic, pValue: 2 * beyond };
}

/** Square and add of the two Wilson intervals, with their correlation. Source: zou2008 */
function scoreDifference(pair: Compared, quantile: number): Estimate {
  const { value, correlation } = pair;
  const [one, other] = [pair.first, pair.second].map((side) => {
    const designEffect = side.designEffect === null ? null : Math.max(1, side.designEffect);
    return wilsonEffective(side, { basis: "estimated", designEffect }, quantile);
  }) as [Estimate, Estimate];
  if (value === null || correlation === null) return { value, lower: null, upper: null };
  if (one.lower === null || one.upper === null || other.lower === null || other.upper === null) {
    return { value, lower: null, upper: null };
  }
  const down = [(one.value as number) - one.lower, other.upper - (other.value as number)] as const;
  const up = [one.upper - (one.value as number), (other.value as number) - other.lower] as const;
  const reach = ([a, b]: readonly [number, number]) =>
    Math.sqrt(Math.max(0, a * a + b * b - 2 * correlation * a * b));
  return { value, lower: value - reach(down), upper: value + reach(up) };
}

function raoScott({ first, second }: Compared, design: Design): ClustersCompareValues["raoScott"] {
  const none = { unadjusted: null, chiSquare: null, pValue: null };
  if (design === "same" || first.total === 0 || second.total === 0) return none;
  const unadjusted = pearson(first.count, first.total, second.count, second.total);
  if (first.designEffect === null || second.designEffect === null) return { ...none, unadjusted };
  const one = Math.max(1, first.designEffect);
  const other = Math.max(1, second.designEffect);
  const chiSquare = pearson(first.count / one, first.total / one, second.count / other, second.total / other);
  return { unadjusted, chiSquare, pValue: chiSquare === null ? null : chiSquareCdf(chiSquare, 1, "upper") };
}

/** Chi-square of two proportions without correction; `null` where all results are the same. */
function pearson(count: number, total: number, otherCount: number, otherTotal: number): number | null {
  const pooled = (count + otherCount) / (total + otherTotal);
  const variance = pooled * (1 - pooled) * (1 / total + 1 / otherTotal);
  return variance > 0 ? Math.pow(count / total - otherCount / otherTotal, 2) / variance : null;
}

function notesOn(pair: Compared, design: Design, values: ClustersCompareValues): Note[] {
  const notes: Note[] = [];
  for (const name of ["first", "second"] as const) {
    const side = pair[name];
    if (side.total === 0) notes.push(note("no_observations", name, "nothing was observed"));
    else if (side.clusters < 2) {
      notes.push(note("one_cluster", name, "one cluster says nothing of how clusters differ"));
    } else if (side.designEffect === null) {
      const message = "all results are the same: how clusters differ can't be estimated";
      notes.push(note("no_variation", `${name}.designEffect`, message));
    }
  }
  const missing = (["difference", "scoreDifference"] as const).filter((name) => values[name].lower === null);
  const without = [
    ...missing,
    ...(["standardError", "correlation", "statistic", "pValue"] as const).filter(
      (key) => values[key] === null,
    ),
  ];
  notes.push(
    ...notesAt("not_estimable", without, "the clusters leave no variance to judge the difference by"),
  );
  if (design === "same") {
    const message = "for separate clusters only: with the same clusters use the difference";
    notes.push(note("same_clusters", "raoScott", message));
  } else if (values.raoScott.chiSquare === null) {
    notes.push(note("not_estimable", "raoScott", "a design effect is missing, or all results are the same"));
  }
  if (pair.fewest < FEW_CLUSTERS && pair.variance !== null) {
    const message = `only ${pair.fewest} clusters: how much they differ is itself poorly known`;
    notes.push(note("few_clusters", "difference", message));
  }
  return notes;
}

export const clustersCompare = defineMethod({
  id: "clusters.compare",
  version: 1,
  title: "Two proportions over clusters",
  question: "Do two proportions differ when observations come in clusters?",
  formula:
    "difference = p1 - p2; variance = V1 + V2 - 2 C with V = m / (m - 1) * sum of (count - p total)² / N² and, for the same clusters, C = m / (m - 1) * sum of (count1 - p1 total1)(count2 - p2 total2) / (N1 N2). Rao and Scott: Pearson's chi-square of counts and totals divided by max(1, design effect) of each group",
  caution:
    "say rightly whether the clusters are the same: two tests on the same people at the same sites are. With fewer than ten clusters limits and p-values are rough",
  sources: ["obuchowski1998", "rao1992", "zou2008"],
  input: Input,
  options: Options,
  values: Values,
  run: compareClusters,
  examples: compareExamples,
});
