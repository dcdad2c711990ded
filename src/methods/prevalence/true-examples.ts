import type { WorkedExample } from "../../core/method.ts";

const R = "R 4.2.2 base/stats: closed forms, qbeta";

export const trueExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "120 of 1,000 reactive, sensitivity 0.9 and specificity 0.95 known",
    input: { count: 120, total: 1000, sensitivity: { value: 0.9 }, specificity: { value: 0.95 } },
    expect: {
      "apparent.value": 0.12,
      "prevalence.value": 0.0823529411764704,
      "prevalence.lower": 0.0594128514684326,
      "prevalence.upper": 0.107961016226854,
      "treatedAsKnown.standardError": 0.0120896306622731,
      "treatedAsKnown.wilson.lower": 0.0603520712956579,
      "treatedAsKnown.wilson.upper": 0.10777538335025,
    },
    tolerance: { relative: 1e-8 },
    source: "reiczigel2010",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "10 of 500 reactive: fewer than false reactives alone would give",
    input: { count: 10, total: 500, sensitivity: { value: 0.85 }, specificity: { value: 0.97 } },
    expect: {
      roganGladen: -0.0121951219512195,
      "prevalence.value": 0,
      "prevalence.lower": 0,
      "prevalence.upper": 0.00789318084415836,
    },
    tolerance: { relative: 1e-8 },
    source: "rogan1978",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "120 of 1,000, sensitivity 90 of 100, specificity 190 of 200",
    input: {
      count: 120,
      total: 1000,
      sensitivity: { count: 90, total: 100 },
      specificity: { count: 190, total: 200 },
    },
    expect: {
      interval: "lang_reiczigel",
      "prevalence.value": 0.0823529411764704,
      "prevalence.lower": 0.0363778618859418,
      "prevalence.upper": 0.121136331021856,
      "langReiczigel.centre": 0.0799792399824926,
      "langReiczigel.shift": -0.00122214352859384,
      "delta.standardError": 0.0207705169610168,
      "delta.interval.lower": 0.0416434759925991,
      "delta.interval.upper": 0.123062406360342,
    },
    tolerance: { relative: 1e-8 },
    source: "lang2014",
    recomputedBy: `${R}; the formula of Lang and Reiczigel recalled, its coverage simulated`,
    memory: true,
  },
  {
    name: "a test no better than a coin",
    input: { count: 5, total: 10, sensitivity: { value: 0.5 }, specificity: { value: 0.5 } },
    expect: { "apparent.value": 0.5, "prevalence.value": null, roganGladen: null },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];
