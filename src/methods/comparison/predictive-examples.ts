import type { WorkedExample } from "../../core/method.ts";

const CORONARY = {
  positives: { both: 786, firstOnly: 29, secondOnly: 183, neither: 25 },
  negatives: { both: 69, firstOnly: 46, secondOnly: 176, neither: 151 },
};

/** Worked examples of `comparison.paired_predictive_values`. */
export const predictiveExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "exercise test against history of chest pain, 1,465 people",
    input: CORONARY,
    expect: {
      "ppv.difference.value": 0.0781562771252945,
      "ppv.difference.lower": 0.0558983522475053,
      "ppv.difference.upper": 0.100414202003084,
      "ppv.generalisedScore.chiSquare": 47.5813179735422,
      "ppv.weightedScore.chiSquare": 43.1885052384345,
      "ppv.weightedScore.pValue": 4.97118769698182e-11,
      "ppv.ratio.value": 1.09791715214665,
      "ppv.ratio.lower": 1.06879820257348,
      "ppv.ratio.upper": 1.12782943503776,
      "npv.difference.value": -0.173645604497896,
      "npv.generalisedScore.chiSquare": 39.5222145624142,
      "npv.weightedScore.chiSquare": 34.0575830384462,
    },
    tolerance: { relative: 1e-8 },
    source: "kosinski2013",
    recomputedBy: "R 4.2.2 and Python, formulas written from their definition",
    memory: true,
  },
  {
    name: "the same, printed digits",
    input: CORONARY,
    expect: {
      "ppv.first.value": 0.88,
      "ppv.second.value": 0.8,
      "npv.first.value": 0.61,
      "npv.second.value": 0.78,
    },
    tolerance: { decimals: 2 },
    source: "pepe2003",
    memory: true,
  },
  {
    name: "nobody reactive on both: the weighted score is Pearson's chi-square",
    input: {
      positives: { both: 0, firstOnly: 30, secondOnly: 25, neither: 12 },
      negatives: { both: 0, firstOnly: 10, secondOnly: 20, neither: 40 },
    },
    expect: {
      "ppv.weightedScore.chiSquare": 3.50589225589225,
      "ppv.weightedScore.pValue": 0.0611508975760676,
    },
    tolerance: { relative: 1e-8 },
    source: "kosinski2013",
    recomputedBy: "R 4.2.2 chisq.test(rbind(c(30, 10), c(25, 20)), correct = FALSE)",
    memory: true,
  },
  {
    name: "a test compared with itself",
    input: {
      positives: { both: 50, firstOnly: 0, secondOnly: 0, neither: 10 },
      negatives: { both: 5, firstOnly: 0, secondOnly: 0, neither: 100 },
    },
    expect: {
      "ppv.difference.value": 0,
      "ppv.difference.lower": null,
      "ppv.ratio.value": 1,
      "ppv.weightedScore.pValue": 1,
      "npv.generalisedScore.pValue": 1,
    },
    tolerance: { relative: 1e-8 },
    source: "no publication: by definition",
  },
];
