import { compute } from "../../../src/core/method.ts";
import { patternFit } from "../../../src/methods/algorithms/pattern-fit.ts";
import { postTest } from "../../../src/methods/algorithms/post-test.ts";
import { twoTests } from "../../../src/methods/algorithms/two-tests.ts";
import type { Check } from "./reference-case.ts";

export const algorithmsPairsChecks: Readonly<Record<string, Check>> = {
  "X-11": (inputs) => {
    const numbers = inputs as Readonly<Record<string, number>>;
    const { prevalence = -1, se1 = -1, sp1 = -1, se2 = -1, sp2 = -1 } = numbers;
    const { covDiseased = -2, covNondiseased = -2 } = numbers;
    const { serial, parallel } = compute(twoTests, {
      first: { sensitivity: se1, specificity: sp1 },
      second: { sensitivity: se2, specificity: sp2 },
      dependence: { kind: "covariance", diseased: covDiseased, nondiseased: covNondiseased },
      prevalences: [prevalence],
    }).values;
    return {
      serialSe: serial.sensitivity,
      serialSp: serial.specificity,
      parallelSe: parallel.sensitivity,
      parallelSp: parallel.specificity,
    };
  },
  "X-12": ({ pretest, lrs }) => {
    const { steps } = compute(postTest, { pretest: pretest as number, ratios: lrs as number[] }).values;
    return Object.fromEntries(steps.map(({ after }, place) => [`after${place + 1}`, after]));
  },
  "X-13": ({ counts, p }) => {
    const patterns = (counts as number[]).map((observed, place) => ({
      pattern: `pattern ${place + 1}`,
      observed,
      probability: (p as number[])[place] ?? -1,
    }));
    const { values } = compute(patternFit, { patterns });
    return { logProbability: values.logProbability, G2: values.likelihoodRatio.statistic };
  },
};
