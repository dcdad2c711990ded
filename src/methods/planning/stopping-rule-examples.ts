import type { WorkedExample } from "../../core/method.ts";

const plan = [
  { total: 10, failAt: 1 },
  { total: 29, passFrom: 6, failAt: 5 },
];

/** A published plan followed through, and a rule so short that it can be followed by hand. */
export const stoppingRuleExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "the published two-stage plan 1/10, 5/29 at 10 % and 30 %",
    input: { looks: plan, truths: [0.1, 0.3] },
    options: { draws: 1_000 },
    expect: {
      "truths.0.pass": 0.04708630664389121,
      "truths.0.expectedTotal": 15.0141203471,
      "truths.0.stopsAt.0.probability": 0.7360989291,
      "truths.1.pass": 0.8050629131503241,
    },
    tolerance: { relative: 1e-12 },
    source: "simon1989",
    recomputedBy: "R 4.2.2: dbinom and pbinom, summed over the first look's results",
    memory: true,
  },
  {
    name: "two looks of two people each, a fair coin",
    input: {
      looks: [
        { total: 2, passFrom: 2, failAt: 0 },
        { total: 4, passFrom: 3, failAt: 2 },
      ],
      truths: [0.5],
    },
    options: { draws: 1_000 },
    expect: {
      "truths.0.pass": 0.375,
      "truths.0.fail": 0.625,
      "truths.0.expectedTotal": 3,
      "truths.0.stopsAt.0.probability": 0.5,
    },
    tolerance: { relative: 1e-15 },
    source: "no publication: 1/4 at once, and 1/2 times 1/4 at the end",
  },
];
