import type { WorkedExample } from "../../core/method.ts";

const enumerated =
  "R 4.2.2: qbeta limits of every result, half-widths weighted with dbinom, at every total up to the horizon";

export const precisionExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "98 % within 2 points, exact interval",
    input: { expected: 0.98, halfWidth: 0.02 },
    options: { horizon: 500 },
    expect: {
      "expectedWidth.first": 236,
      "expectedWidth.stays": 236,
      "expectedWidth.halfWidth": 0.019961634567882733,
      "assured.first": 334,
      "assured.stays": 334,
      "assured.probability": 0.92468340901274437,
      "normal.unrounded": 188.2314822140122,
      "normal.total": 189,
    },
    tolerance: { relative: 1e-9 },
    source: "piegorsch2004",
    recomputedBy: enumerated,
    memory: true,
  },
  {
    name: "98 % within 2 points, Wilson: assured at 302, undone, assured for good from 316",
    input: { expected: 0.98, halfWidth: 0.02 },
    options: { method: "wilson", horizon: 500 },
    expect: {
      "expectedWidth.stays": 214,
      "assured.first": 302,
      "assured.stays": 316,
      "assured.probability": 0.94458590721707592,
    },
    tolerance: { relative: 1e-9 },
    source: "beal1989",
    recomputedBy:
      "R 4.2.2: score limits of every result, weighted with dbinom, at every total up to the horizon",
    memory: true,
  },
  {
    name: "the textbook's 95 % within 3 points",
    input: { expected: 0.95, halfWidth: 0.03 },
    options: { horizon: 200 },
    expect: { "normal.total": 203, "assured.stays": null, "assured.probability": null },
    tolerance: { relative: 0 },
    source: "beal1989",
    recomputedBy: "R 4.2.2: ceiling(qnorm(.975)^2 * .95 * .05 / .03^2)",
    memory: true,
  },
];
