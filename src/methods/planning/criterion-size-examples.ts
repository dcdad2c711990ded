import type { WorkedExample } from "../../core/method.ts";

const R_SEARCH = "R 4.2.2: qbeta(.05, x, n - x + 1), dbinom, over every total";
const ONE_SIDED = { rule: "one_sided", power: 0.95 };

export const criterionSizeExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "90 % expected, at least 80 % demanded, one-sided exact limit, power 95 %",
    input: { expected: 0.9, threshold: 0.8, direction: "at_least" },
    options: ONE_SIDED,
    expect: { "first.total": 135, "stays.total": 147 },
    tolerance: { relative: 0 },
    source: "flahault2005",
    recomputedBy: R_SEARCH,
    memory: true,
  },
  {
    name: "99 % expected, at least 95 % demanded, one-sided exact limit, power 95 %",
    input: { expected: 0.99, threshold: 0.95, direction: "at_least" },
    options: ONE_SIDED,
    expect: { "first.total": 181, "stays.total": 208, fewest: 59 },
    tolerance: { relative: 0 },
    source: "flahault2005",
    recomputedBy: R_SEARCH,
    memory: true,
  },
  {
    name: "no better than demanded",
    input: { expected: 0.95, threshold: 0.95, direction: "at_least" },
    expect: { "first.total": null, "stays.total": null, fewest: 72 },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
