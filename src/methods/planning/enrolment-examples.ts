import type { WorkedExample } from "../../core/method.ts";

const enumerated =
  "R 4.2.2: people with the condition by dbinom or exp(lchoose + lbeta - lbeta), usable pairs given them by pbinom, summed; totals by halving";

export const enrolmentExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "189 with a condition of 2 %: 9,450 by division end short every second time",
    input: { positives: 189, negatives: 100, prevalence: { kind: "fixed", value: 0.02 } },
    options: { assurances: [0.9] },
    expect: {
      "naive.total": 9450,
      "naive.fallsShort": 0.49003329930928685,
      "targets.0.forPositives": 10332,
      "targets.0.forNegatives": 104,
      "targets.0.total": 10332,
      "targets.0.limiting": "positives",
    },
    tolerance: { relative: 1e-9 },
    source: "flahault2005",
    recomputedBy: enumerated,
    memory: true,
  },
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
  {
    name: "40 and 120, prevalence from 12 of 150, 2 % invalid and 5 % unverified",
    input: {
      positives: 40,
      negatives: 120,
      prevalence: { kind: "counts", positive: 12, total: 150 },
      losses: { invalid: 0.02, unverified: 0.05 },
    },
    options: { assurances: [0.8] },
    expect: {
      usable: 0.931,
      "prevalence.mean": 12.5 / 151,
      "naive.total": 520,
      "naive.fallsShort": 0.514781499275998,
      "targets.0.forPositives": 691,
      "targets.0.forNegatives": 145,
      "targets.0.total": 691,
    },
    tolerance: { relative: 1e-9 },
    source: "buderer1996",
    recomputedBy: enumerated,
    memory: true,
  },
  {
    name: "nobody has the condition",
    input: { positives: 5, negatives: 10, prevalence: { kind: "fixed", value: 0 } },
    options: { assurances: [0.8] },
    expect: { "naive.total": null, "targets.0.forPositives": null, "targets.0.total": null },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
