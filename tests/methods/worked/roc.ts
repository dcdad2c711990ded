import { compute } from "../../../src/core/method.ts";
import { rocCompare } from "../../../src/methods/roc/compare.ts";
import { rocCurve } from "../../../src/methods/roc/curve.ts";
import { rocCutoff } from "../../../src/methods/roc/cutoff.ts";
import { rocOrdinal } from "../../../src/methods/roc/ordinal.ts";
import { type Check, realData } from "./reference-case.ts";

const rated: Check = (inputs) => {
  const { nondiseased, diseased } = inputs as unknown as Record<"nondiseased" | "diseased", number[]>;
  const categories = diseased.map((positives, place) => ({
    label: `${place}`,
    positives,
    negatives: nondiseased[place] ?? -1,
  }));
  const { area, exponential } = compute(rocOrdinal, { categories }).values;
  return {
    auc: area.value,
    Q1: exponential.bothPositives,
    Q2: exponential.bothNegatives,
    seHanleyMcNeilExact: exponential.standardErrorExact,
    seHanleyMcNeilExponential: exponential.standardErrorExponential,
    seDeLong: area.standardError,
  };
};

/** Rows without V6 are left out, as the case has it: complete cases. */
function biopsies(marker: string) {
  const rows = realData("biopsy.csv").filter((row) => row.V6 !== "NA" && row.V6 !== "");
  const readings = (name: string) =>
    rows.filter((row) => row.class === name).map((row) => Number(row[marker]));
  return {
    positives: readings("malignant"),
    negatives: readings("benign"),
    direction: "higher" as const,
  };
}

const twoMarkers: Check = () => {
  const [first, second] = [biopsies("V1"), biopsies("V2")];
  const compared = compute(rocCompare, { design: "paired", first, second }).values;
  const cutoff = compute(rocCutoff, { ...second, rule: { kind: "youden" } }, { replicates: 100 }).values;
  return {
    auc1: compared.first.area.value,
    auc2: compared.second.area.value,
    se1: compared.first.standardError,
    se2: compared.second.standardError,
    cov12: compared.covariance,
    z: compared.z,
    pValue: compared.p,
    youdenCut: cutoff.cutoff.value,
    youden: cutoff.youden,
    youdenSe: cutoff.sensitivity.value,
    youdenSp: cutoff.specificity.value,
  };
};

const smallSample: Check = (inputs) => {
  const { diseased, nondiseased } = inputs as unknown as Record<"nondiseased" | "diseased", number[]>;
  const readings = { positives: diseased, negatives: nondiseased, direction: "higher" as const };
  const { area, rankSum } = compute(rocCurve, readings, { truncate: false }).values;
  const cutoff = compute(rocCutoff, { ...readings, rule: { kind: "youden" } }, { replicates: 100 }).values;
  return {
    auc: area.value,
    se: area.standardError,
    waldLower: area.wald.lower,
    waldUpper: area.wald.upper,
    logitLower: area.logit.lower,
    logitUpper: area.logit.upper,
    youdenCut: cutoff.cutoff.value,
    youden: cutoff.youden,
    mannWhitneyU: rankSum.u,
  };
};

/** Cases of the area "ROC". */
export const rocChecks: Readonly<Record<string, Check>> = {
  "C-01": rated,
  "C-04": twoMarkers,
  "C-05": smallSample,
};
