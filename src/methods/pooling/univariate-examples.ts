import type { WorkedExample } from "../../core/method.ts";

const TWELVE = [
  [45, 50],
  [62, 76],
  [28, 37],
  [90, 96],
  [33, 44],
  [71, 79],
  [54, 74],
  [19, 21],
  [120, 138],
  [40, 50],
  [66, 73],
  [85, 110],
].map(([count, total], place) => ({ label: `study ${place + 1}`, count, total }));

export const univariateExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "sensitivity in twelve studies: .845 in a typical one, sites .67 to .94",
    input: { studies: TWELVE, correction: "zero_cells" },
    expect: {
      "binomial.logOdds.value": 1.69835638687672,
      "binomial.standardError": 0.159164394634548,
      "binomial.betweenSd.value": 0.417686493613287,
      "binomial.logLikelihood": -34.8366132045421,
    },
    tolerance: { relative: 1e-6 },
    source: "hamza2008",
    recomputedBy: "R 4.2.2: integrate() for each study, optim, optimHess",
    memory: true,
  },
  {
    name: "the same by DerSimonian and Laird on the log odds",
    input: { studies: TWELVE, correction: "zero_cells" },
    expect: {
      "approximate.models.dersimonianLaird.summary.value": 1.65399647437041,
      "approximate.models.dersimonianLaird.betweenVariance": 0.171730840362998,
      "approximate.heterogeneity.iSquared": 0.604118846716499,
    },
    tolerance: { relative: 1e-8 },
    source: "dersimonian1986",
    recomputedBy: "R 4.2.2 base, by the formulas",
    memory: true,
  },
  {
    name: "all reactive everywhere: no log odds, the exact interval of all together remains",
    input: {
      studies: [
        { label: "north", count: 30, total: 30 },
        { label: "south", count: 20, total: 20 },
      ],
      correction: "none",
    },
    expect: { "binomial.logOdds.value": null, "common.proportion.lower": 0.9288782635358024 },
    tolerance: { relative: 1e-12 },
    source: "no publication: the exact lower limit of 50 of 50 is 0.025^(1/50)",
  },
];
