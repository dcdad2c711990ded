import { compute } from "../../../src/core/method.ts";
import { beggGreenes } from "../../../src/methods/verification/begg-greenes.ts";
import { verificationBounds } from "../../../src/methods/verification/bounds.ts";
import { weighted } from "../../../src/methods/verification/weighted.ts";
import type { Check, ReferenceCase } from "./reference-case.ts";

interface Verified {
  readonly verifiedDiseased: number;
  readonly verifiedNondiseased: number;
  readonly unverified: number;
}

function countsOf(inputs: ReferenceCase["inputs"]) {
  const { testPos, testNeg } = inputs as unknown as { testPos: Verified; testNeg: Verified };
  const counts = ({ verifiedDiseased, verifiedNondiseased, unverified }: Verified) => ({
    diseased: verifiedDiseased,
    nondiseased: verifiedNondiseased,
    unverified,
  });
  return { reactive: counts(testPos), nonreactive: counts(testNeg) };
}

const corrected: Check = (inputs) => {
  const strata = [{ label: "everybody", ...countsOf(inputs) }];
  const { values } = compute(beggGreenes, { strata });
  return {
    naiveSe: values.verifiedOnly.sensitivity.value,
    naiveSp: values.verifiedOnly.specificity.value,
    correctedSe: values.sensitivity.value,
    correctedSp: values.specificity.value,
    correctedPrevalence: values.prevalence.value,
    ppv: values.ppv.value,
    npv: values.npv.value,
    seLogitLower: values.sensitivity.lower,
    seLogitUpper: values.sensitivity.upper,
    spLogitLower: values.specificity.lower,
    spLogitUpper: values.specificity.upper,
    seStdErr: values.standardErrors.sensitivity,
    spStdErr: values.standardErrors.specificity,
  };
};

const byWeights: Check = (inputs) => {
  const { reactive, nonreactive } = countsOf(inputs);
  const { values } = compute(weighted, {
    groups: [
      { label: "reactive", result: "reactive", ...reactive },
      { label: "nonreactive", result: "nonreactive", ...nonreactive },
    ],
  });
  return { ipwSe: values.sensitivity.value, ipwSp: values.specificity.value };
};

const extremes: Check = (inputs) => {
  const { sensitivity, specificity } = compute(verificationBounds, countsOf(inputs)).values;
  return {
    seMin: sensitivity.lowest.value,
    seMax: sensitivity.highest.value,
    spMin: specificity.lowest.value,
    spMax: specificity.highest.value,
  };
};

/** Cases of the area "verification bias". */
export const verificationChecks: Readonly<Record<string, Check>> = {
  "B-01": corrected,
  "B-03": corrected,
  "B-05": byWeights,
  "B-06": extremes,
};
