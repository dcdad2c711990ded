import type { WorkedExample } from "../../core/method.ts";

const oneInEight = [
  { label: "reactive", result: "reactive", diseased: 180, nondiseased: 20, unverified: 0, probability: 1 },
  {
    label: "nonreactive",
    result: "nonreactive",
    diseased: 5,
    nondiseased: 95,
    unverified: 700,
    probability: 0.125,
  },
];

/** One nonreactive person in eight verified. Estimates by weights, errors by weighted sums of squares. */
export const weightedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "all reactive verified, one in eight of the nonreactive",
    input: { groups: oneInEight },
    expect: {
      "sensitivity.value": 0.818181818181818,
      "sensitivity.lower": 0.653527924919745,
      "sensitivity.upper": 0.914789689852136,
      "specificity.value": 0.974358974358974,
      "weights.1.weight": 8,
      weightedPeople: 1000,
    },
    tolerance: { relative: 1e-8 },
    source: "no publication: made up",
    recomputedBy: "R 4.2.2 base/stats: weights N / V, closed forms with qnorm and plogis",
  },
  {
    name: "the same with the design's probabilities: less precise",
    input: { groups: oneInEight },
    options: { probabilities: "design" },
    expect: {
      "sensitivity.value": 0.818181818181818,
      "standardErrors.sensitivity": 0.0674453083077791,
      effectivePeople: 151.515151515152,
    },
    tolerance: { relative: 1e-8 },
    source: "no publication: made up",
    recomputedBy:
      "R 4.2.2 base/stats: sums over people (tests/reference/scripts/second-opinion-verification.R)",
  },
];
