import { compute } from "../../../src/core/method.ts";
import { clustersCompare } from "../../../src/methods/clusters/compare.ts";
import { clustersDesignEffect } from "../../../src/methods/clusters/design-effect.ts";
import { clustersIdealBootstrap } from "../../../src/methods/clusters/ideal-bootstrap.ts";
import { clustersProportion } from "../../../src/methods/clusters/proportion.ts";
import type { Check } from "./reference-case.ts";

function clustersOf(counts: unknown, totals: unknown) {
  return (counts as number[]).map((count, at) => ({ count, total: (totals as number[])[at] ?? -1 }));
}

export const clustersChecks: Readonly<Record<string, Check>> = {
  "L-01": ({ x, n }) => {
    const { values } = compute(clustersProportion, { clusters: clustersOf(x, n) });
    return {
      p: values.proportion.value,
      ratioSe: values.standardError,
      designEffect: values.designEffect,
      effectiveN: values.effective.total,
      effectiveX: values.effective.count,
      waldLower: values.intervals.ratioNormal.lower,
      waldUpper: values.intervals.ratioNormal.upper,
      tLower: values.intervals.ratioT.lower,
      tUpper: values.intervals.ratioT.upper,
      wilsonEffLower: values.proportion.lower,
      wilsonEffUpper: values.proportion.upper,
      anovaIcc: values.intraclusterCorrelation.anova,
      n0: values.intraclusterCorrelation.meanSize,
    };
  },
  "L-03": ({ x1, n1, x2, n2 }) => {
    const input = { first: clustersOf(x1, n1), second: clustersOf(x2, n2) };
    const { raoScott } = compute(clustersCompare, input).values;
    return { chi2Unadjusted: raoScott.unadjusted, chi2RaoScott: raoScott.chiSquare, pValue: raoScott.pValue };
  },
  "L-05": ({ positives1, positives2, units }) => {
    const input = { first: clustersOf(positives1, units), second: clustersOf(positives2, units) };
    const { values } = compute(clustersCompare, input, { design: "same", reference: "normal" });
    return {
      difference: values.difference.value,
      se: values.standardError,
      z: values.statistic,
      lower: values.difference.lower,
      upper: values.difference.upper,
    };
  },
  "L-06": ({ clusterSize, icc, nUnclustered, cv }) => {
    const input = { clusterSize, icc, cv, total: nUnclustered } as Record<"clusterSize" | "icc", number>;
    const { equal, unequal } = compute(clustersDesignEffect, input).values;
    return {
      vif: equal.designEffect,
      n: equal.total,
      clusters: equal.clusters,
      vifUnequal: unequal.designEffect,
    };
  },
  "Y-03": ({ x, n }) => {
    const first = { count: x as number, total: n as number };
    const { percentile, standardError } = compute(clustersIdealBootstrap, { first }).values;
    return { bootSe: standardError, percentileLower: percentile.lower, percentileUpper: percentile.upper };
  },
  "Y-05": ({ tp, nDiseased, tn, nNondiseased }) => {
    const first = { count: tp as number, total: nDiseased as number };
    const second = { count: tn as number, total: nNondiseased as number };
    const { values } = compute(clustersIdealBootstrap, { first, second }, { combine: "youden" });
    return {
      youden: values.percentile.value,
      bootSe: values.standardError,
      percentileLower: values.percentile.lower,
      percentileUpper: values.percentile.upper,
    };
  },
};
