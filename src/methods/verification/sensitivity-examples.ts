import type { WorkedExample } from "../../core/method.ts";

const recomputedBy =
  "R 4.2.2 base/stats: uniroot, errors by numerical derivatives (tests/reference/scripts/second-opinion-verification.R)";

const strata = [
  {
    label: "everybody",
    reactive: { diseased: 231, nondiseased: 32, unverified: 166 },
    nonreactive: { diseased: 27, nondiseased: 54, unverified: 140 },
  },
];

/** The published liver scan study (recalled counts): borders of demands made up for it. */
export const sensitivityExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "sensitivity of 80 %, by the estimate",
    input: { strata, criterion: { measure: "sensitivity", threshold: 0.8, direction: "at_least" } },
    options: { rule: "point" },
    expect: {
      "atRandom.value": 0.8364667154352596,
      verdict: "met",
      "axes.nonreactive.borders.0.oddsRatio": 0.5416578258717025,
      "axes.nonreactive.borders.0.below": "not_met",
      "axes.nonreactive.holds.from": 0.5416578258717025,
      "axes.nonreactive.holds.to": 10,
    },
    tolerance: { relative: 1e-9 },
    source: "begg1983",
    recomputedBy,
    memory: true,
  },
  {
    name: "sensitivity of 75 %, by the interval",
    input: { strata, criterion: { measure: "sensitivity", threshold: 0.75, direction: "at_least" } },
    expect: {
      verdict: "met",
      "axes.nonreactive.borders.0.oddsRatio": 0.583531573707053,
      "axes.nonreactive.borders.0.below": "undecided",
    },
    tolerance: { relative: 1e-7 },
    source: "begg1983",
    recomputedBy,
    memory: true,
  },
  {
    name: "specificity of 70 %, by the estimate",
    input: { strata, criterion: { measure: "specificity", threshold: 0.7, direction: "at_least" } },
    options: { rule: "point" },
    expect: {
      verdict: "met",
      "axes.reactive.borders.0.oddsRatio": 1.6670418432203435,
      "axes.reactive.borders.0.above": "not_met",
    },
    tolerance: { relative: 1e-9 },
    source: "begg1983",
    recomputedBy,
    memory: true,
  },
];
