import type { WorkedExample } from "../../core/method.ts";

const R = "R 4.2.2: the two large-sample variances written out";

/** Kept beside `kappa.ts`, which would become too long to read. */
export const kappaExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "three categories, 100 items",
    input: {
      table: [
        [75, 1, 4],
        [5, 4, 1],
        [0, 0, 10],
      ],
    },
    expect: {
      observedAgreement: 0.89,
      expectedAgreement: 0.66,
      "kappa.value": 0.676470588235294,
      standardError: 0.0877029534752125,
      nullStandardError: 0.0761872579234625,
      "kappa.lower": 0.504575958086086,
      "kappa.upper": 0.848365218384503,
      z: 8.8790515195451,
    },
    tolerance: { relative: 1e-8 },
    source: "fleiss1981kappa",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "the same, to the digits recalled of the book",
    input: {
      table: [
        [75, 1, 4],
        [5, 4, 1],
        [0, 0, 10],
      ],
    },
    expect: { "kappa.value": 0.68 },
    tolerance: { decimals: 2 },
    source: "fleiss1981kappa",
    memory: true,
  },
  {
    name: "three categories with given weights, 200 items",
    input: {
      table: [
        [106, 10, 4],
        [22, 28, 10],
        [2, 12, 6],
      ],
    },
    options: {
      weights: [
        [1, 0, 0.4444],
        [0, 1, 0.6667],
        [0.4444, 0.6667, 1],
      ],
    },
    expect: {
      "kappa.value": 0.507069964866798,
      standardError: 0.0569938847032576,
      nullStandardError: 0.0653358845672637,
      "kappa.lower": 0.395364003509385,
      "kappa.upper": 0.618775926224211,
    },
    tolerance: { relative: 1e-8 },
    source: "fleiss1969",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "weights by how grave a confusion is, 200 items",
    input: {
      table: [
        [88, 14, 18],
        [10, 40, 10],
        [2, 6, 12],
      ],
    },
    options: {
      weights: [
        [1, 5 / 6, 0.5],
        [5 / 6, 1, 0],
        [0.5, 0, 1],
      ],
    },
    expect: { "kappa.value": 0.348 },
    tolerance: { decimals: 3 },
    source: "cohen1968",
    memory: true,
  },
  {
    name: "50 proposals, two readers",
    input: {
      table: [
        [20, 5],
        [10, 15],
      ],
    },
    expect: { observedAgreement: 0.7, expectedAgreement: 0.5, "kappa.value": 0.4 },
    tolerance: { relative: 1e-12 },
    source: "encyclopaedia_kappa",
    memory: true,
  },
  {
    name: "all agree on one answer: kappa does not exist",
    input: {
      table: [
        [0, 0],
        [0, 60],
      ],
    },
    expect: { observedAgreement: 1, "kappa.value": null, "kappa.lower": null, standardError: null },
    tolerance: { relative: 1e-8 },
    source: "no publication: by definition",
  },
];
