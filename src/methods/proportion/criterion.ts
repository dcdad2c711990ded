import * as v from "valibot";
import type { ProportionEstimate } from "../../core/estimate.ts";
import { choice, count, level, proportion, proportionEstimate, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import type { Note } from "../../core/note.ts";
import { incompleteBeta } from "../../numeric/incomplete-beta.ts";
import { notesAt } from "../notes-at.ts";
import { intervalMethod } from "./intervals/fields.ts";
import {
  estimateProportion,
  type IntervalSettings,
  lowerLimit,
  proportionInterval,
  upperLimit,
} from "./proportion-interval.ts";
import { settledTotal } from "./settle.ts";

export const VERDICTS = ["met", "not_met", "undecided", "not_estimable"] as const;
export type Verdict = (typeof VERDICTS)[number];

/** What is held against the threshold: the limits, limits that are one-sided, or the estimate alone. */
export const CRITERION_RULES = ["interval", "point", "one_sided"] as const;

const Input = v.strictObject({
  count: count("how many of them"),
  total: count("of how many observed"),
  threshold: proportion("the proportion demanded"),
  direction: choice(["at_least", "at_most"], "which side of the threshold is demanded"),
});
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  sides: v.optional(
    choice(["two", "one"], "two: limits of the two-sided interval; one: each limit one-sided at the level"),
    "two",
  ),
  rule: v.optional(
    choice(
      CRITERION_RULES,
      "interval (also when absent): limits decide; one_sided: limits one-sided at the level; point: the estimate alone decides",
    ),
  ),
});
const Values = v.strictObject({
  proportion: proportionEstimate("proportion observed, with its interval"),
  verdict: choice(VERDICTS, "is the criterion met"),
  probability: quantity(
    "probability",
    "posterior probability that the true proportion satisfies the criterion, Jeffreys prior",
  ),
  settledBy: quantity(
    "count",
    "total from which on the same observed proportion decides; the present total if decided already",
  ),
  further: quantity("count", "further observations that takes; 0 if decided already"),
});
export type CriterionInput = v.InferOutput<typeof Input>;
export type CriterionOptions = v.InferOutput<typeof Options>;
export type CriterionValues = v.InferOutput<typeof Values>;

/** Totals beyond this are not searched; a hundred times the present total where that is more. */
export const SETTLE_HORIZON = 10_000_000;

/**
 * Is the criterion met, not met, or is the study too small to say?
 *
 * "At least c": met if the lower limit is c or above, not met if the upper limit is below c, else
 * undecided; "at most c" is the mirror image.
 *
 * @param input   counts of independent observations; threshold in 0..1
 * @param options interval and level; sides `one` makes each limit one-sided at the full level
 * @returns verdict, posterior probability, and how many observations would decide. `settledBy` counts
 *   the observed proportion rounded towards the threshold, and is the total from which on the verdict
 *   stays, not the first that happens to decide. Under the rule `point` it is never undecided, however
 *   small the study, and passes about half of the kits that lie exactly at the threshold; the interval
 *   and the probability are given all the same
 */
export function judgeCriterion(input: CriterionInput, options: CriterionOptions): Finding<CriterionValues> {
  const { count: seen, total, threshold, direction } = input;
  if (seen > total) throw new InputError(["input", "count"], `at most the total, ${total}`, seen);
  const settings = settingsOf(options);
  const estimated = estimateProportion(seen, total, settings);
  const verdict = verdictOf(judgedBy(estimated, options), threshold, direction);
  if (verdict === "not_estimable") {
    const values = { proportion: estimated, verdict, probability: null, settledBy: null, further: null };
    const paths = ["proportion", "probability", "settledBy", "further"];
    return { values, notes: notesAt("no_observations", paths, "nothing was observed") };
  }
  const tail = direction === "at_least" ? "upper" : "lower";
  const probability = incompleteBeta(threshold, seen + 0.5, total - seen + 0.5, tail);
  const { settledBy, notes } = settle(input, settings, verdict);
  const further = settledBy === null ? null : settledBy - total;
  return { values: { proportion: estimated, verdict, probability, settledBy, further }, notes };
}

/** The verdict on so many of so many, without the rest. Arguments as of the method, total 1 or more. */
export function criterionVerdict(
  { count: seen, total, threshold, direction }: CriterionInput,
  options: CriterionOptions,
): Verdict {
  const settings = options.rule === "point" ? null : settingsOf(options);
  const share = seen / total;
  const limits =
    settings === null ? { lower: share, upper: share } : proportionInterval(seen, total, settings);
  return verdictOf(limits, threshold, direction);
}

/** Under the rule `point` the estimate takes the place of both limits. */
function judgedBy(estimated: ProportionEstimate, { rule }: CriterionOptions) {
  return rule === "point" ? { lower: estimated.value, upper: estimated.value } : estimated;
}

/** One-sided limits at a level are the limits of a two-sided interval with twice the error. */
function settingsOf({ method, level: wanted, sides, rule }: CriterionOptions): IntervalSettings {
  if (sides === "two" && rule !== "one_sided") return { method, level: wanted };
  if (method === "blaker")
    throw new InputError(["options", "sides"], "two for the interval of Blaker", sides);
  if (!(wanted > 0.5)) throw new InputError(["options", "level"], "above 0.5 for one-sided limits", wanted);
  return { method, level: 2 * wanted - 1 };
}

/** The verdict that an interval gives. `not_estimable` where there is no interval. */
export function verdictOf(
  { lower, upper }: Pick<ProportionEstimate, "lower" | "upper">,
  threshold: number,
  direction: CriterionInput["direction"],
): Verdict {
  if (lower === null || upper === null) return "not_estimable";
  if (direction === "at_least") {
    if (lower >= threshold) return "met";
    return upper < threshold ? "not_met" : "undecided";
  }
  if (upper <= threshold) return "met";
  return lower > threshold ? "not_met" : "undecided";
}

const TO_SETTLE = ["settledBy", "further"];

function settle(
  { count: seen, total, threshold, direction }: CriterionInput,
  settings: IntervalSettings,
  verdict: Verdict,
): { settledBy: number | null; notes: Note[] } {
  if (verdict !== "undecided") return { settledBy: total, notes: [] };
  const share = seen / total;
  if (share === threshold) {
    const message =
      "the proportion observed equals the threshold: no number of observations like these decides";
    return { settledBy: null, notes: notesAt("at_threshold", TO_SETTLE, message) };
  }
  const horizon = Math.max(SETTLE_HORIZON, 100 * total);
  const settledBy = settledTotal({ ...questionOf(seen, total, threshold, direction, settings), horizon });
  if (settledBy !== null) return { settledBy, notes: [] };
  const message = `even ${horizon} observations like these would not decide`;
  return { settledBy, notes: notesAt("beyond_horizon", TO_SETTLE, message) };
}

/** The search counts as events what lies above the threshold: those seen, or the others. */
function questionOf(
  seen: number,
  total: number,
  threshold: number,
  direction: CriterionInput["direction"],
  settings: IntervalSettings,
) {
  const outside = (1 - (settings.level ?? 0.95)) / 2;
  if (seen / total > threshold) {
    const decides = (events: number, others: number) => {
      if (exactTestDecides(events, others, threshold, outside, settings.method)) return true;
      const limit = lowerLimit(events, events + others, settings);
      return direction === "at_least" ? limit >= threshold : limit > threshold;
    };
    return { events: seen, others: total - seen, decides };
  }
  const decides = (events: number, others: number) => {
    if (exactTestDecides(events, others, 1 - threshold, outside, settings.method)) return true;
    const limit = upperLimit(others, events + others, settings);
    return direction === "at_least" ? limit < threshold : limit <= threshold;
  };
  return { events: total - seen, others: seen, decides };
}

/**
 * A short way for intervals that lie within Clopper and Pearson's and take long to find: where the exact
 * one-sided test rejects clearly, the exact limit lies beyond the threshold, and theirs with it.
 */
function exactTestDecides(
  events: number,
  others: number,
  threshold: number,
  outside: number,
  method: IntervalSettings["method"],
): boolean {
  if ((method !== "blaker" && method !== "mid_p") || events === 0) return false;
  return incompleteBeta(threshold, events, others + 1, "lower") < outside * CLEARLY;
}

const CLEARLY = 1 - 1e-9;

export const criterion = defineMethod({
  id: "proportion.criterion",
  version: 1,
  title: "Is a criterion met?",
  question: "Is the criterion met, not met, or is the study too small to say?",
  formula:
    "at least c: met if lower limit >= c, not met if upper limit < c, else undecided; at most c: met if upper limit <= c, not met if lower limit > c. Probability: beta(count + 1/2, total - count + 1/2) beyond c",
  caution:
    "met speaks of these people, this specimen, lot, reader and reference. Undecided is a result, not a failure. How many would decide supposes that the observed proportion stays what it is: it is not a sample size with a stated power",
  sources: ["clopper1934", "brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: judgeCriterion,
  examples: [
    {
      name: "5 of 5 against at least 95 %: 72 without a failure would do",
      input: { count: 5, total: 5, threshold: 0.95, direction: "at_least" },
      expect: { verdict: "undecided", settledBy: 72, further: 67 },
      tolerance: { relative: 0 },
      source: "clopper1934",
      recomputedBy: "R 4.2.2: ceiling(log(.025) / log(.95))",
      memory: true,
    },
    {
      name: "5 of 5 against at least 95 %, one-sided: 59 would do",
      input: { count: 5, total: 5, threshold: 0.95, direction: "at_least" },
      options: { sides: "one" },
      expect: { verdict: "undecided", settledBy: 59, further: 54 },
      tolerance: { relative: 0 },
      source: "clopper1934",
      recomputedBy: "R 4.2.2: ceiling(log(.05) / log(.95))",
      memory: true,
    },
    {
      name: "198 of 200 against at least 98 %",
      input: { count: 198, total: 200, threshold: 0.98, direction: "at_least" },
      expect: {
        verdict: "undecided",
        "proportion.lower": 0.9643453316027603,
        probability: 0.8465356068393447,
        settledBy: 916,
      },
      tolerance: { relative: 1e-9 },
      source: "brown2001",
      recomputedBy: "R 4.2.2: qbeta, pbeta, and a search over all totals up to 50,000",
      memory: true,
    },
    {
      name: "198 of 200 against at least 98 %, judged by the estimate alone",
      input: { count: 198, total: 200, threshold: 0.98, direction: "at_least" },
      options: { rule: "point" },
      expect: { verdict: "met", settledBy: 200, probability: 0.8465356068393447 },
      tolerance: { relative: 1e-9 },
      source: "brown2001",
      recomputedBy: "R 4.2.2: pbeta; the verdict by definition",
      memory: true,
    },
    {
      name: "nothing observed",
      input: { count: 0, total: 0, threshold: 0.95, direction: "at_least" },
      expect: { verdict: "not_estimable", probability: null, settledBy: null, further: null },
      tolerance: { relative: 0 },
      source: "no publication: by definition",
    },
  ],
});
