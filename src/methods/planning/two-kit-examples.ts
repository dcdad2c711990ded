import type { WorkedExample } from "../../core/method.ts";

type Examples = readonly [WorkedExample, ...WorkedExample[]];

/** Worked examples of `planning.paired_difference`. */
export const pairedDifferenceExamples: Examples = [
  {
    name: "12 % right on the first only, 5 % on the second only: by the formula",
    input: { first: 0.95, second: 0.88, discordant: 0.17 },
    expect: { "formula.unrounded": 269.938137910863, "formula.total": 270 },
    tolerance: { relative: 1e-8 },
    source: "connor1987",
    recomputedBy: "R 4.2.2: (z_a sqrt(psi) + z_b sqrt(psi - d^2))^2 / d^2",
    memory: true,
  },
  {
    name: "the same, mid-P test: exact power",
    input: { first: 0.95, second: 0.88, discordant: 0.17 },
    expect: {
      "exact.first": 263,
      "exact.stays": 263,
      "exact.power": 0.800546897937689,
      "exact.powerBefore": 0.798973542144136,
      "bounds.0.exactStays": 95,
    },
    tolerance: { relative: 1e-11 },
    source: "fagerland2013",
    recomputedBy: "R 4.2.2: dbinom over the discordant people times dbinom given their number, all results",
    memory: true,
  },
  {
    name: "two kits alike: no difference to be found",
    input: { first: 0.9, second: 0.9 },
    expect: { "formula.total": null, "exact.stays": null, "discordant.most": 0.2 },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];

/** Worked examples of `planning.paired_noninferiority`. */
export const pairedMarginExamples: Examples = [
  {
    name: "two kits alike, 10 % judged differently, margin 0.05",
    input: { first: 0.93, second: 0.93, discordant: 0.1, margin: 0.05 },
    expect: {
      "formula.unrounded": 313.955189373963,
      "exact.first": 339,
      "exact.power": 0.804491649522078,
      "exact.powerBefore": 0.794824953694499,
    },
    tolerance: { relative: 1e-10 },
    source: "tango1998",
    recomputedBy:
      "R 4.2.2: multinomial probability of every result whose score at the margin is 1.96 or more",
    memory: true,
  },
  {
    name: "nobody judged differently: z² (1 - margin) / margin people, 72.99",
    input: { first: 0.92, second: 0.92, discordant: 0, margin: 0.05 },
    expect: { "formula.total": null, "exact.first": 73, "exact.stays": 73, "exact.power": 1 },
    tolerance: { relative: 1e-12 },
    source: "tango1998",
    recomputedBy: "R 4.2.2: qnorm(.975)^2 * .95 / .05",
    memory: true,
  },
  {
    name: "expected to be worse by the margin",
    input: { first: 0.87, second: 0.92, margin: 0.05 },
    expect: { "formula.total": null, "exact.stays": null },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];

/** Worked examples of `planning.unpaired_difference`. */
export const unpairedDifferenceExamples: Examples = [
  {
    name: "0.5 against 0.75, power 0.9: printed digits",
    input: { first: 0.5, second: 0.75 },
    options: { power: 0.9 },
    expect: { "formula.unrounded": 76.7 },
    tolerance: { decimals: 1 },
    source: "r_power_prop_test",
  },
  {
    name: "the same, all digits, and Fisher's test exactly",
    input: { first: 0.5, second: 0.75 },
    options: { power: 0.9 },
    expect: {
      "formula.unrounded": 76.7069284517774,
      "formula.perGroup": 77,
      "exact.stays": 85,
      "exact.power": 0.901260539205828,
      "exact.powerBefore": 0.896115344454298,
    },
    tolerance: { relative: 1e-10 },
    source: "fisher1935",
    recomputedBy: "R 4.2.2: power.prop.test(tol = 1e-13); dhyper p-values and dbinom over all results",
    memory: true,
  },
  {
    name: "0.7 against 0.95, twice as many in the second group",
    input: { first: 0.7, second: 0.95, ratio: 2 },
    expect: { "formula.unrounded": 23.9278514526546, "formula.perGroup": 24, "formula.secondGroup": 48 },
    tolerance: { relative: 1e-10 },
    source: "fleiss1980",
    recomputedBy: "R 4.2.2, the formula without a correction",
    memory: true,
  },
];

/** Worked examples of `planning.unpaired_noninferiority`. */
export const unpairedMarginExamples: Examples = [
  {
    name: "0.92 and 0.92, margin 0.05",
    input: { first: 0.92, second: 0.92, margin: 0.05 },
    expect: { "formula.unrounded": 462.142038758474, "formula.perGroup": 463 },
    tolerance: { relative: 1e-8 },
    source: "blackwelder1982",
    recomputedBy: "R 4.2.2: (z_a + z_b)^2 (p1 q1 + p2 q2) / (d + m)^2",
    memory: true,
  },
  {
    name: "0.94 and 0.95, margin 0.04, one-sided error 0.05, power 0.9",
    input: { first: 0.94, second: 0.95, margin: 0.04 },
    options: { level: 0.9, power: 0.9 },
    expect: { "formula.unrounded": 988.648599704893, "formula.perGroup": 989 },
    tolerance: { relative: 1e-8 },
    source: "blackwelder1982",
    recomputedBy: "R 4.2.2, as before",
    memory: true,
  },
  {
    name: "0.92 and 0.92, margin 0.05, Newcombe's interval exactly",
    input: { first: 0.92, second: 0.92, margin: 0.05 },
    options: { method: "newcombe" },
    expect: {
      "exact.first": 472,
      "exact.stays": 475,
      "exact.power": 0.80116961927924,
      "exact.powerBefore": 0.79924936410776,
    },
    tolerance: { relative: 1e-10 },
    source: "newcombe1998difference",
    recomputedBy: "R 4.2.2: dbinom over all results, the interval in closed form (power at 474 and 475)",
    memory: true,
  },
];

/** Worked examples of `planning.kappa`. */
export const planKappaExamples: Examples = [
  {
    name: "kappa 0.8, both call 30 % reactive, half-width 0.1",
    input: { kappa: 0.8, reactiveFirst: 0.3, reactiveSecond: 0.3, halfWidth: 0.1 },
    options: { draws: 200 },
    expect: {
      unrounded: 166.3900449192083,
      total: 167,
      observedAgreement: 0.916,
      expectedAgreement: 0.58,
      "feasible.least": -3 / 7,
      "feasible.most": 1,
    },
    tolerance: { relative: 1e-7 },
    source: "fleiss1969",
    recomputedBy: "R 4.2.2: delta method, kappa differentiated numerically in the shares of the cells",
    memory: true,
  },
  {
    name: "shares that do not allow such a kappa",
    input: { kappa: 0.9, reactiveFirst: 0.05, reactiveSecond: 0.15, halfWidth: 0.1 },
    expect: { total: null, "feasible.most": 17 / 37, expectedAgreement: 0.815 },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];
