import type { WorkedExample } from "../../core/method.ts";

/** The published liver scan study (recalled counts), and a study in which everybody was verified. */
export const imputedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "650 people, 344 verified: 20,000 completed tables",
    input: {
      strata: [
        {
          label: "everybody",
          reactive: { diseased: 231, nondiseased: 32, unverified: 166 },
          nonreactive: { diseased: 27, nondiseased: 54, unverified: 140 },
        },
      ],
    },
    options: { imputations: 20_000, seed: 1 },
    expect: {
      "sensitivity.value": 0.836171,
      "specificity.value": 0.737115,
      "prevalence.value": 0.693095,
      "ppv.value": 0.877766,
    },
    tolerance: { decimals: 3 },
    source: "begg1983",
    recomputedBy:
      "R 4.2.2 base/stats: 400,000 tables by rbeta and rbinom (tests/reference/scripts/second-opinion-verification.R)",
    memory: true,
  },
  {
    name: "everybody verified: the score interval of 45 of 50",
    input: {
      strata: [
        {
          label: "everybody",
          reactive: { diseased: 45, nondiseased: 3, unverified: 0 },
          nonreactive: { diseased: 5, nondiseased: 147, unverified: 0 },
        },
      ],
    },
    expect: {
      "sensitivity.value": 0.9,
      "sensitivity.lower": 0.786397685625204,
      "sensitivity.upper": 0.95652423506811,
      "sensitivity.missingShare": 0,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: made up",
    recomputedBy: "R 4.2.2 base/stats: prop.test(45, 50, correct = FALSE)",
  },
];
