import * as v from "valibot";
import { choice, count, level, openProportion, proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { binomialCdf } from "../../numeric/binomial.ts";
import { incompleteBeta } from "../../numeric/incomplete-beta.ts";
import { notesAt } from "../notes-at.ts";
import { CRITERION_RULES, VERDICTS } from "../proportion/criterion.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { assuranceExamples } from "./assurance-examples.ts";
import { assuranceSearch, type SoFar, type TargetReached } from "./assurance-search.ts";
import { betaBinomialAtLeast } from "./beta-binomial.ts";
import { inFavour, type VerdictBorders, verdictBorders, verdictOn } from "./verdict-borders.ts";

const whole = (least: number, most: number, meaning: string) =>
  v.pipe(
    v.number(),
    v.integer("expected a whole number"),
    v.minValue(least, `expected ${least} or more`),
    v.maxValue(most, `expected at most ${most}`),
    v.description(meaning),
  );
const Input = v.strictObject({
  count: count("how many of them so far"),
  total: count("of how many observed so far"),
  threshold: proportion("the proportion demanded"),
  direction: choice(["at_least", "at_most"], "which side of the threshold is demanded"),
  further: whole(0, 1_000_000, "more people to be observed"),
});
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  sides: v.optional(choice(["two", "one"], "as of proportion.criterion"), "two"),
  rule: v.optional(choice(CRITERION_RULES, "as of proportion.criterion")),
  targets: v.optional(
    v.pipe(
      v.array(openProportion("an assurance wanted")),
      v.description("assurances wanted, up to ten"),
      v.maxLength(10),
    ),
    [0.8, 0.9],
  ),
  horizon: v.optional(whole(0, 100_000, "most further people looked at for the targets"), 10_000),
});
const Outlook = (meaning: string) =>
  v.pipe(
    v.strictObject({
      met: quantity("probability", "probability that the criterion will then be met"),
      notMet: quantity("probability", "probability that it will then not be met"),
      undecided: quantity("probability", "probability that it will still be undecided"),
    }),
    v.description(meaning),
  );
const Smallest = (meaning: string) =>
  v.pipe(
    v.strictObject({
      first: quantity("people", "fewest further people that reach the target"),
      stays: quantity("people", "further people from which on it stays reached, up to the horizon"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  verdictNow: choice(VERDICTS, "is the criterion met so far"),
  probabilityNow: quantity("probability", "posterior probability that the criterion is truly reached"),
  totalThen: count("people observed then"),
  countThen: quantity("count", "count that would then meet it: at least, or at most, so many"),
  estimateHeld: Outlook("if the true proportion is the one observed"),
  predictive: Outlook("the true proportion being as uncertain as the data leave it, Jeffreys prior"),
  smallest: v.pipe(
    v.array(
      v.strictObject({
        target: quantity("probability", "assurance wanted"),
        estimateHeld: Smallest("if the true proportion is the one observed"),
        predictive: Smallest("the true proportion being uncertain"),
      }),
    ),
    v.description("one entry for each target"),
  ),
});
export type AssuranceInput = v.InferOutput<typeof Input>;
export type AssuranceOptions = v.InferOutput<typeof Options>;
export type AssuranceValues = v.InferOutput<typeof Values>;

/**
 * What more people would make of a criterion: the probability that it will then be met.
 *
 * Sums over every result that the further people may bring; the verdict on each is that of
 * `proportion.criterion` on all people together.
 *
 * @param input   counts so far, the criterion, and how many more
 * @param options interval, level, rule as of the criterion; targets and how far to look for them
 * @returns probabilities in 0..1; numbers of further people. `null` with a note where nothing was observed
 *   so far, or no number up to the horizon reaches a target
 * The assurance goes up and down from one total to the next: `first` may be undone, `stays` is not.
 * Sources: spiegelhalter1986, ohagan2005, brown2001
 */
export function assuranceOf(input: AssuranceInput, options: AssuranceOptions): Finding<AssuranceValues> {
  const { count: seen, total, threshold, direction, further } = input;
  if (seen > total) throw new InputError(["input", "count"], `at most the total, ${total}`, seen);
  if (total === 0) return nothing(further, options.targets);
  const favourable = inFavour(seen, total, direction);
  const posterior = { a: favourable + 0.5, b: total - favourable + 0.5 };
  const soFar = { favourable, total, posterior };
  const totalThen = total + further;
  const borders = verdictBorders(totalThen, input, options);
  const values: AssuranceValues = {
    verdictNow: verdictOn(favourable, total, input, options),
    probabilityNow: incompleteBeta(
      threshold,
      seen + 0.5,
      total - seen + 0.5,
      direction === "at_least" ? "upper" : "lower",
    ),
    totalThen,
    countThen: borders.met > totalThen ? null : inFavour(borders.met, totalThen, direction),
    ...outlooks(soFar, further, borders),
    smallest: assuranceSearch(soFar, input, options, options.targets, options.horizon),
  };
  return { values, notes: notesOn(values, options.horizon) };
}

function outlooks(soFar: SoFar, further: number, borders: VerdictBorders) {
  const { favourable, total, posterior } = soFar;
  const toMeet = borders.met - favourable;
  const toFail = borders.notMet - favourable;
  const share = favourable / total;
  const mirrored = { a: posterior.b, b: posterior.a };
  return {
    estimateHeld: outlook(
      toMeet <= 0 ? 1 : binomialCdf(toMeet - 1, further, share, "upper"),
      toFail < 0 ? 0 : binomialCdf(toFail, further, share, "lower"),
    ),
    predictive: outlook(
      betaBinomialAtLeast(toMeet, further, posterior),
      toFail < 0 ? 0 : betaBinomialAtLeast(further - toFail, further, mirrored),
    ),
  };
}

function outlook(met: number, notMet: number) {
  return { met, notMet, undecided: Math.max(0, 1 - met - notMet) };
}

function nothing(further: number, targets: readonly number[]): Finding<AssuranceValues> {
  const none = { met: null, notMet: null, undecided: null };
  const never = { first: null, stays: null };
  const values: AssuranceValues = {
    verdictNow: "not_estimable",
    probabilityNow: null,
    totalThen: further,
    countThen: null,
    estimateHeld: none,
    predictive: none,
    smallest: targets.map((target) => ({ target, estimateHeld: never, predictive: never })),
  };
  const paths = ["probabilityNow", "countThen", "estimateHeld", "predictive", "smallest"];
  return { values, notes: notesAt("no_observations", paths, "nothing was observed so far") };
}

function notesOn(values: AssuranceValues, horizon: number): Note[] {
  const notes: Note[] = [];
  if (values.countThen === null) {
    notes.push(note("out_of_reach", "countThen", "with so many people no result meets the criterion"));
  }
  if (values.verdictNow !== "undecided") {
    const message = "the criterion is decided already; more people may confirm or undo it";
    notes.push(note("decided", "verdictNow", message));
  }
  for (const [at, entry] of values.smallest.entries()) {
    notes.push(...beyond(entry as TargetReached, at, horizon, values.probabilityNow ?? 0));
  }
  return notes;
}

function beyond(entry: TargetReached, at: number, horizon: number, probability: number): Note[] {
  const notes: Note[] = [];
  for (const kind of ["estimateHeld", "predictive"] as const) {
    const { first, stays } = entry[kind];
    if (first !== null && stays !== null) continue;
    const path = `smallest.${at}.${kind}${first === null ? "" : ".stays"}`;
    const limit =
      kind === "predictive" && probability < entry.target
        ? ": however many people, it tends to the probability that the criterion is truly reached"
        : "";
    notes.push(
      note(
        "beyond_horizon",
        path,
        `no number up to ${horizon.toLocaleString("en-GB")} more people reaches it for good${limit}`,
      ),
    );
  }
  return notes;
}

export const decisionAssurance = defineMethod({
  id: "decision.assurance",
  version: 1,
  title: "Assurance of a criterion",
  question: "How probable is it that more people will show the criterion to be met?",
  formula:
    "sum over k of P(k of the further people) where (count + k) of (total + further) meets the criterion. Estimate held: k is binomial with the observed proportion. Predictive: k is beta-binomial with count + 1/2 and total - count + 1/2",
  caution:
    "the estimate is itself uncertain: the first figure is too sure of itself, the second is the honest one. Looking again after more people, and stopping when met, needs a rule fixed beforehand",
  sources: ["spiegelhalter1986", "ohagan2005", "brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: assuranceOf,
  examples: assuranceExamples,
});
