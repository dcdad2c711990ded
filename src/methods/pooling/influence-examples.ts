import type { WorkedExample } from "../../core/method.ts";
import { TWELVE } from "./bivariate-examples.ts";

export const influenceExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "twelve studies, full likelihood of logits",
    input: {
      studies: TWELVE,
      likelihood: { kind: "normal_ml", correction: "zero_cells" },
      criterion: null,
    },
    expect: {
      "without.0.sensitivity.value": 0.8380727340745181,
      "without.0.specificity.value": 0.9538632905318714,
      "without.0.spread.correlation": -0.645841622347,
      "without.2.distance": 0.5081052105166938,
      farthest: "study 3",
    },
    tolerance: { relative: 1e-6 },
    source: "cook1977",
    recomputedBy: "R 4.2.2, twelve fits by optim",
    memory: true,
  },
  {
    name: "the same, restricted likelihood, a correlation that runs to its border",
    input: {
      studies: TWELVE,
      likelihood: { kind: "normal_reml", correction: "zero_cells" },
      criterion: { sensitivity: 0.78, specificity: 0.9 },
    },
    expect: {
      "whole.verdict": "met",
      "without.2.sensitivity.value": 0.8529876617173752,
      "without.2.spread.sensitivity": 0.484079343817,
      "without.2.spread.correlation": -1,
    },
    tolerance: { relative: 1e-6 },
    source: "cook1977",
    recomputedBy: "R 4.2.2, twelve fits by optim",
    memory: true,
  },
];
