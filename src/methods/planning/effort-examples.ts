import type { WorkedExample } from "../../core/method.ts";

export const effortExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "60 people at one site with 3 a day",
    input: { total: 60, sites: [{ label: "A", perDay: 3 }] },
    expect: { "days.expected": 20, "bySite.0.people": 60, kits: 60, "cost.total": 0 },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];
