import * as v from "valibot";
import { choice, level, openProportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";
import { intervalMethod } from "./intervals/fields.ts";
import type { Limits } from "./intervals/limits.ts";
import { type IntervalSettings, proportionInterval } from "./proportion-interval.ts";

const Input = v.strictObject({
  total: v.pipe(
    v.number(),
    v.integer("expected a whole number"),
    v.minValue(1, "expected 1 or more"),
    v.maxValue(5_000, "expected at most 5,000"),
    v.description("how many are observed"),
  ),
  proportions: v.pipe(
    v.array(openProportion("a true proportion")),
    v.minLength(1, "expected at least one proportion"),
    v.maxLength(10_001, "expected at most 10,001 proportions"),
    v.description("true proportions at which to look"),
  ),
});
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  sides: v.optional(choice(["two", "lower", "upper"], "both limits, or one only"), "two"),
});
const Values = v.strictObject({
  points: v.pipe(
    v.array(
      v.strictObject({
        proportion: quantity("proportion", "the true proportion"),
        coverage: quantity("probability", "probability that the interval contains it"),
        expectedWidth: quantity("proportion", "expected width of the interval"),
      }),
    ),
    v.description("one entry per true proportion, in the order given"),
  ),
  lowest: v.strictObject({
    proportion: quantity("proportion", "the true proportion with the lowest coverage of those given"),
    coverage: quantity("probability", "the lowest coverage of those given"),
  }),
  infimum: v.strictObject({
    proportion: quantity("proportion", "where the coverage is lowest of all, on one side of it"),
    coverage: quantity("probability", "the lowest coverage over all true proportions"),
  }),
});
export type CoverageInput = v.InferOutput<typeof Input>;
export type CoverageOptions = v.InferOutput<typeof Options>;
export type CoverageValues = v.InferOutput<typeof Values>;

/**
 * What an interval really does: the probability that it contains the true proportion, by adding up
 * all possible results, and its expected width.
 *
 * @param input total: observations; proportions: true proportions in (0, 1)
 * @returns coverage and width for each, the lowest of them, and the lowest over all proportions
 *   (reached only on one side of a limit, so no grid shows it exactly)
 * Source: brown2001
 */
export function coverageOfInterval(input: CoverageInput, options: CoverageOptions): Finding<CoverageValues> {
  const limits = allLimits(input.total, options);
  const points = input.proportions.map((share) => ({
    proportion: share,
    coverage: coverageAt(share, limits, within(share)),
    expectedWidth: expectedWidth(share, limits),
  }));
  const first = points[0];
  if (first === undefined) throw new InputError(["input", "proportions"], "at least one proportion", []);
  const lowest = points.reduce((low, point) => (point.coverage < low.coverage ? point : low), first);
  const values = {
    points,
    lowest: { proportion: lowest.proportion, coverage: lowest.coverage },
    infimum: infimum(limits),
  };
  return { values, notes: [] };
}

/** The interval of every possible result, 0..total. */
function allLimits(total: number, settings: IntervalSettings): Limits[] {
  return Array.from({ length: total + 1 }, (_, count) => proportionInterval(count, total, settings));
}

type Contains = (limits: Limits) => boolean;
const within =
  (share: number): Contains =>
  ({ lower, upper }) =>
    lower <= share && share <= upper;

/** Adds the probabilities of each unbroken run of results whose interval contains the proportion. */
function coverageAt(share: number, limits: readonly Limits[], contains: Contains): number {
  const total = limits.length - 1;
  let covered = 0;
  let start = -1;
  limits.forEach((interval, count) => {
    const inside = contains(interval);
    if (inside && start < 0) start = count;
    const ends = start >= 0 && (!inside || count === total);
    if (!ends) return;
    covered += probabilityOfRun(start, inside ? count : count - 1, total, share);
    start = -1;
  });
  return Math.min(1, covered);
}

/** P(from <= X <= to), from the tails outside so that a coverage near 1 keeps its digits. */
function probabilityOfRun(from: number, to: number, total: number, share: number): number {
  const under = from === 0 ? 0 : binomialCdf(from - 1, total, share, "lower");
  const over = to === total ? 0 : binomialCdf(to, total, share, "upper");
  return Math.max(0, 1 - under - over);
}

/** Results more than this many standard deviations from the mean have no weight worth adding. */
const FAR = 12;

function expectedWidth(share: number, limits: readonly Limits[]): number {
  const total = limits.length - 1;
  const reach = FAR * Math.sqrt(total * share * (1 - share)) + FAR * FAR;
  const first = Math.max(0, Math.floor(total * share - reach));
  const last = Math.min(total, Math.ceil(total * share + reach));
  let width = 0;
  for (let count = first; count <= last; count += 1) {
    const { lower, upper } = limits[count] as Limits;
    width += binomialMass(count, total, share) * (upper - lower);
  }
  return width;
}

/** Limits closer than this are the same limit, found twice: no gap lies between them. */
const SAME = 1e-12;

/**
 * Between neighbouring limits the covered results don't change and their probability has a single
 * peak, so the lowest coverage stands at a limit, approached from one of its sides.
 */
function infimum(limits: readonly Limits[]): { proportion: number; coverage: number } {
  let lowest = { proportion: 0.5, coverage: 1 };
  const ends = new Set([0, 1, ...limits.flatMap(({ lower, upper }) => [lower, upper])]);
  for (const share of ends) {
    for (const beside of [share - SAME, share + SAME]) {
      if (beside < 0 || beside > 1) continue;
      const coverage = coverageAt(share, limits, within(beside));
      if (coverage < lowest.coverage) lowest = { proportion: share, coverage };
    }
  }
  return lowest;
}

export const coverage = defineMethod({
  id: "proportion.coverage",
  version: 1,
  title: "What an interval of a proportion really covers",
  question: "How often does this interval contain the truth, and how wide will it be?",
  formula:
    "coverage(p) = sum of P(X = k | total, p) over all k whose interval contains p; expected width(p) = sum of P(X = k | total, p) * width of the interval of k",
  caution:
    "coverage jumps with p: a single proportion tells little, look at a fine grid or at the lowest of all",
  sources: ["brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: coverageOfInterval,
  examples: [
    {
      name: "Wald at p = 0.5 with 40 observed",
      input: { total: 40, proportions: [0.5] },
      options: { method: "wald" },
      expect: { "points.0.coverage": 0.919 },
      tolerance: { decimals: 3 },
      source: "brown2001",
      recomputedBy: "R 4.2.2 sum of dbinom over the results covered",
      memory: true,
    },
    {
      name: "exact and 50 observed at p = 0.95 and 0.98",
      input: { total: 50, proportions: [0.95, 0.98] },
      expect: {
        "points.0.coverage": 0.988213552202735,
        "points.0.expectedWidth": 0.138036582678424,
        "points.1.coverage": 0.982241919302028,
        "points.1.expectedWidth": 0.102203434190268,
      },
      tolerance: { relative: 1e-9 },
      source: "clopper1934",
      recomputedBy: "R 4.2.2 sum of dbinom over the results covered by qbeta limits",
      memory: true,
    },
  ],
});
