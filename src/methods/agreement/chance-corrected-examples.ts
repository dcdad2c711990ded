import type { WorkedExample } from "../../core/method.ts";

const R = "R 4.2.2: closed forms";

/** Kept beside `chance-corrected.ts`, which would become too long to read. */
export const chanceCorrectedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "balanced answers: all coefficients agree",
    input: {
      table: [
        [40, 9],
        [6, 45],
      ],
    },
    expect: {
      "observedAgreement.value": 0.85,
      "kappa.value": 0.699519230769231,
      "pabak.value": 0.7,
      prevalenceIndex: -0.05,
      biasIndex: 0.03,
      "scottPi.value": 0.699248120300752,
      "ac1.value": 0.700748129675811,
      "krippendorffAlpha.value": 0.700751879699248,
      paradox: "none",
    },
    tolerance: { relative: 1e-8 },
    source: "feinstein1990",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "the same agreement, one answer rare: the first paradox",
    input: {
      table: [
        [80, 10],
        [5, 5],
      ],
    },
    expect: { "observedAgreement.value": 0.85, "kappa.value": 0.32, paradox: "prevalence" },
    tolerance: { decimals: 2 },
    source: "feinstein1990",
    memory: true,
  },
  {
    name: "60 % agreement, unlike readers: the second paradox",
    input: {
      table: [
        [25, 35],
        [5, 35],
      ],
    },
    expect: {
      "kappa.value": 0.259259259259259,
      biasIndex: 0.3,
      "ac1.value": 0.207920792079208,
      paradox: "bias",
    },
    tolerance: { relative: 1e-8 },
    source: "feinstein1990",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "125 items, none that both call negative",
    input: {
      table: [
        [118, 5],
        [2, 0],
      ],
    },
    expect: { "kappa.value": -0.023, "scottPi.value": -0.029, "ac1.value": 0.941, "pabak.value": 0.888 },
    tolerance: { decimals: 3 },
    source: "gwet2008",
    memory: true,
  },
  {
    name: "everybody non-reactive to both: kappa does not exist, PABAK and AC1 are 1",
    input: {
      table: [
        [0, 0],
        [0, 60],
      ],
    },
    expect: { "kappa.value": null, "scottPi.value": null, "pabak.value": 1, "ac1.value": 1, paradox: null },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];
