import type { WorkedExample } from "../../core/method.ts";

const FIVE_SITES = [
  { label: "site 1", count: 30, total: 32 },
  { label: "site 2", count: 41, total: 45 },
  { label: "site 3", count: 17, total: 25 },
  { label: "site 4", count: 25, total: 26 },
  { label: "site 5", count: 9, total: 14 },
];

export const bootstrapExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "122 of 142 at five sites: near what listing all 3,125 resamples gives",
    input: { clusters: FIVE_SITES },
    options: { replicates: 100_000, seed: 7 },
    expect: {
      "percentile.lower": 0.740384615384615,
      "percentile.upper": 0.937888198757764,
      "bca.lower": 0.739130434782609,
      "bca.upper": 0.931034482758621,
      standardError: 0.0527155218310657,
      bias: -0.00535462100281803,
    },
    tolerance: { decimals: 2 },
    source: "efron1993",
    recomputedBy: "R 4.2.2: expand.grid over the five draws, limits and accelerated limits of the whole list",
    memory: true,
  },
  {
    name: "the same: the part that needs no draws",
    input: { clusters: FIVE_SITES },
    options: { replicates: 100 },
    expect: { value: 0.8591549295774648, acceleration: -0.0369593337501733 },
    tolerance: { relative: 1e-9 },
    source: "efron1993",
    recomputedBy: "R 4.2.2: one site left out at a time",
    memory: true,
  },
  {
    name: "one cluster",
    input: { clusters: [{ count: 9, total: 10 }] },
    expect: { value: 0.9, "percentile.lower": null, "bca.upper": null, replicates: 0 },
    tolerance: { relative: 1e-12 },
    source: "no publication: by definition",
  },
];
