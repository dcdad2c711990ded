import { compute } from "../../../src/core/method.ts";
import { type FourfoldInput, fourfold } from "../../../src/methods/accuracy/fourfold.ts";
import { invalidTreatments } from "../../../src/methods/accuracy/invalid-treatments.ts";
import { levelLikelihoodRatios } from "../../../src/methods/accuracy/level-likelihood-ratios.ts";
import { predictiveValues } from "../../../src/methods/predictive/bayes.ts";
import { type Actual, type Check, fourfoldOf, type ReferenceCase, realData } from "./reference-case.ts";

function countsOf(inputs: ReferenceCase["inputs"]): FourfoldInput {
  const { tp, fp, fn, tn } = inputs as Record<string, number>;
  return {
    truePositives: tp ?? -1,
    falsePositives: fp ?? -1,
    falseNegatives: fn ?? -1,
    trueNegatives: tn ?? -1,
  };
}

function summary(counts: FourfoldInput, prevalences: readonly number[]): Actual {
  const exact = compute(fourfold, counts, { differenceInterval: "wald" }).values;
  const wilson = compute(fourfold, counts, { method: "wilson" }).values;
  const atPrevalences = prevalences.flatMap((prevalence) => {
    const se = exact.sensitivity.value ?? Number.NaN;
    const { ppv, npv } = predictiveValues(se, exact.specificity.value ?? Number.NaN, prevalence);
    return [
      [`ppvAt${prevalence}`, ppv],
      [`npvAt${prevalence}`, npv],
    ];
  });
  return {
    sensitivity: exact.sensitivity.value,
    seCPLower: exact.sensitivity.lower,
    seCPUpper: exact.sensitivity.upper,
    seWilsonLower: wilson.sensitivity.lower,
    seWilsonUpper: wilson.sensitivity.upper,
    specificity: exact.specificity.value,
    spCPLower: exact.specificity.lower,
    spCPUpper: exact.specificity.upper,
    spWilsonLower: wilson.specificity.lower,
    spWilsonUpper: wilson.specificity.upper,
    ppv: exact.apparentPpv.value,
    ppvCPLower: exact.apparentPpv.lower,
    ppvCPUpper: exact.apparentPpv.upper,
    npv: exact.apparentNpv.value,
    npvCPLower: exact.apparentNpv.lower,
    npvCPUpper: exact.apparentNpv.upper,
    prevalence: exact.referencePrevalence.value,
    accuracy: exact.overallAccuracy.value,
    lrPos: exact.positiveLikelihoodRatio.value,
    lrPosLower: exact.positiveLikelihoodRatio.lower,
    lrPosUpper: exact.positiveLikelihoodRatio.upper,
    lrNeg: exact.negativeLikelihoodRatio.value,
    lrNegLower: exact.negativeLikelihoodRatio.lower,
    lrNegUpper: exact.negativeLikelihoodRatio.upper,
    dor: exact.diagnosticOddsRatio.value,
    dorLower: exact.diagnosticOddsRatio.lower,
    dorUpper: exact.diagnosticOddsRatio.upper,
    youden: exact.youden.value,
    youdenLower: exact.youden.lower,
    youdenUpper: exact.youden.upper,
    ...Object.fromEntries(atPrevalences),
  };
}

const table: Check = (inputs) => summary(countsOf(inputs), (inputs.prevalences as number[]) ?? []);

/** Counts from the data set itself; those the case states are checked along with the rest. */
function fromData(
  name: string,
  truth: (row: Record<string, string>) => boolean,
  test: (row: Record<string, string>) => boolean,
): Check {
  return (inputs) => {
    const counts = fourfoldOf(realData(name), truth, test);
    const stated = countsOf(inputs);
    if (JSON.stringify(counts) !== JSON.stringify(stated)) {
      throw new Error(`counts of ${name}: ${JSON.stringify(counts)}, stated ${JSON.stringify(stated)}`);
    }
    return summary(counts, []);
  };
}

const zeroCell: Check = (inputs) => {
  const { values, notes } = compute(fourfold, countsOf(inputs), { zeroCells: "add_half" });
  const raw = values.positiveLikelihoodRatio.value;
  const unbounded = notes.some(
    ({ code, path }) => code === "unbounded" && path === "positiveLikelihoodRatio",
  );
  const half = values.halfAdded;
  return {
    dorHaldane: half?.diagnosticOddsRatio.value ?? null,
    dorLower: half?.diagnosticOddsRatio.lower ?? null,
    dorUpper: half?.diagnosticOddsRatio.upper ?? null,
    lrPosHaldane: half?.positiveLikelihoodRatio.value ?? null,
    lrNegHaldane: half?.negativeLikelihoodRatio.value ?? null,
    lrPosRaw: raw === null && unbounded ? "Infinity" : raw,
  };
};

export const accuracyChecks: Readonly<Record<string, Check>> = {
  "A-01": table,
  "A-03": table,
  "A-05": table,
  "A-09": zeroCell,
  "A-10": zeroCell,
  "A-14": fromData(
    "nwtco.csv",
    ({ histol }) => histol === "2",
    ({ instit }) => instit === "2",
  ),
  "A-16": fromData(
    "nodal.csv",
    ({ r }) => r === "1",
    ({ acid }) => acid === "1",
  ),
  "A-17": fromData(
    "biopsy.csv",
    (row) => row.class === "malignant",
    ({ V2 }) => Number(V2) >= 4,
  ),
  "A-07": (inputs) => {
    const { levels, diseased, nondiseased } = inputs as {
      levels: string[];
      diseased: number[];
      nondiseased: number[];
    };
    const rows = levels.map((label, at) => ({
      label,
      positives: diseased[at] ?? -1,
      negatives: nondiseased[at] ?? -1,
    }));
    const found = compute(levelLikelihoodRatios, { levels: rows }).values.levels;
    return Object.fromEntries(
      found.flatMap(({ label, likelihoodRatio }) => [
        [`lr_${label}`, likelihoodRatio.value],
        [`lower_${label}`, likelihoodRatio.lower],
        [`upper_${label}`, likelihoodRatio.upper],
      ]),
    );
  },
  "A-11": (inputs) => {
    const exact = compute(fourfold, countsOf(inputs)).values.jointRegion;
    const wilson = compute(fourfold, countsOf(inputs), { method: "wilson" }).values.jointRegion;
    return {
      componentLevel: exact.componentLevel,
      seCPLower: exact.sensitivity.lower,
      seCPUpper: exact.sensitivity.upper,
      spCPLower: exact.specificity.lower,
      spCPUpper: exact.specificity.upper,
      seWilsonLower: wilson.sensitivity.lower,
      seWilsonUpper: wilson.sensitivity.upper,
      spWilsonLower: wilson.specificity.lower,
      spWilsonUpper: wilson.specificity.upper,
    };
  },
  "A-12": (inputs) => {
    const { invalidDiseased, invalidNondiseased } = inputs as Record<string, number>;
    const six = {
      ...countsOf(inputs),
      invalidPositives: invalidDiseased ?? -1,
      invalidNegatives: invalidNondiseased ?? -1,
    };
    const { values } = compute(invalidTreatments, six, { method: "wilson" });
    const pairs = { set_aside: "Excl", failure: "Worst", reactive: "AsPositive", nonreactive: "AsNegative" };
    const treated = values.treatments.flatMap(({ treatment, sensitivity, specificity }) => [
      [`se${pairs[treatment]}`, sensitivity.value],
      [`sp${pairs[treatment]}`, specificity.value],
    ]);
    return {
      ...Object.fromEntries(treated),
      yield: values.yield.value,
      invalidWilsonLower: values.invalidRate.lower,
      invalidWilsonUpper: values.invalidRate.upper,
    };
  },
};
