import type { WorkedExample } from "../../core/method.ts";

const NONE = { diseased: 0, nondiseased: 0 };
const known = (value: number) => ({ kind: "value", value });

export const correctedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "a thousand people expected, a reference of 90 / 97 %",
    input: {
      counts: { bothReactive: 86.2, kitOnly: 43.8, referenceOnly: 28.8, neither: 841.2 },
      reference: { sensitivity: known(0.9), specificity: known(0.97) },
      covariance: NONE,
    },
    expect: {
      "apparent.sensitivity.value": 0.749565217391304,
      "apparent.specificity.value": 0.950508474576271,
      "prevalence.value": 0.0977011494252873,
      "corrected.sensitivity.value": 0.968235294117647,
      "corrected.specificity.value": 0.960764331210191,
    },
    tolerance: { relative: 1e-8 },
    source: "staquet1981",
    recomputedBy: "R 4.2.2: closed forms",
    memory: true,
  },
  {
    name: "a reference of 98 / 99 % that shares false positives with the kit, covariance .003",
    input: {
      counts: { bothReactive: 310, kitOnly: 15, referenceOnly: 22, neither: 653 },
      reference: { sensitivity: known(0.98), specificity: known(0.99) },
      covariance: { diseased: 0, nondiseased: 0.003 },
    },
    expect: {
      "prevalence.value": 0.331958762886598,
      "corrected.sensitivity.value": 0.946415764871614,
      "corrected.sensitivity.lower": 0.915639561,
      "corrected.sensitivity.upper": 0.970434688,
      "corrected.specificity.value": 0.983789932544228,
      "corrected.specificity.lower": 0.970487677,
      "corrected.specificity.upper": 0.993463949,
    },
    tolerance: { relative: 1e-7 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: solve; optim over the model's parameters and uniroot",
    memory: true,
  },
  {
    name: "nobody observed",
    input: {
      counts: { bothReactive: 0, kitOnly: 0, referenceOnly: 0, neither: 0 },
      reference: { sensitivity: known(0.9), specificity: known(0.97) },
      covariance: NONE,
    },
    expect: { "corrected.sensitivity.value": null, "admissible.referenceSensitivity": null },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
