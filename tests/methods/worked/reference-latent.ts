import { compute } from "../../../src/core/method.ts";
import { latentClass } from "../../../src/methods/reference/latent-class.ts";
import type { Check } from "./reference-case.ts";

const INDEPENDENT = { kind: "independent" as const };

export const referenceLatentChecks: Readonly<Record<string, Check>> = {
  "I-01": (inputs) => {
    const patternsOf = (counts: unknown) =>
      Object.entries(counts as Readonly<Record<string, number>>).map(([results, people]) => ({
        reactive: [...results].map((result) => result === "1"),
        people,
      }));
    const { tests, populations } = compute(latentClass, {
      tests: ["first", "second"],
      populations: ["pop1", "pop2"].map((label) => ({ label, patterns: patternsOf(inputs[label]) })),
      dependence: INDEPENDENT,
    }).values;
    return Object.fromEntries([
      ...populations.flatMap(({ prevalence }, place) => [
        [`prev${place + 1}`, prevalence.estimate.value],
        [`stdErrPrev${place + 1}`, prevalence.standardError],
      ]),
      ...tests.flatMap(({ sensitivity, specificity }, place) => [
        [`se${place + 1}`, sensitivity.estimate.value],
        [`sp${place + 1}`, specificity.estimate.value],
        [`fnr${place + 1}`, 1 - (sensitivity.estimate.value ?? Number.NaN)],
        [`fpr${place + 1}`, 1 - (specificity.estimate.value ?? Number.NaN)],
        [`stdErrSe${place + 1}`, sensitivity.standardError],
        [`stdErrSp${place + 1}`, specificity.standardError],
      ]),
    ]);
  },
  "I-12": ({ order, counts }) => {
    const patterns = (order as string[]).map((results, place) => ({
      reactive: [...results].map((result) => result === "1"),
      people: (counts as number[])[place] ?? -1,
    }));
    const { tests, populations, fit } = compute(latentClass, {
      tests: ["first", "second", "third"],
      populations: [{ label: "all", patterns }],
      dependence: INDEPENDENT,
    }).values;
    return Object.fromEntries([
      ["prevalence", populations[0]?.prevalence.estimate.value ?? null],
      ["logLik", fit.logLikelihood],
      ...tests.flatMap(({ sensitivity, specificity }, place) => [
        [`se${place + 1}`, sensitivity.estimate.value],
        [`sp${place + 1}`, specificity.estimate.value],
      ]),
    ]);
  },
};
