import type { WorkedExample } from "../../core/method.ts";

export const enrolmentExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "one person with a condition of 5 %",
    input: { positives: 1, negatives: 0, prevalence: { kind: "fixed", value: 0.05 } },
    options: { assurances: [0.95] },
    expect: { "naive.total": 20, "targets.0.forPositives": 59, "targets.0.total": 59 },
    tolerance: { relative: 0 },
    source: "flahault2005",
    recomputedBy: "R 4.2.2: ceiling(log(.05) / log(.95))",
    memory: true,
  },
];
