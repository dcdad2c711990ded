import { compute } from "../../../src/core/method.ts";
import { commonOddsRatio } from "../../../src/methods/strata/common-odds-ratio.ts";
import { fisher } from "../../../src/methods/strata/fisher.ts";
import { funnelLimits } from "../../../src/methods/strata/funnel-limits.ts";
import { homogeneity } from "../../../src/methods/strata/homogeneity.ts";
import { trend } from "../../../src/methods/strata/trend.ts";
import { type Check, fourfoldOf, realData } from "./reference-case.ts";

export const strataChecks: Readonly<Record<string, Check>> = {
  "Q-01": ({ n, target }) => {
    const input = { target: target as number, totals: [n as number] };
    const exact = compute(funnelLimits, input, { truncate: false }).values.limits[0];
    const normal = compute(funnelLimits, input, { method: "normal", truncate: false }).values.limits[0];
    const chart = compute(funnelLimits, input, { method: "standard_deviations" }).values.limits[0];
    return {
      lower95: exact?.warning.lower ?? null,
      upper95: exact?.warning.upper ?? null,
      lower998: exact?.action.lower ?? null,
      upper998: exact?.action.upper ?? null,
      normalLower95: normal?.warning.lower ?? null,
      normalUpper95: normal?.warning.upper ?? null,
      pChartLower: chart?.action.lower ?? null,
      pChartUpper: chart?.action.upper ?? null,
    };
  },
  "Q-03": ({ table }) => {
    const [[a, b], [c, d]] = table as [[number, number], [number, number]];
    const input = { first: { count: a, total: a + b }, second: { count: c, total: c + d } };
    const { twoSided, greater, oddsRatio } = compute(fisher, input).values;
    return { pTwoSided: twoSided, pGreater: greater, conditionalOddsRatio: oddsRatio.value };
  },
  "Q-05": (inputs) => {
    const { x, n, scores } = inputs as Record<"x" | "n" | "scores", number[]>;
    const strata = x.map((count, at) => ({
      label: `${at + 1}`,
      count,
      total: n[at] ?? -1,
      score: scores[at] ?? 0,
    }));
    const { chiSquare, pValue } = compute(trend, { strata }).values;
    return { chi2: chiSquare, pValue };
  },
  "Q-07": () => {
    const cells = realData("ucb.csv");
    const people = (department: string, gender: string, admit: string) =>
      Number(
        cells.find((row) => row.Dept === department && row.Gender === gender && row.Admit === admit)?.Freq,
      );
    const strata = ["A", "B", "C", "D", "E", "F"].map((label) => ({
      label,
      firstWith: people(label, "Male", "Admitted"),
      firstWithout: people(label, "Male", "Rejected"),
      secondWith: people(label, "Female", "Admitted"),
      secondWithout: people(label, "Female", "Rejected"),
    }));
    const { commonOddsRatio: ratio, chiSquare } = compute(commonOddsRatio, { strata }).values;
    return { commonOddsRatio: ratio.value, chi2: chiSquare, lower: ratio.lower, upper: ratio.upper };
  },
  "Q-08": (inputs) => {
    const { x, n } = inputs as Record<"x" | "n", number[]>;
    const strata = x.map((count, at) => ({ label: `${at + 1}`, count, total: n[at] ?? -1 }));
    const { chiSquare, degreesOfFreedom, pValue } = compute(homogeneity, { strata }).values;
    return { chi2: chiSquare, df: degreesOfFreedom, pValue };
  },
  "Q-09": () => {
    const rows = realData("nwtco.csv");
    const tables = ["1", "2", "3", "4"].map((stage) =>
      fourfoldOf(
        rows.filter((row) => row.stage === stage),
        ({ histol }) => histol === "2",
        ({ instit }) => instit === "2",
      ),
    );
    const positives = tables.map(({ truePositives, falseNegatives }, at) => ({
      label: `stage ${at + 1}`,
      count: truePositives,
      total: truePositives + falseNegatives,
    }));
    const negatives = tables.map(({ trueNegatives, falsePositives }, at) => ({
      label: `stage ${at + 1}`,
      count: trueNegatives,
      total: trueNegatives + falsePositives,
    }));
    const sensitivity = compute(homogeneity, { strata: positives }).values;
    const specificity = compute(homogeneity, { strata: negatives }).values;
    const named = (prefix: string, { strata }: typeof sensitivity) =>
      Object.fromEntries(strata.map(({ proportion }, at) => [`${prefix}_stage${at + 1}`, proportion.value]));
    return {
      ...named("se", sensitivity),
      ...named("sp", specificity),
      seHomogeneityChi2: sensitivity.chiSquare,
      seHomogeneityP: sensitivity.pValue,
    };
  },
};
