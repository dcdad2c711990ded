import * as v from "valibot";
import { choice, count, estimate, level, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { note } from "../../core/note.ts";
import { binomialMass } from "../../numeric/binomial.ts";
import { notesAt } from "../notes-at.ts";

const Part = v.strictObject({
  count: count("how many of them"),
  total: count("of how many observed"),
});
const Input = v.strictObject({
  first: v.pipe(Part, v.description("the first group, e.g. reactive among the reference-positive")),
  second: v.optional(
    v.nullable(
      v.pipe(Part, v.description("the second group, e.g. non-reactive among the reference-negative")),
    ),
    null,
  ),
});
const Options = v.strictObject({
  level: level(),
  combine: v.optional(
    choice(["difference", "youden"], "with two groups: first minus second, or first plus second minus 1"),
    "difference",
  ),
});
const Values = v.strictObject({
  percentile: estimate("statistic", "proportion, difference or Youden's index, with its percentile interval"),
  standardError: quantity("statistic", "standard deviation of the bootstrap distribution"),
});
export type IdealBootstrapInput = v.InferOutput<typeof Input>;
export type IdealBootstrapOptions = v.InferOutput<typeof Options>;
export type IdealBootstrapValues = v.InferOutput<typeof Values>;

interface Share {
  readonly count: number;
  readonly total: number;
}
interface Weighted {
  readonly value: number;
  readonly mass: number;
}

/** Pairs of results beyond this are not enumerated. */
const MOST_RESULTS = 4_000_000;

/**
 * What a bootstrap of independent people tends to with ever more replicates, by listing every result:
 * a resampled proportion is binomial with the observed proportion.
 *
 * @param input one group, or two that are resampled apart
 * @returns the limits are the smallest results with at least (1 - level) / 2 and (1 + level) / 2 of the
 *   probability at or below them. `null` with a note where a group is empty
 * @throws InputError where the two groups have more than 4,000,000 pairs of results
 * Source: efron1993
 */
export function bootstrapByListing(
  { first, second }: IdealBootstrapInput,
  options: IdealBootstrapOptions,
): Finding<IdealBootstrapValues> {
  requireParts(first, second);
  if (first.total === 0 || second?.total === 0) {
    const values = { percentile: { value: null, lower: null, upper: null }, standardError: null };
    const paths = ["percentile", "standardError"];
    return { values, notes: notesAt("no_observations", paths, "nothing was observed in a group") };
  }
  const sign = options.combine === "youden" ? 1 : -1;
  const shift = second !== null && options.combine === "youden" ? -1 : 0;
  const seen = (part: Share) => part.count / part.total;
  const value = seen(first) + (second === null ? 0 : sign * seen(second)) + shift;
  const results = resultsOf(first, second, sign, shift).sort((one, other) => one.value - other.value);
  const lower = resultAt(results, (1 - options.level) / 2);
  const upper = resultAt(results, (1 + options.level) / 2);
  const variance = spreadOf(first) + (second === null ? 0 : spreadOf(second));
  const values = { percentile: { value, lower, upper }, standardError: Math.sqrt(variance) };
  const message = "every resample is the same: no width, which does not mean certainty";
  return { values, notes: variance === 0 ? [note("no_width", "percentile", message)] : [] };
}

function requireParts(first: Share, second: Share | null): void {
  for (const [name, part] of Object.entries({ first, second })) {
    if (part !== null && part.count > part.total) {
      throw new InputError(["input", name, "count"], `at most the total, ${part.total}`, part.count);
    }
  }
  const pairs = (first.total + 1) * ((second?.total ?? 0) + 1);
  if (pairs > MOST_RESULTS) {
    throw new InputError(["input"], `at most ${MOST_RESULTS} pairs of results to list`, pairs);
  }
}

function spreadOf({ count: seen, total }: Share): number {
  const share = seen / total;
  return (share * (1 - share)) / total;
}

/** The results of one group that can happen at all. */
function groupResults({ count: seen, total }: Share): Weighted[] {
  return Array.from({ length: total + 1 }, (_, drawn) => ({
    value: drawn / total,
    mass: binomialMass(drawn, total, seen / total),
  })).filter(({ mass }) => mass > 0);
}

function resultsOf(first: Share, second: Share | null, sign: number, shift: number): Weighted[] {
  const one = groupResults(first);
  if (second === null) return one;
  const other = groupResults(second);
  return one.flatMap((mine) =>
    other.map((theirs) => ({
      value: mine.value + sign * theirs.value + shift,
      mass: mine.mass * theirs.mass,
    })),
  );
}

function resultAt(sorted: readonly Weighted[], share: number): number {
  let below = 0;
  for (const { value, mass } of sorted) {
    below += mass;
    if (below >= share * (1 - 1e-12)) return value;
  }
  return (sorted.at(-1) as Weighted).value;
}

export const clustersIdealBootstrap = defineMethod({
  id: "clusters.ideal_bootstrap",
  version: 1,
  title: "Bootstrap by listing every result",
  question: "What would a bootstrap with endlessly many replicates give?",
  formula:
    "the resampled count of a group is binomial(total, count / total); every result, or pair of results, with its probability; the limits are shares (1 - level) / 2 and (1 + level) / 2 of that distribution",
  caution:
    "for independent people, one each. A check on a bootstrap with random draws, and a teacher: the percentile interval of a proportion near 1 is too short below and has no width at 1",
  sources: ["efron1993"],
  input: Input,
  options: Options,
  values: Values,
  run: bootstrapByListing,
  examples: [
    {
      name: "96 of 104",
      input: { first: { count: 96, total: 104 } },
      expect: {
        standardError: 0.0261294700187214,
        "percentile.lower": 0.865384615384615,
        "percentile.upper": 0.971153846153846,
      },
      tolerance: { relative: 1e-8 },
      source: "efron1993",
      recomputedBy: "R 4.2.2 qbinom",
      memory: true,
    },
    {
      name: "Youden's index: 38 of 44 and 79 of 85",
      input: { first: { count: 38, total: 44 }, second: { count: 79, total: 85 } },
      options: { combine: "youden" },
      expect: {
        "percentile.value": 0.793048128342246,
        standardError: 0.0587229837237,
        "percentile.lower": 0.668449197860963,
        "percentile.upper": 0.896524064171123,
      },
      tolerance: { relative: 1e-8 },
      source: "efron1993",
      recomputedBy: "R 4.2.2: enumeration of two binomials",
      memory: true,
    },
    {
      name: "10 of 10: certain for no reason",
      input: { first: { count: 10, total: 10 } },
      expect: { standardError: 0, "percentile.lower": 1, "percentile.upper": 1 },
      tolerance: { relative: 1e-8 },
      source: "no publication: by definition",
    },
  ],
});
