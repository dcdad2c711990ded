import type { WorkedExample } from "../../core/method.ts";

const first = {
  positives: [2.1, 3.4, 1.8, 4.4, 5, 3.9, 2.7, 4.1],
  negatives: [1.2, 2.1, 0.8, 3.3, 1.8, 2.5, 1.1, 3.4, 0.9, 2.7],
  direction: "higher",
};
const second = {
  positives: [1.9, 2.2, 2.6, 3.1, 2.4, 4, 1.5, 2.9],
  negatives: [1.4, 2.5, 1.1, 2.2, 2, 1.7, 0.6, 3, 1.6, 2.1],
  direction: "higher",
};
const R = "R 4.2.2 base, placements written out";

export const compareExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two readings of the same eighteen people",
    input: { design: "paired", first, second },
    expect: {
      "difference.value": 0.06875,
      covariance: 0.00618303571428571,
      correlation: 0.546187142853261,
      standardError: 0.103335973468577,
      "difference.lower": -0.133784786305797,
      z: 0.66530558228985,
      p: 0.505855060852651,
    },
    tolerance: { relative: 1e-9 },
    source: "delong1988",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "the same, taken for different people",
    input: { design: "independent", first, second },
    expect: {
      "difference.value": 0.06875,
      standardError: 0.151803803777342,
      "difference.upper": 0.366279988119776,
      p: 0.650629966686266,
    },
    tolerance: { relative: 1e-9 },
    source: "delong1988",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "a reading against itself",
    input: { design: "paired", first, second: first },
    expect: { "difference.value": 0, standardError: 0, z: null, p: null },
    tolerance: { relative: 1e-12 },
    source: "no publication: nothing differs",
  },
];
