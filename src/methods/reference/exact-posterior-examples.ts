import type { WorkedExample } from "../../core/method.ts";

const beta = (alpha: number, beta: number) => ({ alpha, beta });
const serology = { sensitivity: beta(21.96, 5.49), specificity: beta(4.1, 1.76) };
const stool = { sensitivity: beta(4.44, 13.31), specificity: beta(71.25, 3.75) };

export const exactExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "serology and stool examination, neither beyond doubt",
    input: {
      tests: ["serology", "stool"],
      populations: [
        {
          label: "refugees",
          patterns: [
            { reactive: [true, true], people: 38 },
            { reactive: [true, false], people: 87 },
            { reactive: [false, true], people: 2 },
            { reactive: [false, false], people: 35 },
          ],
        },
      ],
      priors: { tests: [serology, stool], populations: [beta(1, 1)] },
    },
    expect: {
      "populations.0.prevalence.median": 0.773304054540816,
      "populations.0.prevalence.lower": 0.518248103850068,
      "populations.0.prevalence.upper": 0.924536916280136,
      "tests.0.sensitivity.median": 0.888027745555019,
      "tests.0.specificity.median": 0.697297113880197,
      "tests.1.sensitivity.median": 0.305156113918269,
      "tests.1.specificity.median": 0.960394719104057,
    },
    tolerance: { relative: 1e-5 },
    source: "joseph1995",
    recomputedBy: "R 4.2.2: finite mixture of betas, quantiles by uniroot",
    memory: true,
  },
  {
    name: "serology alone",
    input: {
      tests: ["serology"],
      populations: [
        {
          label: "refugees",
          patterns: [
            { reactive: [true], people: 125 },
            { reactive: [false], people: 37 },
          ],
        },
      ],
      priors: { tests: [serology], populations: [beta(1, 1)] },
    },
    expect: {
      "populations.0.prevalence.median": 0.84474745046265,
      "populations.0.prevalence.lower": 0.224604423499134,
      "populations.0.prevalence.upper": 0.99094556087651,
      "tests.0.sensitivity.median": 0.828746453250075,
      "tests.0.specificity.median": 0.618809352191094,
    },
    tolerance: { relative: 1e-5 },
    source: "no publication: the posterior recomputed",
    recomputedBy: "R 4.2.2: finite mixture of betas, quantiles by uniroot",
  },
];
