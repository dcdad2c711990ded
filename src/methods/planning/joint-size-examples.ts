import type { WorkedExample } from "../../core/method.ts";

export const jointSizeExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "99 % against at least 95 %, 97 % against at least 90 %, 80 % for both",
    input: {
      criteria: [
        { label: "analyte 1", expected: 0.99, threshold: 0.95, direction: "at_least" },
        { label: "analyte 2", expected: 0.97, threshold: 0.9, direction: "at_least" },
      ],
    },
    options: { horizon: 500 },
    expect: {
      "independent.eachPower": 0.89442719099991586,
      "independent.sizes.0.size.total": 202,
      "independent.sizes.0.size.needed": 198,
      "independent.sizes.1.size.total": 141,
      "independent.together": 0.88674337877974063,
      "guaranteed.eachPower": 0.9,
      "guaranteed.sizes.1.size.power": 0.9369248599407467,
      "guaranteed.together": 0.88336508870767294,
    },
    tolerance: { relative: 1e-9 },
    source: "berger1982",
    recomputedBy: "R 4.2.2: qbeta and pbinom at every total up to 500",
    memory: true,
  },
  {
    name: "95 % against at least 85 %, 90 % against at least 80 %, an even chance for both, Wilson",
    input: {
      criteria: [
        { label: "sensitivity", expected: 0.95, threshold: 0.85, direction: "at_least" },
        { label: "specificity", expected: 0.9, threshold: 0.8, direction: "at_least" },
      ],
    },
    options: { power: 0.5, horizon: 400, method: "wilson" },
    expect: {
      "independent.sizes.1.size.total": 93,
      "guaranteed.sizes.1.size.total": 100,
      "independent.together": 0.6533349431576568,
      "guaranteed.together": 0.6367552319909862,
    },
    tolerance: { relative: 1e-9 },
    source: "frechet1951",
    recomputedBy: "R 4.2.2: prop.test and pbinom at every total up to 400",
    memory: true,
  },
  {
    name: "a criterion that what is expected does not reach",
    input: {
      criteria: [
        { label: "analyte 1", expected: 0.99, threshold: 0.95, direction: "at_least" },
        { label: "analyte 2", expected: 0.89, threshold: 0.9, direction: "at_least" },
      ],
    },
    options: { horizon: 500 },
    expect: {
      "independent.sizes.0.size.total": 202,
      "independent.sizes.1.size.total": null,
      "independent.together": null,
      "guaranteed.together": null,
    },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
