import type { WorkedExample } from "../../core/method.ts";

const four = (both: number, first: number, second: number, neither: number) => [
  { reactive: [true, true], people: both },
  { reactive: [true, false], people: first },
  { reactive: [false, true], people: second },
  { reactive: [false, false], people: neither },
];

export const latentExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two skin tests in two populations, as printed",
    input: {
      tests: ["intradermal", "multiple puncture"],
      populations: [
        { label: "school children", patterns: four(14, 4, 9, 528) },
        { label: "patients", patterns: four(887, 31, 37, 367) },
      ],
      dependence: { kind: "independent" },
    },
    options: { interval: "wald" },
    expect: {
      "populations.0.prevalence.estimate.value": 0.0268,
      "populations.1.prevalence.estimate.value": 0.7168,
      "tests.0.sensitivity.estimate.value": 1 - 0.0339,
      "tests.1.sensitivity.estimate.value": 1 - 0.0312,
      "tests.0.specificity.estimate.value": 1 - 0.0067,
      "tests.1.specificity.estimate.value": 1 - 0.0159,
    },
    tolerance: { decimals: 4 },
    source: "hui1980",
    recomputedBy: "R 4.2.2 optim and optimHess",
    memory: true,
  },
  {
    name: "two tests in one population say nothing",
    input: {
      tests: ["kit", "reference"],
      populations: [{ label: "all", patterns: four(30, 6, 4, 160) }],
      dependence: { kind: "independent" },
    },
    expect: {
      "fit.freeCounts": 3,
      "fit.unknowns": 5,
      "fit.rank": 3,
      "tests.0.sensitivity.estimate.value": null,
      "populations.0.prevalence.estimate.value": null,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: four counts with a fixed sum leave three free",
  },
];
