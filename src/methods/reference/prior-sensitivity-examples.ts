import type { WorkedExample } from "../../core/method.ts";

const beta = (alpha: number, other: number) => ({ alpha, beta: other });
const BY_MIXTURES = "R 4.2.2: exact mixture of betas over all latent counts under each set of priors";

const serologyAndStool = {
  tests: ["serology", "stool"],
  populations: [
    {
      label: "all",
      patterns: [
        { reactive: [true, true], people: 38 },
        { reactive: [true, false], people: 87 },
        { reactive: [false, true], people: 2 },
        { reactive: [false, false], people: 35 },
      ],
    },
  ],
  dependence: { kind: "independent" as const },
  priors: {
    tests: [
      { sensitivity: beta(21.96, 5.49), specificity: beta(4.1, 1.76) },
      { sensitivity: beta(4.44, 13.31), specificity: beta(71.25, 3.75) },
    ],
    populations: [beta(1, 1)],
  },
};

export const sensitivityExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "serology and stool: half and twice the weight of the priors",
    input: serologyAndStool,
    options: { draws: 3000 },
    expect: {
      "alternatives.0.parameters.0.median": 0.7733040545,
      "alternatives.1.name": "half_weight",
      "alternatives.1.parameters.0.median": 0.7495714426,
      "alternatives.1.parameters.1.median": 0.9182471493,
      "alternatives.2.name": "double_weight",
      "alternatives.2.parameters.0.median": 0.8053044964,
      "alternatives.2.parameters.1.median": 0.8580202299,
    },
    tolerance: { relative: 0.02 },
    source: "joseph1995",
    recomputedBy: BY_MIXTURES,
    memory: true,
  },
  {
    name: "the stool test's sensitivity not known beforehand",
    input: serologyAndStool,
    options: { draws: 3000 },
    expect: {
      "alternatives.6.changed.0": "tests.1.sensitivity",
      "alternatives.6.parameters.0.median": 0.7220374244,
      "alternatives.6.parameters.2.median": 0.3406273582,
    },
    tolerance: { relative: 0.04 },
    source: "joseph1995",
    recomputedBy: BY_MIXTURES,
    memory: true,
  },
];
