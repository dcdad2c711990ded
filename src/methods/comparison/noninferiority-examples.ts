import type { WorkedExample } from "../../core/method.ts";

const GROUPS = { first: { count: 141, total: 150 }, second: { count: 130, total: 150 } };

/** Worked examples of `comparison.noninferiority`. */
export const noninferiorityExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "two ways to disinfect lenses, 44 pairs, margin 0.1, one-sided 5 %: printed digits",
    input: {
      paired: { both: 43, firstOnly: 0, secondOnly: 1, neither: 0 },
      margin: 0.1,
      direction: "higher_is_better",
    },
    options: { alpha: 0.05 },
    expect: {
      "noninferiority.verdict": "met",
      "noninferiority.pValue": 0.044,
      "effect.lower": -0.096,
      "effect.upper": 0.037,
    },
    tolerance: { decimals: 3 },
    source: "tango1998",
    memory: true,
  },
  {
    name: "105 pairs: not inferior by 0.15, undecided for 0.05",
    input: {
      paired: { both: 96, firstOnly: 2, secondOnly: 7, neither: 0 },
      margin: 0.15,
      direction: "higher_is_better",
    },
    expect: {
      "effect.lower": -0.11550138445734907,
      "effect.upper": 0.010235656381838982,
      worst: -0.15,
      "noninferiority.verdict": "met",
      "noninferiority.pValue": 0.0032644521569592053,
      "equivalence.verdict": "met",
    },
    tolerance: { relative: 1e-9 },
    source: "tango1998",
    recomputedBy: "Python with SciPy 1.10.1: restricted likelihood maximised by brentq",
    memory: true,
  },
  {
    name: "141 of 150 against 130 of 150: not inferior by 0.05, equivalence undecided",
    input: { unpaired: GROUPS, margin: 0.05, direction: "higher_is_better" },
    expect: {
      "effect.lower": 0.006671350147751271,
      "noninferiority.verdict": "met",
      "noninferiority.pValue": 0.00030097775375119613,
      "equivalence.verdict": "undecided",
    },
    tolerance: { relative: 1e-9 },
    source: "miettinen1985",
    recomputedBy:
      "Python with SciPy 1.10.1: restricted likelihood maximised by halving; R 4.2.2 for the limit",
    memory: true,
  },
  {
    name: "the same as a ratio, at least 0.8",
    input: { unpaired: GROUPS, margin: 0.8, scale: "ratio", direction: "higher_is_better" },
    expect: {
      "effect.lower": 1.0075792921253828,
      "effect.upper": 1.178449505081229,
      "noninferiority.pValue": 2.753659044094615e-10,
      "equivalence.verdict": "met",
      "equivalence.pValue": 0.0009561259464476496,
    },
    tolerance: { relative: 1e-8 },
    source: "koopman1984",
    recomputedBy: "statsmodels 0.13.5, score interval and score test of the ratio",
    memory: true,
  },
];
