import type { WorkedExample } from "../../core/method.ts";
import { presetSteps } from "./presets.ts";

const counts = (right: number, total: number) => ({ kind: "counts" as const, right, total });
const value = (known: number) => ({ kind: "value" as const, value: known });

export const tornadoExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "PPV of two kits with false positives that go together",
    input: {
      kits: [
        {
          id: "first",
          sensitivity: counts(196, 200),
          specificity: counts(490, 500),
          invalid: value(0),
          price: value(2),
        },
        {
          id: "second",
          sensitivity: counts(197, 200),
          specificity: counts(492, 500),
          invalid: value(0),
          price: value(1.4),
        },
      ],
      steps: presetSteps("serial_confirm", ["first", "second"], { again: 0 }),
      retest: null,
      dependence: {
        kind: "pairs",
        pairs: [{ first: "first", second: "second", diseased: 0, nondiseased: 0.08 }],
      },
      prevalence: counts(30, 1000),
      costs: { perPerson: value(0), perInconclusive: value(0) },
      outcome: "ppv",
    },
    expect: {
      centre: 0.944451896548162,
      independent: 0.989047507863972,
      "bars.0.input": "second specificity",
      "bars.0.low": 0.9700379328480001,
      "bars.0.atLow": 0.922045769413734,
      "bars.0.atHigh": 0.9635305986465263,
      "bars.1.input": "prevalence",
      "bars.1.swing": 0.0393982376085219,
      "bars.2.input": "first specificity",
      "bars.3.swing": 0.002172142571763902,
      "bars.4.input": "second sensitivity",
    },
    tolerance: { relative: 1e-10 },
    source: "brown2001",
    recomputedBy: "SciPy 1.10.1: stats.beta.ppf, and the PPV of two tests with covariance written out",
    memory: true,
  },
  {
    name: "the cost of one kit by its price",
    input: {
      kits: [
        {
          id: "only",
          sensitivity: value(0.99),
          specificity: value(0.98),
          invalid: value(0),
          price: { kind: "range", low: 1, high: 3 },
        },
      ],
      steps: presetSteps("single", ["only"], { again: 0 }),
      retest: null,
      dependence: { kind: "independent" },
      prevalence: value(0.05),
      costs: { perPerson: value(0.5), perInconclusive: value(0) },
      outcome: "cost",
    },
    options: { level: 0.9 },
    expect: {
      centre: 2.5,
      "bars.0.low": 1.1,
      "bars.0.atLow": 1.6,
      "bars.0.atHigh": 3.4,
      "bars.0.swing": 1.8,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: by hand",
  },
];
