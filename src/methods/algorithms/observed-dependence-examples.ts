import type { WorkedExample } from "../../core/method.ts";

const RECOMPUTED = "R 4.2.2: cor and cov of one line per person, fisher.test";

export const observedDependenceExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "three shared false positives where 0.1 would be chance",
    input: {
      diseased: { bothReactive: 180, firstOnly: 6, secondOnly: 9, neither: 5 },
      nondiseased: { bothReactive: 3, firstOnly: 5, secondOnly: 4, neither: 488 },
    },
    expect: {
      "diseased.phi.value": 0.36359895672103526,
      "diseased.covariance.value": 0.02115,
      "diseased.fisher.twoSided": 0.00028772085980296986,
      "nondiseased.phi.value": 0.39180246924476575,
      "nondiseased.covariance.value": 0.005776,
      "nondiseased.fisher.twoSided": 9.1818123555865904e-5,
      "nondiseased.bothWrong.ifIndependent": 0.112,
      "nondiseased.bothWrong.perPeople": 600,
      "nondiseased.bothWrong.perPeopleIfIndependent": 22.4,
    },
    tolerance: { relative: 1e-9 },
    source: "vacek1985",
    recomputedBy: RECOMPUTED,
    memory: true,
  },
  {
    name: "no shared error seen: independence is not shown",
    input: {
      diseased: { bothReactive: 40, firstOnly: 20, secondOnly: 15, neither: 45 },
      nondiseased: { bothReactive: 0, firstOnly: 4, secondOnly: 3, neither: 293 },
    },
    expect: {
      "diseased.phi.value": 0.41812100500354543,
      "nondiseased.phi.value": -0.011683327287213026,
      "nondiseased.fisher.twoSided": 1,
    },
    tolerance: { relative: 1e-9 },
    source: "vacek1985",
    recomputedBy: RECOMPUTED,
    memory: true,
  },
  {
    name: "the delta method, for comparison",
    input: {
      diseased: { bothReactive: 180, firstOnly: 16, secondOnly: 19, neither: 25 },
      nondiseased: { bothReactive: 30, firstOnly: 50, secondOnly: 40, neither: 880 },
    },
    options: { method: "delta" },
    expect: {
      "diseased.phi.lower": 0.34379430541390293,
      "diseased.phi.upper": 0.62963721349613899,
      "nondiseased.phi.lower": 0.24418307899606945,
      "nondiseased.covariance.upper": 0.033555897861622191,
    },
    tolerance: { relative: 1e-7 },
    source: "bishop1975",
    recomputedBy: "R 4.2.2: numerical slopes in the four shares",
    memory: true,
  },
];
