import type { WorkedExample } from "../../core/method.ts";

export const precisionExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "textbook formula: .98 within .02",
    input: { expected: 0.98, halfWidth: 0.02 },
    expect: { "normal.total": 189 },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
    recomputedBy: "R 4.2.2: ceiling(qnorm(.975)^2 * .98 * .02 / .02^2)",
  },
];
