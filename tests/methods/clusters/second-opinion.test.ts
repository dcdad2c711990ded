import { readFileSync } from "node:fs";
import { describe, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import {
  acceleratedLimits,
  acceleration,
  biasCorrection,
  percentileLimits,
} from "../../../src/methods/clusters/bootstrap-limits.ts";
import { clustersCompare } from "../../../src/methods/clusters/compare.ts";
import { leftOutEstimates } from "../../../src/methods/clusters/left-out-estimates.ts";
import { clustersProportion } from "../../../src/methods/clusters/proportion.ts";
import { expectClose } from "../../tolerance.ts";

/** Made by R 4.2.2 and its survey package with `tests/reference/scripts/second-opinion-clusters.R`. */
type Row = Readonly<Record<string, number | number[]>>;
const file = new URL("../../reference/second-opinion-clusters.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Readonly<Record<string, readonly Row[]>>;
const rows = (name: string) => (opinion[name] ?? []).map((row, at) => [`${name} ${at + 1}`, row] as const);

const CLOSE = { relative: 1e-9 };
const listOf = (part: number | number[] | undefined) => part as number[];
const clustersOf = (counts: Row[string] | undefined, totals: Row[string] | undefined) =>
  listOf(counts).map((count, at) => ({ count, total: listOf(totals)[at] as number }));
const cut = (limit: number | undefined) => Math.min(1, Math.max(0, limit ?? Number.NaN));

describe("survey estimation of proportions", () => {
  it.each(rows("proportions"))("%s", (_, row) => {
    const { values } = compute(clustersProportion, { clusters: clustersOf(row.counts, row.totals) });
    expectClose(values.proportion.value, row.value as number, CLOSE, "value");
    expectClose(values.standardError, row.standardError as number, CLOSE, "standard error");
    const [low, high] = listOf(row.ratioT);
    expectClose(values.intervals.ratioT.lower, cut(low), CLOSE, "lower t limit");
    expectClose(values.intervals.ratioT.upper, cut(high), CLOSE, "upper t limit");
    const [lower, upper] = listOf(row.exactEffective);
    expectClose(values.intervals.exactEffective.lower, lower as number, CLOSE, "lower exact limit");
    expectClose(values.intervals.exactEffective.upper, upper as number, CLOSE, "upper exact limit");
  });
});

describe("survey estimation of two proportions in the same clusters", () => {
  it.each(rows("together"))("%s", (_, row) => {
    const first = clustersOf(row.counts, row.totals);
    const second = clustersOf(row.otherCounts, row.otherTotals);
    const { values } = compute(clustersCompare, { first, second }, { design: "same" });
    expectClose(values.difference.value, row.difference as number, CLOSE, "difference");
    expectClose(values.standardError, row.standardError as number, CLOSE, "standard error");
    expectClose(values.correlation, row.correlation as number, CLOSE, "correlation");
  });
});

/** Every resample of m clusters out of m, as a plain list. */
function everyResample(clusters: readonly { count: number; total: number }[]): Float64Array {
  const size = clusters.length;
  return Float64Array.from({ length: size ** size }, (_, code) => {
    let [rest, count, total] = [code, 0, 0];
    for (let draw = 0; draw < size; draw += 1) {
      const drawn = clusters[rest % size] as { count: number; total: number };
      count += drawn.count;
      total += drawn.total;
      rest = Math.floor(rest / size);
    }
    return count / total;
  }).sort();
}

describe("the bootstrap over the list of all resamples", () => {
  it.each(rows("listed"))("%s", (_, row) => {
    const clusters = clustersOf(row.counts, row.totals);
    const all = everyResample(clusters);
    const value =
      listOf(row.counts).reduce((sum, part) => sum + part) /
      listOf(row.totals).reduce((sum, part) => sum + part);
    const bias = biasCorrection(all, value);
    const speed = acceleration([leftOutEstimates(clusters)]);
    expectClose(bias, row.biasCorrection as number, CLOSE, "bias correction");
    expectClose(speed, row.acceleration as number, CLOSE, "acceleration");
    const percentile = percentileLimits(all, 0.95);
    const [low, high] = listOf(row.percentile);
    expectClose(percentile.lower, low as number, CLOSE, "lower percentile");
    expectClose(percentile.upper, high as number, CLOSE, "upper percentile");
    const limits = acceleratedLimits(all, bias ?? Number.NaN, speed ?? Number.NaN, 0.95);
    const [lower, upper] = listOf(row.bca);
    expectClose(limits?.lower, lower as number, CLOSE, "lower accelerated limit");
    expectClose(limits?.upper, upper as number, CLOSE, "upper accelerated limit");
  });
});
