import type { WorkedExample } from "../../core/method.ts";

/** Rows of true positives, false negatives, false positives, true negatives. */
const studiesOf = (rows: readonly (readonly [number, number, number, number])[]) =>
  rows.map(([truePositives, falseNegatives, falsePositives, trueNegatives], place) => ({
    label: `study ${place + 1}`,
    truePositives,
    falsePositives,
    falseNegatives,
    trueNegatives,
  }));

export const TWELVE = studiesOf([
  [45, 5, 6, 94],
  [62, 14, 3, 137],
  [28, 9, 12, 88],
  [90, 6, 9, 211],
  [33, 11, 2, 98],
  [71, 8, 15, 165],
  [54, 20, 4, 146],
  [19, 2, 8, 62],
  [120, 18, 10, 290],
  [40, 10, 1, 79],
  [66, 7, 14, 136],
  [85, 25, 5, 245],
]);

const BLADDER = studiesOf([
  [25, 8, 1, 25],
  [17, 4, 3, 11],
  [88, 16, 16, 31],
  [16, 10, 3, 80],
  [40, 17, 1, 137],
  [38, 9, 6, 24],
  [23, 19, 0, 12],
  [27, 6, 2, 18],
  [14, 7, 3, 29],
  [37, 7, 22, 7],
]);

export const bivariateExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "twelve studies, exact likelihood",
    input: { studies: TWELVE, covariate: null, likelihood: { kind: "binomial" } },
    expect: {
      "summary.sensitivity.proportion.value": 0.849671682135179,
      "summary.sensitivity.proportion.lower": 0.804966472315839,
      "summary.specificity.proportion.value": 0.95609419057974,
      "summary.specificity.proportion.upper": 0.971260574595239,
      "betweenStudies.sensitivity.value": 0.417605668445568,
      "betweenStudies.correlation.value": -0.733844127881873,
      "hierarchical.shape.value": 0.419984049530203,
      "hierarchical.accuracy.value": 4.63402410606293,
      "fit.logLikelihood": -68.159586033964,
    },
    tolerance: { relative: 2e-6 },
    source: "chu2006",
    recomputedBy: "R 4.2.2, own adaptive quadrature of 21 by 21 places and optim",
    memory: true,
  },
  {
    name: "twelve studies, restricted likelihood of logits",
    input: {
      studies: TWELVE,
      covariate: null,
      likelihood: { kind: "normal_reml", correction: "zero_cells" },
    },
    expect: {
      "summary.sensitivity.logit.value": 1.68507823547284,
      "summary.specificity.logit.value": 3.00540643738351,
      "betweenStudies.specificity.value": 0.654699742134672,
      "fit.logLikelihood": -24.0350227684177,
    },
    tolerance: { relative: 1e-6 },
    source: "reitsma2005",
    recomputedBy: "R 4.2.2 optim",
    memory: true,
  },
  {
    name: "a correlation at its border, as printed",
    input: {
      studies: BLADDER,
      covariate: null,
      likelihood: { kind: "normal_ml", correction: "zero_cells" },
    },
    expect: { "betweenStudies.correlation.value": -1 },
    tolerance: { decimals: 2 },
    source: "riley2007",
    recomputedBy: "R 4.2.2 optim",
    memory: true,
  },
];
