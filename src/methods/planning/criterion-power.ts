import * as v from "valibot";
import { openProportion, proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { binomialCdf } from "../../numeric/binomial.ts";
import { type VerdictBorders, verdictBorders } from "../decision/verdict-borders.ts";
import { notesAt } from "../notes-at.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";
import { chanceMet, errorOutside } from "./criterion-chance.ts";
import { fewestFlawless } from "./fewest-flawless.ts";
import { criterionOptions, direction, whole } from "./fields.ts";

const Input = v.strictObject({
  expected: proportion("the true proportion expected"),
  threshold: openProportion("the proportion demanded"),
  direction: direction(),
  total: whole(1, 10_000_000, "people in the study"),
});
const Options = v.strictObject(criterionOptions);
const Values = v.strictObject({
  needed: quantity("count", "fewest in favour with which the criterion is met"),
  allowed: quantity("count", "most against with which it is still met"),
  ruledOut: quantity("count", "most in favour with which it is not met, so that the kit is ruled out"),
  met: quantity("probability", "probability that it is met, if the truth is what is expected"),
  notMet: quantity("probability", "probability that it is not met, if the truth is what is expected"),
  undecided: quantity("probability", "probability that it stays undecided, likewise"),
  atThreshold: quantity("probability", "probability that it is met if the truth is just the threshold"),
  notMetAtThreshold: quantity(
    "probability",
    "probability that it is not met if the truth is just the threshold",
  ),
});
export type CriterionPowerInput = v.InferOutput<typeof Input>;
export type CriterionPowerOptions = v.InferOutput<typeof Options>;
export type CriterionPowerValues = v.InferOutput<typeof Values>;

/**
 * What a study of so many people can show: which results meet the criterion, and how probable they are.
 *
 * Exact: the verdict is that of `proportion.criterion`, its probability the binomial one.
 *
 * @param input   proportion expected, threshold, which side of it is demanded, people
 * @param options interval, level, rule as of the criterion
 * @returns counts in favour or against (events in favour under `at_least`, the others under `at_most`) and
 *   probabilities in 0..1; a count is `null` with a note where no result of so many people gives the verdict
 * @throws InputError for one-sided limits of Blaker's interval
 * Sources: chernick2002, clopper1934
 */
export function criterionPower(
  input: CriterionPowerInput,
  options: CriterionPowerOptions,
): Finding<CriterionPowerValues> {
  const { expected, threshold, direction: side, total } = input;
  const borders = verdictBorders(total, input, options);
  const met = chanceMet(borders.met, total, expected, side);
  const notMet = chanceNotMet(borders.notMet, total, expected, side);
  const reachable = borders.met <= total;
  const values = {
    needed: reachable ? borders.met : null,
    allowed: reachable ? total - borders.met : null,
    ruledOut: borders.notMet >= 0 ? borders.notMet : null,
    met,
    notMet,
    undecided: Math.max(0, 1 - met - notMet),
    atThreshold: chanceMet(borders.met, total, threshold, side),
    notMetAtThreshold: chanceNotMet(borders.notMet, total, threshold, side),
  };
  return { values, notes: [...borderNotes(borders, input, options), ...chanceNotes(values, input, options)] };
}

/** The probability that so many or fewer are in favour. */
function chanceNotMet(
  most: number,
  total: number,
  truth: number,
  side: CriterionPowerInput["direction"],
): number {
  if (most < 0) return 0;
  return side === "at_least"
    ? binomialCdf(most, total, truth, "lower")
    : binomialCdf(total - most - 1, total, truth, "upper");
}

/** Totals beyond this are not named in a note. */
const MOST = 100_000_000;

function borderNotes(borders: VerdictBorders, input: CriterionPowerInput, options: CriterionOptions): Note[] {
  const notes: Note[] = [];
  if (borders.met > input.total) {
    // Blaker's interval lies within the exact one, which does not lose with more people what it has met.
    const safe = options.method === "blaker" ? { ...options, method: "clopper_pearson" as const } : options;
    const fewest = fewestFlawless(input, safe, MOST);
    const advice =
      fewest === null ? "set an easier threshold" : `take ${fewest.toLocaleString("en-GB")} people or more`;
    const message = `even a result without a fault in so few people does not meet the criterion: ${advice}`;
    notes.push(...notesAt("out_of_reach", ["needed", "allowed"], message));
  }
  if (borders.notMet < 0) {
    const message = "no result of so few people rules a kit out: take more";
    notes.push(note("out_of_reach", "ruledOut", message));
  }
  return notes;
}

function chanceNotes(
  { atThreshold }: { readonly atThreshold: number },
  { expected, threshold, direction: side }: CriterionPowerInput,
  options: CriterionOptions,
): Note[] {
  const notes: Note[] = [];
  if (side === "at_least" ? expected <= threshold : expected >= threshold) {
    const message =
      "the proportion expected does not lie beyond the one demanded: the criterion would be met by error. Set an easier threshold, or choose a kit that is expected beyond it";
    notes.push(note("not_beyond_threshold", "met", message));
  }
  if (options.rule === "point") {
    const message = "judged by the estimate alone, a kit just at the threshold passes about half the time";
    notes.push(note("error_above_level", "atThreshold", message));
  } else if (atThreshold > errorOutside(options) * (1 + 1e-9)) {
    const message =
      "with this interval and total a kit just at the threshold passes more often than the level allows: take the exact interval, or another total";
    notes.push(note("error_above_level", "atThreshold", message));
  }
  return notes;
}

export const planningCriterionPower = defineMethod({
  id: "planning.criterion_power",
  version: 1,
  title: "Power of a study against a criterion",
  question: "What can a study of so many people show about the criterion?",
  formula:
    "needed: smallest k where k of n meets the criterion; met: P(k or more | proportion expected); at the threshold: P(k or more | threshold)",
  caution:
    "power goes up and down with the total: look at its neighbours too. Undecided is a result, and in a small study the most probable one",
  sources: ["chernick2002", "clopper1934"],
  input: Input,
  options: Options,
  values: Values,
  run: criterionPower,
  examples: [
    {
      name: "100 people, 95 % expected, at least 85 % demanded",
      input: { expected: 0.95, threshold: 0.85, direction: "at_least", total: 100 },
      expect: { needed: 93, atThreshold: 0.0121651919061671, met: 0.872039521379621 },
      tolerance: { relative: 1e-8 },
      source: "no publication: recomputed",
      recomputedBy: "R 4.2.2: pbinom; SciPy 1.10.1",
    },
    {
      name: "20 people can't show at least 95 %",
      input: { expected: 0.99, threshold: 0.95, direction: "at_least", total: 20 },
      expect: { needed: null, met: 0, ruledOut: 16, notMet: 4.26209276424403e-5 },
      tolerance: { relative: 1e-8 },
      source: "no publication: recomputed",
      recomputedBy: "R 4.2.2: qbeta, pbinom",
    },
  ],
});
