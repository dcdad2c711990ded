import type { WorkedExample } from "../../core/method.ts";

const AIRWAYS = { both: 1, firstOnly: 1, secondOnly: 7, neither: 12 };

/** Worked examples of `comparison.paired`. */
export const pairedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "21 children before and after: 1, 1, 7, 12",
    input: AIRWAYS,
    expect: {
      "mcNemar.chiSquare": 4.5,
      "mcNemar.asymptotic": 0.0338948535246893,
      "mcNemar.correctedChiSquare": 3.125,
      "mcNemar.corrected": 0.077099871743542,
      "mcNemar.exact": 0.0703125,
      "mcNemar.midP": 0.0390625,
      "difference.value": -0.285714285714286,
      "difference.lower": -0.517232276421377,
      "difference.upper": -0.0260030324808686,
    },
    tolerance: { relative: 1e-7 },
    source: "fagerland2013",
    recomputedBy: "R 4.2.2: mcnemar.test, pbinom, uniroot on the score statistic",
    memory: true,
  },
  {
    name: "the same with square and add",
    input: AIRWAYS,
    options: { differenceInterval: "newcombe" },
    expect: { "difference.lower": -0.506920226686141, "difference.upper": -0.0255591241648598 },
    tolerance: { relative: 1e-8 },
    source: "newcombe1998paired",
    recomputedBy: "R 4.2.2, closed form",
    memory: true,
  },
  {
    name: "1,600 approval ratings, printed digits",
    input: { both: 794, firstOnly: 150, secondOnly: 86, neither: 570 },
    expect: { "mcNemar.chiSquare": 17.36, "difference.value": 0.04 },
    tolerance: { decimals: 2 },
    source: "agresti2002",
    memory: true,
  },
  {
    name: "relative sensitivity in 1,023 people",
    input: { both: 786, firstOnly: 29, secondOnly: 183, neither: 25 },
    expect: {
      "ratio.value": 0.841073271413829,
      "ratio.lower": 0.814493290765729,
      "ratio.upper": 0.86852065683894,
    },
    tolerance: { relative: 1e-8 },
    source: "cheng1997",
    recomputedBy: "R 4.2.2, closed form",
    memory: true,
  },
  {
    name: "nobody discordant: the score interval still has a width",
    input: { both: 30, firstOnly: 0, secondOnly: 0, neither: 20 },
    expect: {
      "mcNemar.exact": 1,
      "mcNemar.midP": 1,
      "difference.value": 0,
      "difference.lower": -0.0713475991333606,
      "difference.upper": 0.0713475991333606,
      "ratio.lower": null,
    },
    tolerance: { relative: 1e-7 },
    source: "tango1998",
    recomputedBy: "R 4.2.2 uniroot on the score statistic; z² / (n + z²) by hand",
    memory: true,
  },
];
