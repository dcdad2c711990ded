import type { WorkedExample } from "../../core/method.ts";
import { presetSteps } from "./presets.ts";

const exact = { again: 0 } as const;
const kit = (id: string, sensitivity: number, specificity: number, invalid = 0) => ({
  id,
  sensitivity,
  specificity,
  invalid,
});

/** A published two-stage screening, a closed form with dependent errors, and a tie-breaker. */
export const outcomesExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two-stage screening of 10,000 people, 5 % diseased",
    input: {
      kits: [kit("first", 0.7, 0.8), kit("second", 0.9, 0.9)],
      steps: presetSteps("serial_confirm", ["first", "second"], exact),
      retest: null,
      dependence: { kind: "independent" },
      prevalences: [0.05],
      people: 10_000,
    },
    expect: {
      "net.sensitivity": 0.63,
      "net.specificity": 0.98,
      "at.0.perPeople.truePositives": 315,
      "at.0.perPeople.falsePositives": 190,
      "at.0.ppv": 0.623762376237624,
      "at.0.runs.1.perPerson": 0.225,
    },
    tolerance: { relative: 1e-12 },
    source: "gordis2014",
    recomputedBy: "R 4.2.2: products of shares",
    memory: true,
  },
  {
    name: "two kits of 99 % and 98 % whose errors go together, phi .1",
    input: {
      kits: [kit("first", 0.99, 0.98), kit("second", 0.99, 0.98)],
      steps: presetSteps("consecutive_two", ["first", "second"], exact),
      retest: null,
      dependence: {
        kind: "pairs",
        pairs: [{ first: "first", second: "second", diseased: 0.1, nondiseased: 0.1 }],
      },
      prevalences: [0.05, 0.01],
    },
    expect: {
      "net.sensitivity": 0.98109,
      "byTruth.nondiseased.positive": 0.00236,
      "at.0.ppv": 0.9562933143586791,
      "at.1.ppv": 0.80766096169519,
      "independent.at.0.ppv": 0.992305355877291,
    },
    tolerance: { relative: 1e-11 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: p1 p2 + phi sqrt(p1 q1 p2 q2), Bayes' rule",
    memory: true,
  },
  {
    name: "the third kit decides where two differ",
    input: {
      kits: [kit("first", 0.98, 0.97), kit("second", 0.96, 0.99), kit("third", 0.99, 0.995)],
      steps: presetSteps("tie_breaker", ["first", "second", "third"], exact),
      retest: null,
      dependence: { kind: "independent" },
      prevalences: [0.08],
    },
    expect: {
      "net.sensitivity": 0.998616,
      "net.specificity": 0.999503,
      "at.0.ppv": 0.994309149917134,
      "at.0.npv": 0.999879606827563,
      "at.0.runs.2.perPerson": 0.04092,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: eight patterns added up",
    recomputedBy: "R 4.2.2: enumeration of the patterns",
  },
];
