import type { WorkedExample } from "../../core/method.ts";

export const tippingExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "nobody observed",
    input: {
      counts: { bothReactive: 0, kitOnly: 0, referenceOnly: 0, neither: 0 },
      criterion: { measure: "sensitivity", threshold: 0.95, direction: "at_least" },
      reference: { sensitivity: 1, specificity: 1 },
      covariance: { diseased: 0, nondiseased: 0 },
      grid: { sensitivities: [], specificities: [], covariances: [] },
    },
    expect: { "believed.verdict": "not_estimable" },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
