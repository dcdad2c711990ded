import type { WorkedExample } from "../../core/method.ts";

const BY_ROOTS = "R 4.2.2: uniroot on pbeta over the weight";

export const elicitedExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "a specificity of 95 % on average, hardly below 90 %",
    input: { middle: { kind: "mean", value: 0.95 }, percentile: { at: 0.9, chance: 0.05 } },
    expect: {
      alpha: 63.1979504592,
      beta: 3.3262079189,
      median: 0.9544578202,
      mean: 0.95,
    },
    tolerance: { relative: 1e-9 },
    source: "no publication: the shapes follow from the two statements",
    recomputedBy: BY_ROOTS,
  },
  {
    name: "a specificity likeliest at 95 %, hardly below 90 %",
    input: { middle: { kind: "mode", value: 0.95 }, percentile: { at: 0.9, chance: 0.05 } },
    expect: { alpha: 99.6983121032, beta: 6.1946480054, mode: 0.95, equivalentPeople: 105.8929601 },
    tolerance: { relative: 1e-9 },
    source: "no publication: the shapes follow from the two statements",
    recomputedBy: BY_ROOTS,
  },
  {
    name: "as likely above 80 % as below, hardly above 95 %",
    input: { middle: { kind: "median", value: 0.8 }, percentile: { at: 0.95, chance: 0.975 } },
    expect: { alpha: 10.9651337065, beta: 2.9837556442, median: 0.8 },
    tolerance: { relative: 1e-9 },
    source: "no publication: the shapes follow from the two statements",
    recomputedBy: BY_ROOTS,
  },
  {
    name: "no beta is likeliest at 95 % and as likely below 90 % as a flat one",
    input: { middle: { kind: "mode", value: 0.95 }, percentile: { at: 0.9, chance: 0.95 } },
    expect: { alpha: null, beta: null },
    tolerance: { relative: 1e-12 },
    source: "no publication: betas with this mode have chances from 0 to 0.9",
  },
];
