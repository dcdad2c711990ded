import type { WorkedExample } from "../../core/method.ts";

const VACCINE = { first: { count: 7, total: 15 }, second: { count: 12, total: 15 } };

/** Worked examples of `comparison.exact_unconditional`. */
export const exactExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "influenza after vaccine and placebo: 7 of 15 against 12 of 15",
    input: VACCINE,
    expect: {
      twoSided: 0.06821830932319455,
      less: 0.03410915466159731,
      greater: 1,
      "difference.lower": -0.6369863259866831,
      "difference.upper": 0.02385976823419246,
    },
    tolerance: { relative: 1e-7 },
    source: "chan1999",
    recomputedBy: "Python with SciPy 1.10.1: every result added over a fine grid of common proportions",
    memory: true,
  },
  {
    name: "the same, to the digits of its published account",
    input: VACCINE,
    expect: { less: 0.034, statistic: -1.894 },
    tolerance: { decimals: 3 },
    source: "scipy_barnard_exact",
  },
  {
    name: "141 of 150 against 130 of 150",
    input: { first: { count: 141, total: 150 }, second: { count: 130, total: 150 } },
    expect: { twoSided: 0.03674588413114318, greater: 0.01837294206557133, less: 1 },
    tolerance: { relative: 1e-10 },
    source: "barnard1947",
    recomputedBy: "SciPy 1.10.1 barnard_exact(n = 1024)",
    memory: true,
  },
  {
    name: "the common proportion restricted to its 99.9 % interval: a smaller p",
    input: { first: { count: 141, total: 150 }, second: { count: 130, total: 150 } },
    options: { restriction: 0.001 },
    expect: { twoSided: 0.03419400906788459 },
    tolerance: { relative: 1e-7 },
    source: "berger1994",
    recomputedBy: "R 4.2.2: dbinom products over a grid within qbeta limits, plus 0.001",
    memory: true,
  },
  {
    name: "an empty group",
    input: { first: { count: 0, total: 0 }, second: { count: 3, total: 10 } },
    expect: { twoSided: null, "difference.lower": null },
    tolerance: { relative: 1e-8 },
    source: "no publication: by definition",
  },
];
