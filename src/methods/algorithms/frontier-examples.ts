import type { WorkedExample } from "../../core/method.ts";

const value = (known: number) => ({ kind: "value" as const, value: known });
const kit = (id: string, sensitivity: number, specificity: number, price: number) => ({
  id,
  sensitivity: value(sensitivity),
  specificity: value(specificity),
  invalid: value(0),
  price: value(price),
  minutes: 15,
  group: null,
});
const PLAIN = {
  dependence: { kind: "independent" },
  costs: { perPerson: value(0), perInconclusive: value(0) },
  inconclusiveDiseased: "apart",
};
const NO_LIMITS = {
  minimumPpv: null,
  minimumNpv: null,
  mostInconclusive: null,
  mostMinutes: null,
  differentGroups: false,
};

export const frontierExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "kits of 99 and 98 %: two tests reach a PPV of 99 % from a prevalence of 3.88 %",
    input: {
      ...PLAIN,
      kits: [kit("first", 0.99, 0.98, 1), kit("second", 0.99, 0.98, 1)],
      prevalences: [0.001, 0.2],
      constraints: { ...NO_LIMITS, minimumPpv: 0.99 },
      mostTests: 2,
    },
    expect: {
      "at.0.best": null,
      "switches.0.prevalence": (0.99 * 0.0004) / (0.99 * 0.0004 + 0.01 * 0.9801),
      "switches.0.from": null,
      "switches.0.to": "consecutive_two: first, second",
      "at.1.best": "consecutive_two: first, second",
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: PPV = target solved for the prevalence by hand",
    recomputedBy: "by hand; 3.88 % as in the published tables of two consecutive tests",
  },
  {
    name: "a cheap kit until a dear one is needed for the NPV",
    input: {
      ...PLAIN,
      kits: [kit("cheap", 0.9, 0.95, 1), kit("dear", 0.99, 0.95, 3)],
      prevalences: [0.001, 0.5],
      constraints: { ...NO_LIMITS, minimumNpv: 0.99 },
      mostTests: 1,
    },
    options: { draws: 100 },
    expect: {
      "at.0.best": "single: cheap",
      "switches.0.prevalence": (0.95 * 0.01) / (0.95 * 0.01 + 0.99 * 0.1),
      "switches.0.to": "single: dear",
      "switches.1.prevalence": (0.95 * 0.01) / (0.95 * 0.01 + 0.99 * 0.01),
      "switches.1.to": null,
      "at.0.notBeaten.0.missed": 10,
      "at.0.notBeaten.0.falsePositives": 4995,
      "drawn.at.0.algorithms.0.best": 1,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: NPV = target solved for the prevalence by hand",
  },
];
