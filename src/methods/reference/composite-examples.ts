import type { WorkedExample } from "../../core/method.ts";

export const compositeExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "88 / 97 % against references of 70 / 99 % and 80 / 98 %, prevalence 15 %",
    input: {
      kit: { sensitivity: 0.88, specificity: 0.97 },
      first: { sensitivity: 0.7, specificity: 0.99 },
      second: { sensitivity: 0.8, specificity: 0.98 },
      dependence: { kind: "independent" },
      prevalence: 0.15,
    },
    expect: {
      "anyPositive.sensitivity": 0.94,
      "anyPositive.specificity": 0.9702,
      "anyPositive.apparentSensitivity": 0.750555522154753,
      "anyPositive.apparentSpecificity": 0.960823707222282,
      "bothPositive.sensitivity": 0.56,
      "bothPositive.specificity": 0.9998,
      "bothPositive.apparentSensitivity": 0.878283236307473,
      "bothPositive.apparentSpecificity": 0.908744090060382,
    },
    tolerance: { relative: 1e-8 },
    source: "alonzo1999",
    recomputedBy: "R 4.2.2: closed forms",
    memory: true,
  },
  {
    name: "95 / 90 % against references of 60 / 100 % and 90 / 95 %, prevalence 3 %",
    input: {
      kit: { sensitivity: 0.95, specificity: 0.9 },
      first: { sensitivity: 0.6, specificity: 1 },
      second: { sensitivity: 0.9, specificity: 0.95 },
      dependence: { kind: "independent" },
      prevalence: 0.03,
    },
    expect: {
      "anyPositive.apparentSensitivity": 0.416688227684346,
      "anyPositive.apparentPrevalence": 0.0773,
      "bothPositive.apparentSensitivity": 0.95,
      "bothPositive.apparentSpecificity": 0.888076844887172,
    },
    tolerance: { relative: 1e-8 },
    source: "alonzo1999",
    recomputedBy: "R 4.2.2: closed forms",
    memory: true,
  },
];
