import type { WorkedExample } from "../../core/method.ts";

const small = {
  positives: [2.1, 3.4, 1.8, 4.4, 5, 3.9, 2.7, 4.1],
  negatives: [1.2, 2.1, 0.8, 3.3, 1.8, 2.5, 1.1, 3.4, 0.9, 2.7],
  direction: "higher",
};

export const cutoffExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "eight and ten readings, by Youden's index",
    input: { ...small, rule: { kind: "youden" } },
    expect: { "cutoff.value": 3.4, youden: 0.525, "sensitivity.value": 0.625, "specificity.value": 0.9 },
    tolerance: { relative: 1e-8 },
    source: "youden1950",
    recomputedBy: "R 4.2.2 base, every cutoff tried",
    memory: true,
  },
  {
    name: "no false positive allowed",
    input: { ...small, rule: { kind: "specificity_at_least", least: 1 } },
    expect: { "cutoff.value": 3.9, "sensitivity.value": 0.5, "specificity.value": 1, objective: 0.5 },
    tolerance: { relative: 1e-12 },
    source: "no publication: four of the eight lie above all ten",
  },
  {
    name: "a missed person as bad as twenty false alarms, prevalence one in ten",
    input: {
      ...small,
      rule: { kind: "cost", prevalence: 0.1, falsePositiveCost: 1, falseNegativeCost: 20 },
    },
    expect: { "cutoff.value": 1.8, "sensitivity.value": 1, objective: 0.54 },
    tolerance: { relative: 1e-12 },
    source: "no publication: 0.9 × 0.6 × 1, by hand",
  },
];
