import type { WorkedExample } from "../../core/method.ts";
import { presetSteps } from "./presets.ts";

const counts = (right: number, total: number) => ({ kind: "counts" as const, right, total });
const value = (known: number) => ({ kind: "value" as const, value: known });
const NO_CRITERIA = { minimumPpv: null, minimumNpv: null, mostInconclusive: null };

const KITS = [
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
];

export const uncertainExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two kits one after the other, false positives that go together",
    input: {
      kits: KITS,
      algorithms: [
        {
          id: "serial",
          steps: presetSteps("serial_confirm", ["first", "second"], { again: 0 }),
          retest: null,
        },
      ],
      dependence: {
        kind: "pairs",
        pairs: [{ first: "first", second: "second", diseased: 0, nondiseased: 0.08 }],
      },
      prevalences: [{ label: "clinic", share: counts(30, 1000) }],
      costs: { perPerson: value(0), perInconclusive: value(0) },
      criteria: { ...NO_CRITERIA, minimumPpv: 0.95 },
      objective: "cheapest",
      losses: null,
    },
    options: { draws: 20_000 },
    expect: {
      "algorithms.0.at.0.ppv.mean": 0.9424,
      "algorithms.0.at.0.ppv.median": 0.9448,
      "algorithms.0.at.0.ppv.lower": 0.9004,
      "algorithms.0.at.0.ppv.upper": 0.9708,
      "algorithms.0.at.0.npv.lower": 0.9976,
      "algorithms.0.at.0.cost.mean": 2.0702,
      "algorithms.0.at.0.reaches.ppv.value": 0.3761,
    },
    tolerance: { decimals: 2 },
    source: "brown2001",
    recomputedBy: "NumPy 1.24.2, 4 million draws; agreement to 0.005",
    memory: true,
  },
  {
    name: "nothing uncertain: one kit as by Bayes' rule, the cheaper one best",
    input: {
      kits: [
        {
          id: "plain",
          sensitivity: value(0.99),
          specificity: value(0.98),
          invalid: value(0),
          price: value(1),
        },
        {
          id: "dear",
          sensitivity: value(0.99),
          specificity: value(0.98),
          invalid: value(0),
          price: value(3),
        },
      ],
      algorithms: ["plain", "dear"].map((kit) => ({
        id: kit,
        steps: presetSteps("single", [kit], { again: 0 }),
        retest: null,
      })),
      dependence: { kind: "independent" },
      prevalences: [{ label: "five in a hundred", share: value(0.05) }],
      costs: { perPerson: value(0.5), perInconclusive: value(0) },
      criteria: NO_CRITERIA,
      objective: "cheapest",
      losses: null,
    },
    options: { draws: 100 },
    expect: {
      "algorithms.0.at.0.ppv.median": 0.0495 / 0.0685,
      "algorithms.0.at.0.missed.mean": 50,
      "algorithms.0.at.0.falsePositives.mean": 1900,
      "algorithms.0.at.0.cost.mean": 1.5,
      "algorithms.0.at.0.best.value": 1,
      "algorithms.1.at.0.best.value": 0,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: Bayes' rule by hand",
  },
];
