import type { WorkedExample } from "../../core/method.ts";

const R = "R 4.2.2: qbeta limits on every result, dbinom and exp(lchoose + lbeta - lbeta) summed";

export const assuranceExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "198 of 200 against at least 98 %, 300 more",
    input: { count: 198, total: 200, threshold: 0.98, direction: "at_least", further: 300 },
    options: { horizon: 0 },
    expect: {
      verdictNow: "undecided",
      "estimateHeld.met": 0.197649663984274,
      "estimateHeld.notMet": 9.46645998070479e-8,
      "predictive.met": 0.252315006438454,
      "predictive.notMet": 0.00386728949617642,
      "predictive.undecided": 0.743817704065371,
    },
    tolerance: { relative: 1e-9 },
    source: "spiegelhalter1986",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "111 of 113 against at least 95 %: how many more for an even chance, and for four in five",
    input: { count: 111, total: 113, threshold: 0.95, direction: "at_least", further: 200 },
    options: { targets: [0.5, 0.8], horizon: 400 },
    expect: {
      "estimateHeld.met": 0.933339446591553,
      "predictive.met": 0.774794755443416,
      "smallest.0.estimateHeld.first": 29,
      "smallest.0.estimateHeld.stays": 60,
      "smallest.0.predictive.stays": 89,
      "smallest.1.estimateHeld.first": 117,
      "smallest.1.predictive.first": 277,
      "smallest.1.predictive.stays": 377,
    },
    tolerance: { relative: 1e-9 },
    source: "ohagan2005",
    recomputedBy: `${R}; every number up to 400`,
    memory: true,
  },
  {
    name: "12 of 400 against at most 5 %, 100 more",
    input: { count: 12, total: 400, threshold: 0.05, direction: "at_most", further: 100 },
    options: { horizon: 400 },
    expect: {
      "estimateHeld.met": 0.647249210464019,
      "predictive.met": 0.623506577005695,
      "predictive.notMet": 1.53346824114577e-10,
      "smallest.0.estimateHeld.first": 213,
      "smallest.0.estimateHeld.stays": 333,
      "smallest.0.predictive.first": null,
    },
    tolerance: { relative: 1e-9 },
    source: "spiegelhalter1986",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "nothing observed so far",
    input: { count: 0, total: 0, threshold: 0.95, direction: "at_least", further: 10 },
    expect: { verdictNow: "not_estimable", "estimateHeld.met": null, "smallest.1.predictive.first": null },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
