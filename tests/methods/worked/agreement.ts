import { compute } from "../../../src/core/method.ts";
import { chanceCorrected } from "../../../src/methods/agreement/chance-corrected.ts";
import { kappa } from "../../../src/methods/agreement/kappa.ts";
import { manyReaders } from "../../../src/methods/agreement/many-readers.ts";
import { percent } from "../../../src/methods/agreement/percent.ts";
import type { Actual, Check } from "./reference-case.ts";

type Numbers = number[][];

function kappaOf(table: Numbers, level: number, weights?: Numbers): Actual {
  const { values } = compute(kappa, { table }, weights === undefined ? { level } : { level, weights });
  const se = values.standardError ?? Number.NaN;
  const se0 = values.nullStandardError ?? Number.NaN;
  return {
    po: values.observedAgreement,
    pe: values.expectedAgreement,
    kappa: values.kappa.value,
    lower: values.kappa.lower,
    upper: values.kappa.upper,
    se,
    se0,
    z: values.z,
    variance: se ** 2,
    variance0: se0 ** 2,
  };
}

const square: Check = ({ table, weights, level }) => {
  const found = kappaOf(table as Numbers, level as number, weights as Numbers | undefined);
  if (weights === undefined) return found;
  const plain = kappaOf(table as Numbers, level as number);
  return {
    ...found,
    unweightedKappa: plain.kappa as number,
    unweightedSe: plain.se as number,
    unweightedSe0: plain.se0 as number,
  };
};

/** `kappaFromIndices` is the identity of Byrt, Bishop and Carlin, worked out here from the indices. */
const family: Check = ({ a, b, c, d }) => {
  const table = [
    [a as number, b as number],
    [c as number, d as number],
  ];
  const { values } = compute(chanceCorrected, { table });
  const ofKappa = compute(kappa, { table }).values;
  const [bothReactive, firstOnly, secondOnly, bothNonreactive] = [a, b, c, d] as number[] as [
    number,
    number,
    number,
    number,
  ];
  const counts = { bothReactive, firstOnly, secondOnly, bothNonreactive };
  const specific = compute(percent, counts).values;
  const balance = (values.biasIndex ?? Number.NaN) ** 2 - (values.prevalenceIndex ?? Number.NaN) ** 2;
  return {
    po: values.observedAgreement.value,
    kappa: values.kappa.value,
    kappaSe: ofKappa.standardError,
    kappaMax: ofKappa.largestKappa,
    pabak: values.pabak.value,
    prevalenceIndex: values.prevalenceIndex,
    biasIndex: values.biasIndex,
    kappaFromIndices: ((values.pabak.value ?? Number.NaN) + balance) / (1 + balance),
    scottPi: values.scottPi.value,
    ac1: values.ac1.value,
    krippendorff: values.krippendorffAlpha.value,
    pPos: specific.positiveSpecificAgreement.value,
    pNeg: specific.negativeSpecificAgreement.value,
  };
};

export const agreementChecks: Readonly<Record<string, Check>> = {
  "K-01": square,
  "K-02": square,
  "K-03": square,
  "K-05": family,
  "K-07": family,
  "K-08": family,
  "K-09": family,
  "K-10": family,
  "K-11": ({ counts }) => {
    const ratings = (counts as Numbers).map((row) =>
      row.flatMap((readers, category) => new Array<number>(readers).fill(category)),
    );
    const { values } = compute(manyReaders, { ratings }, { replicates: 100 });
    return {
      pBar: values.observedAgreement,
      pe: values.expectedAgreement,
      kappa: values.fleissKappa.estimate.value,
      se0: values.fleissNullStandardError,
      z: values.fleissZ,
      ac1: values.gwetAgreement.estimate.value,
      krippendorffNominal: values.krippendorffAlpha.estimate.value,
    };
  },
  "K-13": ({ ratings }) => {
    const readers = ratings as (number | null)[][];
    const items = (readers[0] ?? []).map((_, item) => readers.map((row) => row[item] ?? null));
    const alpha = (scale: "nominal" | "ordinal" | "interval" | "ratio") =>
      compute(manyReaders, { ratings: items }, { scale, replicates: 100 }).values.krippendorffAlpha.estimate
        .value;
    return {
      nominal: alpha("nominal"),
      ordinal: alpha("ordinal"),
      interval: alpha("interval"),
      ratio: alpha("ratio"),
    };
  },
  "K-15": ({ bothPos, newPosOldNeg, newNegOldPos, bothNeg }) => {
    const counts = {
      bothReactive: bothPos as number,
      firstOnly: newPosOldNeg as number,
      secondOnly: newNegOldPos as number,
      bothNonreactive: bothNeg as number,
    };
    const exact = compute(percent, counts).values;
    const wilson = compute(percent, counts, { method: "wilson" }).values;
    const named = {
      ppa: "positivePercentAgreement",
      npa: "negativePercentAgreement",
      opa: "overallAgreement",
    } as const;
    return Object.fromEntries(
      Object.entries(named).flatMap(([short, field]) => [
        [short, exact[field].value],
        [`${short}CPLower`, exact[field].lower],
        [`${short}CPUpper`, exact[field].upper],
        [`${short}WilsonLower`, wilson[field].lower],
        [`${short}WilsonUpper`, wilson[field].upper],
      ]),
    );
  },
};
