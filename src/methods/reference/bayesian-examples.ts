import type { WorkedExample } from "../../core/method.ts";

const four = (both: number, first: number, second: number, neither: number) => [
  { reactive: [true, true], people: both },
  { reactive: [true, false], people: first },
  { reactive: [false, true], people: second },
  { reactive: [false, false], people: neither },
];
const beta = (alpha: number, other: number) => ({ alpha, beta: other });
const FLAT = { sensitivity: beta(1, 1), specificity: beta(1, 1) };

export const bayesianExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two tests in one population, resting on priors",
    input: {
      tests: ["serology", "stool"],
      populations: [{ label: "all", patterns: four(38, 87, 2, 35) }],
      dependence: { kind: "independent" },
      priors: {
        tests: [
          { sensitivity: beta(21.96, 5.49), specificity: beta(4.1, 1.76) },
          { sensitivity: beta(4.44, 13.31), specificity: beta(71.25, 3.75) },
        ],
        populations: [beta(1, 1)],
      },
    },
    options: { draws: 20_000 },
    // Exact: a finite mixture of beta distributions over all latent counts.
    expect: {
      "populations.0.prevalence.mean": 0.758992818392517,
      "populations.0.prevalence.median": 0.773304054540816,
      "tests.0.sensitivity.mean": 0.883895898054343,
      "tests.1.sensitivity.mean": 0.310332762066873,
      "tests.1.specificity.mean": 0.957052456726342,
      "identified.rank": 3,
    },
    tolerance: { relative: 0.005 },
    source: "joseph1995",
    recomputedBy: "R 4.2.2 base/stats, exact mixture",
    memory: true,
  },
  {
    name: "two tests in two populations, flat priors",
    input: {
      tests: ["intradermal", "multiple puncture"],
      populations: [
        { label: "school children", patterns: four(14, 4, 9, 528) },
        { label: "patients", patterns: four(887, 31, 37, 367) },
      ],
      dependence: { kind: "independent" },
      priors: { tests: [FLAT, FLAT], populations: [beta(1, 1), beta(1, 1)] },
    },
    options: { draws: 20_000 },
    // 4 chains of 25,000 draws; Monte Carlo error about 0.00003.
    expect: {
      "populations.0.prevalence.mean": 0.0286,
      "populations.1.prevalence.mean": 0.7154,
      "tests.0.sensitivity.mean": 0.9658,
      "tests.1.sensitivity.mean": 0.9685,
      "tests.0.specificity.mean": 0.9915,
      "tests.1.specificity.mean": 0.9824,
    },
    tolerance: { relative: 0.01 },
    source: "hui1980",
    recomputedBy: "JAGS 4.3.1",
    memory: true,
  },
];
