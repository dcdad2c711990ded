import type { WorkedExample } from "../../core/method.ts";

const TEN = [
  [25, 8, 1, 25],
  [17, 4, 3, 11],
  [88, 16, 16, 31],
  [16, 10, 3, 80],
  [40, 17, 1, 137],
  [38, 9, 6, 24],
  [23, 19, 0, 12],
  [27, 6, 2, 18],
  [14, 7, 3, 29],
  [37, 7, 22, 7],
].map(([truePositives, falseNegatives, falsePositives, trueNegatives], place) => ({
  label: `study ${place + 1}`,
  truePositives,
  falsePositives,
  falseNegatives,
  trueNegatives,
}));

export const curveRegressionExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "ten studies of a urine marker, every study the same weight",
    input: { studies: TEN, correction: "all", weights: "equal" },
    expect: {
      "line.intercept.value": 2.54485698400915,
      "line.slope.value": -0.564258232118863,
      "line.interceptError": 0.207575161811733,
      "line.slopeError": 0.0991208961426326,
      "threshold.spearman": 0.842424242424242,
    },
    tolerance: { relative: 1e-8 },
    source: "moses1993",
    recomputedBy: "R 4.2.2 lm, cor; counts recalled from a paper of 2007, treat as plain numbers",
    memory: true,
  },
  {
    name: "the same, weighted by the variance of the log odds ratio",
    input: { studies: TEN, correction: "all", weights: "inverse_variance" },
    expect: {
      "line.intercept.value": 2.60423755638516,
      "line.slope.value": -0.574961598842588,
      "line.slopeP": 0.000178310269515969,
    },
    tolerance: { relative: 1e-8 },
    source: "littenberg1993",
    recomputedBy: "R 4.2.2 lm(weights = 1 / variance)",
    memory: true,
  },
];
