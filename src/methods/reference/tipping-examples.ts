import type { WorkedExample } from "../../core/method.ts";

const COUNTS = { bothReactive: 188, kitOnly: 14, referenceOnly: 9, neither: 789 };
const NONE = { diseased: 0, nondiseased: 0 };
const NO_GRID = { sensitivities: [], specificities: [], covariances: [] };

export const tippingExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "at least 93 %, undecided: met if the reference falsely finds more than 2.9 in 1,000",
    input: {
      counts: COUNTS,
      criterion: { measure: "sensitivity", threshold: 0.93, direction: "at_least" },
      reference: { sensitivity: 0.98, specificity: 0.998 },
      covariance: NONE,
      grid: NO_GRID,
    },
    expect: {
      "believed.verdict": "undecided",
      "believed.lower": 0.926562257693722,
      "borders.referenceSpecificity.below.at": 0.997082907031782,
      "borders.referenceSpecificity.below.verdict": "met",
    },
    tolerance: { relative: 1e-7 },
    source: "staquet1981",
    recomputedBy: "R 4.2.2: optim over the model's parameters, uniroot on the limit less the threshold",
    memory: true,
  },
  {
    name: "at least 92 %, met: undecided again if kit and reference share errors, covariance above .0064",
    input: {
      counts: COUNTS,
      criterion: { measure: "sensitivity", threshold: 0.92, direction: "at_least" },
      reference: { sensitivity: 0.98, specificity: 0.998 },
      covariance: NONE,
      grid: { sensitivities: [0.98], specificities: [0.998], covariances: [] },
    },
    expect: {
      "believed.verdict": "met",
      "cells.0.verdict": "met",
      "borders.covarianceDiseased.above.at": 0.0064178880244605,
      "borders.covarianceDiseased.above.verdict": "undecided",
    },
    tolerance: { relative: 1e-7 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: optim over the model's parameters, uniroot on the limit less the threshold",
    memory: true,
  },
  {
    name: "nobody observed",
    input: {
      counts: { bothReactive: 0, kitOnly: 0, referenceOnly: 0, neither: 0 },
      criterion: { measure: "sensitivity", threshold: 0.95, direction: "at_least" },
      reference: { sensitivity: 1, specificity: 1 },
      covariance: NONE,
      grid: NO_GRID,
    },
    expect: { "believed.verdict": "not_estimable" },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
