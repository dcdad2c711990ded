import type { WorkedExample } from "../../core/method.ts";

const recomputedBy = "R 4.2.2 base/stats: closed forms; limits by binom.test";

const scan = {
  reactive: { diseased: 231, nondiseased: 32, unverified: 166 },
  nonreactive: { diseased: 27, nondiseased: 54, unverified: 140 },
};

/** The published liver scan study (recalled counts): the extremes are arithmetic. */
export const boundsExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "650 people, 344 verified: nothing assumed",
    input: scan,
    expect: {
      "sensitivity.lowest.value": 0.580402010050251,
      "sensitivity.highest.value": 0.936320754716981,
      "specificity.lowest.value": 0.214285714285714,
      "specificity.highest.value": 0.858407079646018,
    },
    tolerance: { relative: 1e-8 },
    source: "begg1983",
    recomputedBy,
    memory: true,
  },
  {
    name: "nobody nonreactive verified, one in ten of them diseased at most",
    input: {
      reactive: { diseased: 90, nondiseased: 10, unverified: 0 },
      nonreactive: { diseased: 0, nondiseased: 0, unverified: 900 },
    },
    options: { unverifiedNonreactive: { lowest: 0, highest: 0.1 } },
    expect: {
      "sensitivity.lowest.count": 90,
      "sensitivity.lowest.total": 180,
      "sensitivity.lowest.value": 0.5,
      "sensitivity.highest.value": 1,
      "specificity.lowest.value": 0.98780487804878,
    },
    tolerance: { relative: 1e-10 },
    source: "no publication: arithmetic, 90 / (90 + 90) and 810 / 820",
    recomputedBy,
  },
];
