import type { WorkedExample } from "../../core/method.ts";

const small = {
  positives: [2.1, 3.4, 1.8, 4.4, 5, 3.9, 2.7, 4.1],
  negatives: [1.2, 2.1, 0.8, 3.3, 1.8, 2.5, 1.1, 3.4, 0.9, 2.7],
  direction: "higher",
};

export const curveExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "eight and ten readings with ties",
    input: small,
    options: { truncate: false },
    expect: {
      "area.value": 0.8375,
      "area.standardError": 0.0968245836551854,
      "area.wald.lower": 0.647727303217751,
      "area.wald.upper": 1.02727269678225,
      "area.logit.lower": 0.561023525533556,
      "area.logit.upper": 0.954094137323046,
      "rankSum.u": 67,
    },
    tolerance: { relative: 1e-8 },
    source: "delong1988",
    recomputedBy: "R 4.2.2 wilcox.test and placements",
    memory: true,
  },
  {
    name: "lower readings speak for the condition: the same, turned round",
    input: {
      positives: small.positives.map((reading) => 10 - reading),
      negatives: small.negatives.map((reading) => 10 - reading),
      direction: "lower",
    },
    expect: { "area.value": 0.8375, "rankSum.u": 67 },
    tolerance: { relative: 1e-9 },
    source: "no publication: the first example mirrored",
  },
  {
    name: "nobody without the condition",
    input: { positives: [3, 4], negatives: [], direction: "higher" },
    expect: { "area.value": null, "rankSum.u": null, positives: 2 },
    tolerance: { relative: 1e-12 },
    source: "no publication: there are no pairs to compare",
  },
];
