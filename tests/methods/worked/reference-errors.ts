import { compute } from "../../../src/core/method.ts";
import { twoTests } from "../../../src/methods/algorithms/two-tests.ts";
import { referenceApparent } from "../../../src/methods/reference/apparent.ts";
import { referenceComposite } from "../../../src/methods/reference/composite.ts";
import { referenceCorrected } from "../../../src/methods/reference/corrected.ts";
import type { Check } from "./reference-case.ts";

const known = (value: number | undefined) => ({ kind: "value" as const, value: value ?? -1 });

const composite: Check = (inputs) => {
  const { prevalence, se, sp } = inputs as Readonly<Record<string, number>>;
  const test = (name: string) => {
    const stated = inputs[name] as { se: number; sp: number };
    return { sensitivity: stated.se, specificity: stated.sp };
  };
  const { anyPositive, bothPositive } = compute(referenceComposite, {
    kit: { sensitivity: se ?? -1, specificity: sp ?? -1 },
    first: test("ref1"),
    second: test("ref2"),
    dependence: { kind: "independent" },
    prevalence: prevalence ?? -1,
  }).values;
  return {
    orSe: anyPositive.sensitivity,
    orSp: anyPositive.specificity,
    orApparentSe: anyPositive.apparentSensitivity,
    orApparentSp: anyPositive.apparentSpecificity,
    orApparentPrevalence: anyPositive.apparentPrevalence,
    andSe: bothPositive.sensitivity,
    andSp: bothPositive.specificity,
    andApparentSe: bothPositive.apparentSensitivity,
    andApparentSp: bothPositive.apparentSpecificity,
    andApparentPrevalence: bothPositive.apparentPrevalence,
  };
};

export const referenceErrorsChecks: Readonly<Record<string, Check>> = {
  "I-06": (inputs) => {
    const numbers = inputs as Readonly<Record<string, number>>;
    const { tPosRPos = -1, tPosRNeg = -1, tNegRPos = -1, tNegRNeg = -1, seR, spR } = numbers;
    const { apparent, corrected, prevalence } = compute(referenceCorrected, {
      counts: { bothReactive: tPosRPos, kitOnly: tPosRNeg, referenceOnly: tNegRPos, neither: tNegRNeg },
      reference: { sensitivity: known(seR), specificity: known(spR) },
      covariance: { diseased: 0, nondiseased: 0 },
    }).values;
    return {
      apparentSe: apparent.sensitivity.value,
      apparentSp: apparent.specificity.value,
      prevalence: prevalence.value,
      correctedSe: corrected.sensitivity.value,
      correctedSp: corrected.specificity.value,
    };
  },
  "I-08": (inputs) => {
    const numbers = inputs as Readonly<Record<string, number>>;
    const { prevalence = -1, se1 = -1, sp1 = -1, se2 = -1, sp2 = -1 } = numbers;
    const { covDiseased = -2, covNondiseased = -2 } = numbers;
    const kit = { sensitivity: se1, specificity: sp1 };
    const reference = { sensitivity: se2, specificity: sp2 };
    const dependence = { kind: "covariance" as const, diseased: covDiseased, nondiseased: covNondiseased };
    const { at, diseased, nondiseased } = compute(referenceApparent, {
      kit,
      reference,
      dependence,
      prevalences: [prevalence],
    }).values;
    const rules = compute(twoTests, { first: kit, second: reference, dependence, prevalences: [prevalence] });
    return {
      p11: at[0]?.bothReactive ?? null,
      p10: at[0]?.kitOnly ?? null,
      p01: at[0]?.referenceOnly ?? null,
      p00: at[0]?.neither ?? null,
      apparentSe: at[0]?.sensitivity ?? null,
      apparentSp: at[0]?.specificity ?? null,
      covDMax: diseased.highestCovariance,
      covDMin: diseased.lowestCovariance,
      covNMax: nondiseased.highestCovariance,
      covNMin: nondiseased.lowestCovariance,
      corrD: diseased.phi,
      corrN: nondiseased.phi,
      serialSe: rules.values.serial.sensitivity,
      serialSp: rules.values.serial.specificity,
      parallelSe: rules.values.parallel.sensitivity,
      parallelSp: rules.values.parallel.specificity,
    };
  },
  "I-10": composite,
  "I-11": composite,
};
