import { compute } from "../../../src/core/method.ts";
import type { Preset } from "../../../src/core/preset-names.ts";
import type { Dependence } from "../../../src/methods/algorithms/fields.ts";
import { algorithmsOutcomes } from "../../../src/methods/algorithms/outcomes.ts";
import { presetSteps } from "../../../src/methods/algorithms/presets.ts";
import type { Check, ReferenceCase } from "./reference-case.ts";

type Inputs = ReferenceCase["inputs"];

/** The kits of a case by number, in one of the usual algorithms; no run is invalid. */
function outcomesOf(
  preset: Preset,
  { se, sp, prevalence, n }: Inputs,
  dependence: Dependence = { kind: "independent" },
) {
  const specificities = sp as readonly number[];
  const kits = (se as readonly number[]).map((sensitivity, at) => ({
    id: `${at + 1}`,
    sensitivity,
    specificity: specificities[at] ?? Number.NaN,
    invalid: 0,
  }));
  const steps = presetSteps(
    preset,
    kits.map(({ id }) => id),
    { again: 0 },
  );
  const input = { kits, steps, retest: null, dependence, prevalences: [prevalence as number] };
  return compute(algorithmsOutcomes, n === undefined ? input : { ...input, people: n as number }).values;
}
type Outcomes = ReturnType<typeof outcomesOf>;

function atOf({ at }: Outcomes) {
  const [point] = at;
  if (point === undefined) throw new Error("no prevalence");
  return point;
}

/** Probability of coming to a step, at the case's prevalence, by truth. */
function comingTo({ runsAtStep, at }: Outcomes, step: number) {
  const found = runsAtStep[step];
  const prevalence = at[0]?.prevalence ?? Number.NaN;
  const diseased = prevalence * (found?.diseased ?? Number.NaN);
  return { diseased, all: diseased + (1 - prevalence) * (found?.nondiseased ?? Number.NaN) };
}

/** Whoever comes to the second and third kit was reactive before. */
function afterReactive(outcomes: Outcomes, step: number): number {
  const { diseased, all } = comingTo(outcomes, step);
  return diseased / all;
}

function devices(outcomes: Outcomes): number {
  return atOf(outcomes).runs.reduce((sum, { perPerson }) => sum + (perPerson ?? 0), 0);
}

const serial: Check = (inputs) => {
  const outcomes = outcomesOf("serial_confirm", inputs);
  const { ppv, npv, perPeople } = atOf(outcomes);
  const three = outcomes.runsAtStep.length > 2;
  return {
    ppvAfter1: afterReactive(outcomes, 1),
    ppvAfter2: three ? afterReactive(outcomes, 2) : ppv,
    ppvAfter3: three ? ppv : null,
    netSe: outcomes.net.sensitivity,
    netSp: outcomes.net.specificity,
    ppv,
    npv,
    meanTestsPerPerson: devices(outcomes),
    truePositives: perPeople.truePositives,
    falsePositives: perPeople.falsePositives,
  };
};

const tieBreaker: Check = (inputs) => {
  const outcomes = outcomesOf("tie_breaker", inputs);
  const { ppv, npv, runs } = atOf(outcomes);
  return {
    netSe: outcomes.net.sensitivity,
    netSp: outcomes.net.specificity,
    ppv,
    npv,
    fractionNeedingThird: runs[2]?.perPerson ?? null,
  };
};

const threeInARow: Check = (inputs) => {
  const outcomes = outcomesOf("consecutive_three", inputs);
  const { positive, negative, inconclusive, ppv, npv, perPeople } = atOf(outcomes);
  return {
    positive,
    negative,
    inconclusive,
    ppv,
    npv,
    falsePosPer100000: perPeople.falsePositives,
    falseNegPer100000: perPeople.missed,
    inconclusivePer100000: perPeople.inconclusive,
    a2Used: comingTo(outcomes, 1).all,
    a3Used: comingTo(outcomes, 2).all,
    truePosPerDiseased: outcomes.byTruth.diseased.positive,
    inconclusiveAmongDiseased: outcomes.byTruth.diseased.inconclusive,
  };
};

/** A covariance as phi: over the standard deviations of the two results. */
const phiOf = (covariance: unknown, one: number, other: number) =>
  (covariance as number) / Math.sqrt(one * (1 - one) * other * (1 - other));

const dependent: Check = ({ prevalence, se1, sp1, se2, sp2, covDiseased, covNondiseased }) => {
  const inputs = { prevalence, se: [se1, se2], sp: [sp1, sp2] };
  const pair = {
    first: "1",
    second: "2",
    diseased: phiOf(covDiseased, se1 as number, se2 as number),
    nondiseased: phiOf(covNondiseased, sp1 as number, sp2 as number),
  };
  const dependence = { kind: "pairs" as const, pairs: [pair] };
  const confirmed = outcomesOf("serial_confirm", inputs, dependence).net;
  const either = outcomesOf("parallel", inputs, dependence).net;
  return {
    serialSe: confirmed.sensitivity,
    serialSp: confirmed.specificity,
    parallelSe: either.sensitivity,
    parallelSp: either.specificity,
  };
};

export const algorithmsOutcomesChecks: Readonly<Record<string, Check>> = {
  "X-01": serial,
  "X-03": serial,
  "X-04": serial,
  "X-07": tieBreaker,
  "X-08": tieBreaker,
  "X-09": threeInARow,
  "X-11": dependent,
};
