import type { WorkedExample } from "../../core/method.ts";

const PRINTED = { first: { count: 56, total: 70 }, second: { count: 48, total: 80 } };
const RATIO = { first: { count: 36, total: 40 }, second: { count: 16, total: 80 } };

/** Worked examples of `comparison.unpaired`. */
export const unpairedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "56 of 70 against 48 of 80, score interval",
    input: PRINTED,
    expect: {
      "difference.value": 0.2,
      "difference.lower": 0.0528297132458447,
      "difference.upper": 0.338172940015868,
    },
    tolerance: { relative: 1e-9 },
    source: "miettinen1985",
    recomputedBy: "R 4.2.2 uniroot on the score statistic; statsmodels 0.13.5",
    memory: true,
  },
  {
    name: "the same, printed digits of the score interval without correction",
    input: PRINTED,
    options: { differenceInterval: "mee" },
    expect: { "difference.lower": 0.0533, "difference.upper": 0.3377 },
    tolerance: { decimals: 4 },
    source: "newcombe1998difference",
    memory: true,
  },
  {
    name: "10 of 10 against 0 of 20: one of each added leaves -1..1 unless cut",
    input: { first: { count: 10, total: 10 }, second: { count: 0, total: 20 } },
    options: { differenceInterval: "agresti_caffo", truncate: false },
    expect: { "difference.lower": 0.692243237883191, "difference.upper": 1.05018100454105 },
    tolerance: { relative: 1e-9 },
    source: "agresti2000",
    recomputedBy: "R 4.2.2, closed form; statsmodels 0.13.5",
    memory: true,
  },
  {
    name: "ratio 36 of 40 to 16 of 80, printed digits",
    input: RATIO,
    expect: { "ratio.value": 4.5, "ratio.lower": 2.94, "ratio.upper": 7.15 },
    tolerance: { decimals: 2 },
    source: "koopman1984",
    memory: true,
  },
  {
    name: "the same ratio with the chi-square shrunk",
    input: RATIO,
    options: { ratioInterval: "miettinen_nurminen" },
    expect: { "ratio.lower": 2.9346464594878, "ratio.upper": 7.16629829946033 },
    tolerance: { relative: 1e-9 },
    source: "miettinen1985",
    recomputedBy: "R 4.2.2 uniroot on the score statistic",
    memory: true,
  },
];
