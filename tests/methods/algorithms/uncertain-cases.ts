import type { InferInput } from "valibot";
import type { FrontierInput } from "../../../src/methods/algorithms/frontier-input.ts";
import { presetSteps } from "../../../src/methods/algorithms/presets.ts";
import type { UncertainInput } from "../../../src/methods/algorithms/uncertain-input.ts";

/** Invented kits and questions for the tests of draws and of the search. */

export const counts = (right: number, total: number) => ({ kind: "counts" as const, right, total });
export const value = (known: number) => ({ kind: "value" as const, value: known });
export const range = (low: number, high: number) => ({ kind: "range" as const, low, high });

type Searched = InferInput<typeof FrontierInput>;
type Asked = InferInput<typeof UncertainInput>;

const KITS: readonly [string, number, number, number, number][] = [
  ["A", 0.995, 0.985, 2.1, 15],
  ["B", 0.98, 0.996, 1.4, 20],
  ["C", 0.99, 0.995, 1.9, 15],
  ["D", 0.97, 0.999, 3.5, 30],
];

export const searchedKits: Searched["kits"] = KITS.map(([id, sensitivity, specificity, price, minutes]) => ({
  id,
  sensitivity: value(sensitivity),
  specificity: value(specificity),
  invalid: value(0.01),
  price: value(price),
  minutes,
  group: id === "A" || id === "B" ? "one" : "other",
}));

/** The same kits as so many right of 200 and 500, their prices from 20 % less to 20 % more. */
export const countedKits: Searched["kits"] = KITS.map(([id, sensitivity, specificity, price, minutes]) => ({
  id,
  sensitivity: counts(Math.round(200 * sensitivity), 200),
  specificity: counts(Math.round(500 * specificity), 500),
  invalid: range(0.005, 0.02),
  price: range(0.8 * price, 1.2 * price),
  minutes,
  group: null,
}));

export const PAIRS = {
  kind: "pairs" as const,
  pairs: [
    { first: "A", second: "B", diseased: 0.1, nondiseased: 0.08 },
    { first: "A", second: "C", diseased: 0.05, nondiseased: 0.02 },
    { first: "B", second: "C", diseased: 0.05, nondiseased: 0.03 },
  ],
};

export const NO_LIMITS = {
  minimumPpv: null,
  minimumNpv: null,
  mostInconclusive: null,
  mostMinutes: null,
  differentGroups: false,
};

export function searched(changes: Partial<Searched> = {}): Searched {
  return {
    kits: searchedKits,
    dependence: PAIRS,
    prevalences: [0.001, 0.005, 0.01, 0.03, 0.08, 0.2, 0.5],
    costs: { perPerson: value(2), perInconclusive: value(25) },
    constraints: { ...NO_LIMITS, minimumPpv: 0.99, minimumNpv: 0.99 },
    inconclusiveDiseased: "apart",
    ...changes,
  };
}

export function asked(changes: Partial<Asked> = {}): Asked {
  const kits = countedKits.map(({ minutes: _minutes, group: _group, ...kit }) => kit);
  return {
    kits,
    algorithms: [
      { id: "serial", steps: presetSteps("serial_confirm", ["A", "B"]), retest: null },
      { id: "returning", steps: presetSteps("consecutive_two", ["A", "C"]), retest: { share: 0.62 } },
      { id: "tie", steps: presetSteps("tie_breaker", ["A", "B", "C"]), retest: null },
    ],
    dependence: { kind: "independent" },
    prevalences: [
      { label: "clinic", share: counts(45, 1000) },
      { label: "outreach", share: range(0.05, 0.1) },
    ],
    costs: { perPerson: value(2), perInconclusive: range(20, 30) },
    criteria: { minimumPpv: 0.99, minimumNpv: 0.99, mostInconclusive: 0.05 },
    objective: "cheapest",
    losses: null,
    ...changes,
  };
}
