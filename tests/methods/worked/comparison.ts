import { compute } from "../../../src/core/method.ts";
import { paired } from "../../../src/methods/comparison/paired.ts";
import { pairedPredictiveValues } from "../../../src/methods/comparison/paired-predictive-values.ts";
import { unpaired } from "../../../src/methods/comparison/unpaired.ts";
import type { Actual, Check } from "./reference-case.ts";

type Numbers = Readonly<Record<string, number>>;
const numberAt = (numbers: Numbers, key: string) => numbers[key] ?? -1;

/** Counts a, b, c, d: on both, on the first only, on the second only, on neither; absent is 0. */
const pairedOf = (inputs: Readonly<Record<string, unknown>>) => {
  const { a = 0, b = 0, c = 0, d = 0 } = inputs as Numbers;
  return { both: a, firstOnly: b, secondOnly: c, neither: d };
};

const mcNemarTests: Check = (inputs) => {
  const { mcNemar } = compute(paired, pairedOf(inputs)).values;
  return {
    chi2: mcNemar.chiSquare,
    pAsymptotic: mcNemar.asymptotic,
    chi2cc: mcNemar.correctedChiSquare,
    pContinuity: mcNemar.corrected,
    pExact: mcNemar.exact,
    pMidP: mcNemar.midP,
  };
};

const pairedIntervals: Check = (inputs) => {
  const of = (differenceInterval: "tango" | "newcombe" | "wald") =>
    compute(paired, pairedOf(inputs), { differenceInterval }).values.difference;
  const [wald, newcombe, tango] = [of("wald"), of("newcombe"), of("tango")];
  return {
    difference: tango.value,
    waldLower: wald.lower,
    waldUpper: wald.upper,
    newcombe10Lower: newcombe.lower,
    newcombe10Upper: newcombe.upper,
    tangoLower: tango.lower,
    tangoUpper: tango.upper,
  };
};

const groupsOf = (inputs: unknown) => {
  const numbers = inputs as Numbers;
  return {
    first: { count: numberAt(numbers, "x1"), total: numberAt(numbers, "n1") },
    second: { count: numberAt(numbers, "x2"), total: numberAt(numbers, "n2") },
  };
};

const DIFFERENCES = {
  wald: "wald",
  agrestiCaffo: "agresti_caffo",
  newcombeScore: "newcombe",
  mee: "mee",
  miettinenNurminen: "miettinen_nurminen",
} as const;

const differences: Check = (inputs) => {
  const actual: Record<string, number | null> = {};
  for (const [name, differenceInterval] of Object.entries(DIFFERENCES)) {
    const options = { differenceInterval, truncate: false };
    const { difference } = compute(unpaired, groupsOf(inputs), options).values;
    actual.difference = difference.value;
    actual[`${name}Lower`] = difference.lower;
    actual[`${name}Upper`] = difference.upper;
  }
  return actual;
};

const ratioOf = (inputs: unknown, ratioInterval: "log" | "score" | "miettinen_nurminen") =>
  compute(unpaired, groupsOf(inputs), { ratioInterval }).values.ratio;

const ratios: Check = (inputs) => {
  const [katz, koopman, shrunk] = [
    ratioOf(inputs, "log"),
    ratioOf(inputs, "score"),
    ratioOf(inputs, "miettinen_nurminen"),
  ];
  return {
    ratio: koopman.value,
    katzLower: katz.lower,
    katzUpper: katz.upper,
    koopmanLower: koopman.lower,
    koopmanUpper: koopman.upper,
    miettinenNurminenLower: shrunk.lower,
    miettinenNurminenUpper: shrunk.upper,
  };
};

/** An upper limit that is infinite is `null` with the note `unbounded`. */
const zeroNumerators: Check = ({ a, b }) => {
  const [none, unbounded] = [ratioOf(a, "score"), compute(unpaired, groupsOf(b))];
  const infinite = unbounded.notes.some(({ code, path }) => code === "unbounded" && path === "ratio");
  return {
    aRatio: none.value,
    aKoopmanLower: none.lower,
    aKoopmanUpper: none.upper,
    bKoopmanLower: unbounded.values.ratio.lower,
    bKoopmanUpper: infinite && unbounded.values.ratio.upper === null ? "Infinity" : null,
  };
};

const predictive: Check = (inputs) => {
  const row = (name: string) => {
    const cells = inputs[name] as Numbers;
    return {
      both: numberAt(cells, "11"),
      firstOnly: numberAt(cells, "10"),
      secondOnly: numberAt(cells, "01"),
      neither: numberAt(cells, "00"),
    };
  };
  const input = { positives: row("diseased"), negatives: row("nondiseased") };
  const { values } = compute(pairedPredictiveValues, input);
  return { ...named("ppv", "Ppv", values.ppv), ...named("npv", "Npv", values.npv) };
};

type Contrast = ReturnType<typeof pairedPredictiveValues.run>["values"]["ppv"];

const named = (name: string, capital: string, contrast: Contrast): Actual => ({
  [`${name}1`]: contrast.first.value,
  [`${name}2`]: contrast.second.value,
  [`${name}Diff`]: contrast.difference.value,
  [`${name}DiffWaldLower`]: contrast.difference.lower,
  [`${name}DiffWaldUpper`]: contrast.difference.upper,
  [`${name}ScoreChi2`]: contrast.generalisedScore.chiSquare,
  [`${name}ScoreP`]: contrast.generalisedScore.pValue,
  [`${name}WgsChi2`]: contrast.weightedScore.chiSquare,
  [`${name}WgsP`]: contrast.weightedScore.pValue,
  [`r${capital}`]: contrast.ratio.value,
  [`r${capital}Lower`]: contrast.ratio.lower,
  [`r${capital}Upper`]: contrast.ratio.upper,
});

export const comparisonChecks: Readonly<Record<string, Check>> = {
  "D-01": differences,
  "D-03": differences,
  "D-04": differences,
  "D-05": differences,
  "D-06": differences,
  "D-07": differences,
  "R-01": ratios,
  "R-03": zeroNumerators,
  "M-01": mcNemarTests,
  "M-03": (inputs) => ({ ...mcNemarTests(inputs), ...pairedIntervals(inputs) }),
  "M-04": mcNemarTests,
  "M-05": mcNemarTests,
  "PD-01": pairedIntervals,
  "PD-03": pairedIntervals,
  "PD-05": (inputs) => {
    const { value, lower, upper } = compute(paired, pairedOf(inputs)).values.ratio;
    return { ratio: value, lower, upper };
  },
  "V-04": predictive,
  "V-06": predictive,
  "V-08": predictive,
};
