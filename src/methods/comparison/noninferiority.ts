import * as v from "valibot";
import { NOT_ESTIMABLE } from "../../core/estimate.ts";
import { choice, estimate, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { VERDICTS, type Verdict, verdictOf } from "../proportion/criterion.ts";
import {
  pairedCounts,
  pairedMethod,
  ratioMethod,
  requireGroups,
  twoGroups,
  unpairedMethod,
} from "./fields.ts";
import {
  differenceTests,
  type MarginTests,
  pairedTests,
  ratioTests,
  SCORE_INTERVALS,
} from "./margin-tests.ts";
import { noninferiorityExamples } from "./noninferiority-examples.ts";

const Input = v.strictObject({
  paired: v.optional(
    v.pipe(
      v.strictObject(pairedCounts),
      v.description("people by both results, first the new one; either this or unpaired"),
    ),
  ),
  unpaired: v.optional(
    v.pipe(
      v.strictObject(twoGroups),
      v.description("two groups of different people, first the new one; either this or paired"),
    ),
  ),
  margin: v.pipe(
    v.number(),
    v.finite("expected a finite number"),
    v.description(
      "what would matter. Difference: above 0 and below 1, e.g. 0.05. Ratio: below 1 where higher is better, above 1 where lower is better",
    ),
  ),
  scale: v.optional(choice(["difference", "ratio"], "what the margin speaks of"), "difference"),
  direction: choice(["higher_is_better", "lower_is_better"], "whether a high proportion is good"),
});
const Options = v.strictObject({
  alpha: v.optional(
    v.pipe(
      v.number(),
      v.gtValue(0, "expected a probability above 0 and below 0.5"),
      v.ltValue(0.5, "expected a probability above 0 and below 0.5"),
      v.description("one-sided error of each test; the interval has level 1 - 2 alpha"),
    ),
    0.025,
  ),
  pairedInterval: pairedMethod(),
  differenceInterval: unpairedMethod(),
  ratioInterval: ratioMethod(),
});
const Values = v.strictObject({
  effect: estimate("statistic", "first minus second proportion, or first over second, at level 1 - 2 alpha"),
  worst: quantity("statistic", "the worst effect that the margin allows"),
  best: quantity("statistic", "its counterpart on the good side, for equivalence"),
  noninferiority: v.pipe(
    v.strictObject({
      verdict: choice(VERDICTS, "is the first not worse than the second by the margin or more"),
      pValue: quantity("probability", "one-sided p-value of the score test at the margin"),
    }),
    v.description("not inferior?"),
  ),
  equivalence: v.pipe(
    v.strictObject({
      verdict: choice(VERDICTS, "do the two differ by less than the margin, either way"),
      pValue: quantity("probability", "the larger of the two one-sided p-values"),
    }),
    v.description("equivalent?"),
  ),
});
export type NoninferiorityInput = v.InferOutput<typeof Input>;
export type NoninferiorityOptions = v.InferOutput<typeof Options>;
export type NoninferiorityValues = v.InferOutput<typeof Values>;

/**
 * Is the first kit (or specimen) no worse than the second by a margin stated beforehand? Are they
 * equivalent?
 *
 * Met: the whole interval lies on the good side of the margin. Not met: the whole interval lies beyond it.
 * Undecided: the interval contains the margin. Equivalence looks at both margins.
 *
 * @param input paired counts or two groups, never both; margin without a sign: `direction` gives it
 * @returns effect with interval, verdicts, and p-values of score tests at the margin. With an interval that
 *   is not a score interval verdict and p-value can disagree (note `interval_and_test_disagree`)
 * @throws InputError where both or none of the two kinds of counts are given, a margin lies on the wrong
 *   side, a ratio is asked of paired results, or a count is larger than its total
 * Sources: tango1998 (paired), farrington1990, miettinen1985 (groups), koopman1984 (ratio)
 */
export function judgeNoninferiority(
  input: NoninferiorityInput,
  options: NoninferiorityOptions,
): Finding<NoninferiorityValues> {
  const bounds = boundsOf(input);
  const higher = input.direction === "higher_is_better";
  const worst = higher ? bounds.low : bounds.high;
  const margins = { worst, best: higher ? bounds.high : bounds.low };
  const tests = testsOf(input, options);
  if (tests === null) {
    const values = { effect: NOT_ESTIMABLE, ...margins, noninferiority: NO_ANSWER, equivalence: NO_ANSWER };
    const message = "nobody was observed, or the ratio is 0 divided by 0: nothing to compare";
    const paths = ["effect", "noninferiority", "equivalence"];
    return { values, notes: notesAt("not_estimable", paths, message) };
  }
  // Here the upper limit is absent only where a ratio is infinite.
  const limits = { lower: tests.effect.lower, upper: tests.effect.upper ?? Number.POSITIVE_INFINITY };
  const [aboveLow, belowHigh] = [tests.above(bounds.low), tests.below(bounds.high)];
  const values = {
    effect: tests.effect,
    ...margins,
    noninferiority: {
      verdict: verdictOf(limits, worst, higher ? "at_least" : "at_most"),
      pValue: higher ? aboveLow : belowHigh,
    },
    equivalence: { verdict: within(limits, bounds), pValue: Math.max(aboveLow, belowHigh) },
  };
  return { values, notes: notesOn(values, tests, input, options) };
}

const NO_ANSWER = { verdict: "not_estimable", pValue: null } as const;

interface Bounds {
  readonly low: number;
  readonly high: number;
}

/** The two margins, from the one stated and its counterpart. */
function boundsOf({ margin, scale, direction }: NoninferiorityInput): Bounds {
  const place = ["input", "margin"];
  if (scale === "difference") {
    if (margin > 0 && margin < 1) return { low: -margin, high: margin };
    throw new InputError(
      place,
      "a difference above 0 and below 1, without a sign: direction gives it",
      margin,
    );
  }
  if (direction === "higher_is_better") {
    if (margin > 0 && margin < 1) return { low: margin, high: 1 / margin };
    throw new InputError(place, "a ratio above 0 and below 1, as higher is better", margin);
  }
  if (margin > 1) return { low: 1 / margin, high: margin };
  throw new InputError(place, "a ratio above 1, as lower is better", margin);
}

function testsOf(input: NoninferiorityInput, options: NoninferiorityOptions): MarginTests | null {
  const { paired, unpaired, scale } = input;
  const level = 1 - 2 * options.alpha;
  if ((paired === undefined) === (unpaired === undefined)) {
    const came = paired === undefined ? "neither" : "both";
    throw new InputError(["input"], "one of paired and unpaired", came);
  }
  if (paired !== undefined) {
    if (scale === "difference") return pairedTests(paired, options.pairedInterval, level);
    throw new InputError(["input", "scale"], "difference, for paired results", scale);
  }
  const { first, second } = unpaired as NonNullable<typeof unpaired>;
  requireGroups({ first, second }, ["input", "unpaired"]);
  return scale === "difference"
    ? differenceTests(first, second, options.differenceInterval, level)
    : ratioTests(first, second, options.ratioInterval, level);
}

function within({ lower, upper }: { lower: number | null; upper: number }, { low, high }: Bounds): Verdict {
  if (lower === null) return "not_estimable";
  if (lower >= low && upper <= high) return "met";
  return lower > high || upper < low ? "not_met" : "undecided";
}

function notesOn(
  values: NoninferiorityValues,
  tests: MarginTests,
  { paired, scale }: NoninferiorityInput,
  { alpha, ratioInterval }: NoninferiorityOptions,
): Note[] {
  const notes: Note[] = [];
  if (tests.effect.upper === null) {
    const message = "no such result in the second group: the ratio is infinite, only a lower limit exists";
    notes.push(note("unbounded", "effect", message));
  }
  if (scale === "ratio" && tests.interval !== ratioInterval) {
    notes.push(
      note("score_interval", "effect", "the log interval has no answer here: score interval instead"),
    );
  }
  if (paired !== undefined && paired.firstOnly + paired.secondOnly === 0) {
    const message =
      "both results agree in everybody, as when something is compared with itself: only the number of people limits what can be said";
    notes.push(note("no_discordance", "effect", message));
  }
  if (tests.effect.lower === tests.effect.upper) {
    notes.push(note("no_width", "effect", "Wald's interval has no width here: its verdicts mean nothing"));
  }
  if (SCORE_INTERVALS.includes(tests.interval)) return notes;
  for (const path of ["noninferiority", "equivalence"] as const) {
    const { verdict, pValue } = values[path];
    if ((verdict === "met") === (pValue !== null && pValue <= alpha)) continue;
    const message = "the interval and the score test disagree: the verdict is the interval's";
    notes.push(note("interval_and_test_disagree", path, message));
  }
  return notes;
}

export const noninferiority = defineMethod({
  id: "comparison.noninferiority",
  version: 1,
  title: "Non-inferiority and equivalence of two kits",
  question: "Is the new kit or specimen good enough beside the other one?",
  formula:
    "higher is better, margin m: not inferior if the lower limit of first - second at level 1 - 2 alpha is -m or above; p = P(Z >= score statistic of the difference -m). Equivalent if the interval lies in -m..m; p the larger of the two. Ratio, margin r: lower limit of first / second at least r; equivalent within r..1/r. Lower is better: mirrored",
  caution:
    "state the margin before the data are seen; a margin of the size that matters to patients, not of what the study can show. No difference found is not equivalence. Not met means worse by more than the margin, undecided that the study is too small. For paired results take people of one reference status",
  sources: ["tango1998", "farrington1990", "miettinen1985", "koopman1984"],
  input: Input,
  options: Options,
  values: Values,
  run: judgeNoninferiority,
  examples: noninferiorityExamples,
});
