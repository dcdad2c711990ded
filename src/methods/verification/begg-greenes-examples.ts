import type { WorkedExample } from "../../core/method.ts";

const recomputedBy = "R 4.2.2 base/stats: closed forms with qnorm and plogis";

const scan = {
  strata: [
    {
      label: "everybody",
      reactive: { diseased: 231, nondiseased: 32, unverified: 166 },
      nonreactive: { diseased: 27, nondiseased: 54, unverified: 140 },
    },
  ],
};
const oneInEight = {
  strata: [
    {
      label: "everybody",
      reactive: { diseased: 180, nondiseased: 20, unverified: 0 },
      nonreactive: { diseased: 5, nondiseased: 95, unverified: 700 },
    },
  ],
};

/** The published liver scan study (recalled), and a study in which one nonreactive person in eight is verified. */
export const beggGreenesExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "650 people, 344 verified: as printed",
    input: scan,
    expect: {
      "verifiedOnly.sensitivity.value": 0.9,
      "verifiedOnly.specificity.value": 0.63,
      "sensitivity.value": 0.84,
      "specificity.value": 0.74,
    },
    tolerance: { decimals: 2 },
    source: "begg1983",
    recomputedBy,
    memory: true,
  },
  {
    name: "650 people, 344 verified: limits in full",
    input: scan,
    expect: {
      "sensitivity.value": 0.83646671543526,
      "sensitivity.lower": 0.782646518497574,
      "sensitivity.upper": 0.879020190063653,
      "specificity.value": 0.738398018166804,
      "specificity.lower": 0.655507713017367,
      "specificity.upper": 0.807209516839274,
      "prevalence.value": 0.693029150823828,
      "standardErrors.sensitivity": 0.0244980312632477,
      "standardErrors.specificity": 0.0388626799225392,
    },
    tolerance: { relative: 1e-8 },
    source: "begg1983",
    recomputedBy,
    memory: true,
  },
  {
    name: "all reactive verified, one in eight of the nonreactive",
    input: oneInEight,
    expect: {
      "verifiedOnly.sensitivity.value": 0.972972972972973,
      "sensitivity.value": 0.818181818181818,
      "sensitivity.lower": 0.653527924919745,
      "sensitivity.upper": 0.914789689852136,
      "specificity.value": 0.974358974358974,
    },
    tolerance: { relative: 1e-8 },
    source: "no publication: made up",
    recomputedBy,
  },
];
