import { compute } from "../../../src/core/method.ts";
import { curveRegression } from "../../../src/methods/pooling/curve-regression.ts";
import { inverseVariance } from "../../../src/methods/pooling/inverse-variance.ts";
import type { RandomEffectsValues } from "../../../src/methods/pooling/random-effects-fields.ts";
import { studyEffects } from "../../../src/methods/pooling/study-effects.ts";
import { univariate } from "../../../src/methods/pooling/univariate.ts";
import type { Actual, Check, ReferenceCase } from "./reference-case.ts";

type Counts = readonly number[];

function tablesOf(inputs: ReferenceCase["inputs"]) {
  const { tp, fn, fp, tn } = inputs as unknown as Record<"tp" | "fn" | "fp" | "tn", Counts>;
  return tp.map((truePositives, place) => ({
    label: `study ${place + 1}`,
    truePositives,
    falsePositives: fp[place] as number,
    falseNegatives: fn[place] as number,
    trueNegatives: tn[place] as number,
  }));
}

function told(values: RandomEffectsValues | null) {
  const { fixed, heterogeneity, models } = values as RandomEffectsValues;
  const { dersimonianLaird } = models;
  return {
    fixed: fixed.summary.value,
    fixedSe: fixed.standardError,
    Q: heterogeneity.q,
    pQ: heterogeneity.p,
    I2: heterogeneity.iSquared,
    tau2: dersimonianLaird.betweenVariance,
    random: dersimonianLaird.summary.value,
    randomSe: dersimonianLaird.standardError,
    lower: dersimonianLaird.summary.lower,
    upper: dersimonianLaird.summary.upper,
  };
}

function named(prefix: string, values: Actual): Actual {
  return Object.fromEntries(Object.entries(values).map(([key, value]) => [`${prefix}_${key}`, value]));
}

const threeMeasures: Check = (inputs) => {
  const tables = tablesOf(inputs);
  const proportion = (count: (table: (typeof tables)[number]) => number, rest: typeof count) => {
    const studies = tables.map((table) => ({
      label: table.label,
      count: count(table),
      total: count(table) + rest(table),
    }));
    return told(compute(univariate, { studies, correction: "zero_cells" }).values.approximate);
  };
  const effects = studyEffects(tables, "zero_cells", "list").effects.map((study) => ({
    label: study.label,
    effect: study.logOddsRatio,
    standardError: Math.sqrt(study.variance),
  }));
  return {
    ...named(
      "logitSe",
      proportion(
        ({ truePositives }) => truePositives,
        ({ falseNegatives }) => falseNegatives,
      ),
    ),
    ...named(
      "logitSp",
      proportion(
        ({ trueNegatives }) => trueNegatives,
        ({ falsePositives }) => falsePositives,
      ),
    ),
    ...named("logDor", told(compute(inverseVariance, { effects, scale: "log" }).values)),
  };
};

const bySchools: Check = (inputs) => {
  const { y, se } = inputs as unknown as { y: Counts; se: Counts };
  const effects = y.map((effect, place) => ({
    label: `${place + 1}`,
    effect,
    standardError: se[place] as number,
  }));
  return told(compute(inverseVariance, { effects, scale: "as_given" }).values);
};

const byRegression: Check = (inputs) => {
  const { line, threshold } = compute(curveRegression, {
    studies: tablesOf(inputs),
    correction: "all",
    weights: "equal",
  }).values;
  return {
    intercept: line.intercept.value,
    slope: line.slope.value,
    seIntercept: line.interceptError,
    seSlope: line.slopeError,
    spearman: threshold.spearman,
  };
};

/** Cases of the area "meta-analysis" that pool one number at a time. */
export const poolingUnivariateChecks: Readonly<Record<string, Check>> = {
  "G-08": threeMeasures,
  "G-10": byRegression,
  "G-12": bySchools,
};
