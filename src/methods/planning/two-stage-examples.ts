import type { WorkedExample } from "../../core/method.ts";

const recomputedBy =
  "R 4.2.2: every design tried, with dbinom and pbinom (tests/reference/scripts/second-opinion-planning-stopping.R)";

/** Rows of the published table (recalled: borders, people on average, probability of stopping early), and high proportions. */
export const twoStageExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "5 % against 25 %, error 5 %, power 80 %: the table's row",
    input: { unacceptable: 0.05, expected: 0.25 },
    options: { error: 0.05, power: 0.8 },
    expect: {
      "smallestExpected.looks.0.failAt": 0,
      "smallestExpected.looks.0.total": 9,
      "smallestExpected.looks.1.failAt": 2,
      "smallestExpected.looks.1.total": 17,
      "smallestExpected.expectedTotal": 12,
      "minimax.looks.0.failAt": 0,
      "minimax.looks.0.total": 12,
      "minimax.looks.1.failAt": 2,
      "minimax.looks.1.total": 16,
      "minimax.expectedTotal": 13.8,
    },
    tolerance: { decimals: 1 },
    source: "simon1989",
    recomputedBy,
    memory: true,
  },
  {
    name: "5 % against 25 %: probability of stopping early, as printed",
    input: { unacceptable: 0.05, expected: 0.25 },
    options: { error: 0.05, power: 0.8 },
    expect: { "smallestExpected.stopsEarly": 0.63, "minimax.stopsEarly": 0.54 },
    tolerance: { decimals: 2 },
    source: "simon1989",
    recomputedBy,
    memory: true,
  },
  {
    name: "10 % against 30 %, error 5 %, power 80 %: the table's row",
    input: { unacceptable: 0.1, expected: 0.3 },
    options: { error: 0.05, power: 0.8 },
    expect: {
      "smallestExpected.looks.0.failAt": 1,
      "smallestExpected.looks.0.total": 10,
      "smallestExpected.looks.1.failAt": 5,
      "smallestExpected.looks.1.total": 29,
      "smallestExpected.expectedTotal": 15,
      "minimax.looks.0.failAt": 1,
      "minimax.looks.0.total": 15,
      "minimax.looks.1.failAt": 5,
      "minimax.looks.1.total": 25,
      "minimax.expectedTotal": 19.5,
    },
    tolerance: { decimals: 1 },
    source: "simon1989",
    recomputedBy,
    memory: true,
  },
  {
    name: "10 % against 30 %: probability of stopping early, as printed",
    input: { unacceptable: 0.1, expected: 0.3 },
    options: { error: 0.05, power: 0.8 },
    expect: { "smallestExpected.stopsEarly": 0.74, "minimax.stopsEarly": 0.55 },
    tolerance: { decimals: 2 },
    source: "simon1989",
    recomputedBy,
    memory: true,
  },
];
