import type { WorkedExample } from "../../core/method.ts";

const TWO_ANALYTES = {
  criteria: [
    { label: "analyte 1", expected: 0.98, threshold: 0.9, direction: "at_least", total: 60 },
    { label: "analyte 2", expected: 0.97, threshold: 0.9, direction: "at_least", total: 75 },
  ],
  shared: 40,
  correlation: 0.3,
};
const RECOMPUTED = "R 4.2.2: qbeta, every table of four cells of the shared people, pbinom for the others";

export const jointPowerExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "98 % and 97 % against at least 90 %, 60 and 75 people, 40 of them shared",
    input: TWO_ANALYTES,
    expect: {
      "each.0.power": 0.66190392966206446,
      "each.1.power": 0.60833451878323319,
      "together.stated": 0.4312680104000628,
      "together.independent": 0.40265900853170444,
      "together.lowest": 0.40027960443287885,
      "together.highest": 0.48329262556842201,
    },
    tolerance: { relative: 1e-9 },
    source: "aitken1936",
    recomputedBy: RECOMPUTED,
    memory: true,
  },
  {
    name: "95 % against at least 85 %, and 2 % against at most 10 %",
    input: {
      criteria: [
        { label: "sensitivity", expected: 0.95, threshold: 0.85, direction: "at_least", total: 80 },
        { label: "invalid", expected: 0.02, threshold: 0.1, direction: "at_most", total: 90 },
      ],
      shared: 70,
      correlation: 0.2,
    },
    expect: {
      "each.1.power": 0.89325241331872984,
      "together.stated": 0.71627004425107221,
      "together.lowest": 0.70321781738126998,
      "together.highest": 0.74463164682637828,
    },
    tolerance: { relative: 1e-9 },
    source: "aitken1936",
    recomputedBy: RECOMPUTED,
    memory: true,
  },
  {
    name: "a correlation that the proportions don't allow",
    input: { ...TWO_ANALYTES, correlation: 0.9 },
    expect: { "together.stated": null, "together.highest": 0.48329262556842201 },
    tolerance: { relative: 1e-9 },
    source: "frechet1951",
    recomputedBy: RECOMPUTED,
    memory: true,
  },
];
