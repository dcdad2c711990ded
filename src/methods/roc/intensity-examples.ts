import type { WorkedExample } from "../../core/method.ts";

const small = {
  positives: [2.1, 3.4, 1.8, 4.4, 5, 3.9, 2.7, 4.1],
  negatives: [1.2, 2.1, 0.8, 3.3, 1.8, 2.5, 1.1, 3.4, 0.9, 2.7],
};

export const intensityExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "eight and ten readings",
    input: { ...small, minutes: null },
    expect: {
      "groups.0.p05": 1.905,
      "groups.0.p25": 2.55,
      "groups.0.median": 3.65,
      "groups.0.p75": 4.175,
      "groups.0.p95": 4.79,
      largestGap: 0.525,
    },
    tolerance: { relative: 1e-12 },
    source: "hyndman1996",
    recomputedBy: "R 4.2.2 quantile (type 7), ks.test",
    memory: true,
  },
  {
    name: "read at minute 10 or 20",
    input: {
      ...small,
      minutes: {
        positives: [10, 10, 10, 10, 20, 20, 20, 20],
        negatives: [10, 10, 10, 10, 10, 20, 20, 20, 20, 40],
        edges: [10, 15, 20],
      },
    },
    expect: { "bands.0.median": 2.75, "bands.3.readings": 4, outsideBands: 1 / 18 },
    tolerance: { relative: 1e-12 },
    source: "no publication: counted by hand",
  },
];
