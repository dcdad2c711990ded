import type { WorkedExample } from "../../core/method.ts";

const KIT = { sensitivity: 0.95, specificity: 0.99 };
const INDEPENDENT = { kind: "independent" };

export const apparentExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "a kit of 95 / 99 % against a reference of 99 / 99 %: 63.9 % at a prevalence of 2 %, 91.3 % at 20 %",
    input: {
      kit: KIT,
      reference: { sensitivity: 0.99, specificity: 0.99 },
      dependence: INDEPENDENT,
      prevalences: [0.02, 0.2],
    },
    expect: { "at.0.sensitivity": 0.639, "at.1.sensitivity": 0.913 },
    tolerance: { decimals: 3 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: the four joint probabilities of each truth",
    memory: true,
  },
  {
    name: "the same against a reference with a specificity of 99.9 %: 90.6 % at 2 %",
    input: {
      kit: KIT,
      reference: { sensitivity: 0.99, specificity: 0.999 },
      dependence: INDEPENDENT,
      prevalences: [0.02],
    },
    expect: { "at.0.sensitivity": 0.906 },
    tolerance: { decimals: 3 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: the four joint probabilities of each truth",
    memory: true,
  },
  {
    name: "92 / 96 % against 80 / 99 %, covariances .04 and .004",
    input: {
      kit: { sensitivity: 0.92, specificity: 0.96 },
      reference: { sensitivity: 0.8, specificity: 0.99 },
      dependence: { kind: "covariance", diseased: 0.04, nondiseased: 0.004 },
      prevalences: [0.1],
    },
    expect: {
      "at.0.bothReactive": 0.08156,
      "at.0.kitOnly": 0.04644,
      "at.0.referenceOnly": 0.00744,
      "at.0.neither": 0.86456,
      "at.0.sensitivity": 0.916404494382022,
      "at.0.specificity": 0.949023051591657,
      "diseased.phi": 0.368604890387243,
      "nondiseased.phi": 0.205152484965554,
    },
    tolerance: { relative: 1e-8 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: closed forms",
    memory: true,
  },
];
