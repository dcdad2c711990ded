import type { WorkedExample } from "../../core/method.ts";
import { presetSteps } from "./presets.ts";

const value = (known: number) => ({ kind: "value" as const, value: known });
const kit = (id: string) => ({
  id,
  sensitivity: value(0.99),
  specificity: value(0.98),
  invalid: value(0),
  price: value(1),
});
const TWO_KITS = {
  kits: [kit("first"), kit("second")],
  steps: presetSteps("consecutive_two", ["first", "second"], { again: 0 }),
  retest: null,
  dependence: {
    kind: "pairs",
    pairs: [{ first: "first", second: "second", diseased: 0.05, nondiseased: 0.05 }],
  },
  prevalence: value(0.05),
  costs: { perPerson: value(0), perInconclusive: value(0) },
  outcome: "ppv",
};

export const twoWayExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "PPV of two kits of 99 and 98 % by prevalence and error correlation (0, .05, .10, .20)",
    input: {
      ...TWO_KITS,
      first: { kind: "prevalence", values: [0.01, 0.05] },
      second: { kind: "dependence", values: [0, 1, 2, 4] },
    },
    expect: {
      "rows.0.0": 0.9612,
      "rows.0.1": 0.8777,
      "rows.0.2": 0.8077,
      "rows.0.3": 0.6966,
      "rows.1.0": 0.9923,
      "rows.1.1": 0.974,
      "rows.1.2": 0.9563,
      "rows.1.3": 0.9229,
    },
    tolerance: { decimals: 4 },
    source: "no publication: both reactive = p q + phi sqrt(p (1 - p) q (1 - q)), then Bayes' rule",
    recomputedBy: "by hand from that formula",
  },
  {
    name: "the same by specificities: 1 - specificity is the share that only the other kit can set right",
    input: {
      ...TWO_KITS,
      dependence: { kind: "independent" },
      outcome: "falsePositives",
      first: { kind: "kit", kit: "first", quantity: "specificity", values: [0.9, 1] },
      second: { kind: "kit", kit: "second", quantity: "specificity", values: [0.95, 0.99] },
    },
    expect: { "rows.0.0": 475, "rows.0.1": 95, "rows.1.0": 0 },
    tolerance: { relative: 1e-9 },
    source: "no publication: 95,000 × (1 - specificity) × (1 - specificity)",
  },
];
