import * as v from "valibot";
import { openProportion, proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { metBorderNear } from "../decision/verdict-borders.ts";
import type { CriterionOptions } from "../proportion/criterion.ts";
import { chanceMet, metBorder } from "./criterion-chance.ts";
import { criterionSizeExamples } from "./criterion-size-examples.ts";
import { fewestFlawless } from "./fewest-flawless.ts";
import { criterionOptions, direction, horizon, NO_SIZE, power, Size, type SizeValues } from "./fields.ts";
import { searchSizes } from "./size-search.ts";

const Input = v.strictObject({
  expected: proportion("the true proportion expected"),
  threshold: openProportion("the proportion demanded"),
  direction: direction(),
});
const Options = v.strictObject({ ...criterionOptions, power: power(), horizon: horizon() });
const Values = v.strictObject({
  first: Size("the first total that reaches the power; a larger one may miss it again"),
  stays: Size("the total from which on every larger one reaches it, up to the horizon"),
  fewest: quantity("people", "fewest people with whom a result without a fault meets the criterion"),
});
export type CriterionSizeInput = v.InferOutput<typeof Input>;
export type CriterionSizeOptions = v.InferOutput<typeof Options>;
export type CriterionSizeValues = v.InferOutput<typeof Values>;

/** One tooth of the power curve. */
export interface PowerPoint {
  readonly total: number;
  /** Fewest in favour that meet the criterion; `null` where no result does. */
  readonly needed: number | null;
  readonly power: number;
}

/**
 * How many people it takes to show that a criterion is met, with a stated probability.
 *
 * Exact: the verdict is that of `proportion.criterion`, its probability the binomial one at the proportion
 * expected. Power is a saw-tooth in the total: `first` may be undone by one person more, `stays` is not.
 *
 * @param input   proportion expected, threshold, and which side of it is demanded
 * @param options interval, level, rule as of the criterion; power wanted, and how far to look
 * @returns totals of people; `null` with a note where what is expected lies on the wrong side of the
 *   threshold, or nothing up to the horizon reaches the power
 * @throws InputError for one-sided limits of Blaker's interval
 * Sources: flahault2005, chernick2002
 */
export function criterionSize(
  input: CriterionSizeInput,
  options: CriterionSizeOptions,
): Finding<CriterionSizeValues> {
  const { expected, threshold, direction: side } = input;
  const fewest = fewestFlawless(input, options, options.horizon);
  const noFewest = fewest === null ? [note("beyond_horizon", "fewest", neverFlawless(options))] : [];
  if (side === "at_least" ? expected <= threshold : expected >= threshold) {
    const message =
      "the proportion expected does not lie beyond the one demanded, so that no number of people can show it: set an easier threshold, or choose a kit that is expected beyond it";
    const notes = ["first", "stays"].map((path) => note("not_beyond_threshold", path, message));
    return { values: { first: NO_SIZE, stays: NO_SIZE, fewest }, notes: [...notes, ...noFewest] };
  }
  const found = searchSizes({ demand: input, expected, options, power: options.power }, options.horizon);
  const values = {
    first: sizeAt(found.first, input, options),
    stays: sizeAt(found.stays, input, options),
    fewest,
  };
  return { values, notes: [...notesOn(values, options), ...noFewest] };
}

/**
 * The power of each total from one to another: a saw-tooth.
 *
 * @param from first total, whole, 1 or more
 * @param to   last total, whole; none are given where it is below the first
 * @throws InputError where a total is not whole or below 1
 */
export function powerCurve(
  input: CriterionSizeInput,
  options: CriterionOptions,
  from: number,
  to: number,
): PowerPoint[] {
  if (!(Number.isSafeInteger(from) && from >= 1))
    throw new InputError(["from"], "a whole number from 1", from);
  if (!Number.isSafeInteger(to)) throw new InputError(["to"], "a whole number", to);
  const points: PowerPoint[] = [];
  let border = from > to ? 0 : metBorder(from, input, options);
  for (let total = from; total <= to; total += 1) {
    border = metBorderNear(border, total, input, options);
    const chance = chanceMet(border, total, input.expected, input.direction);
    points.push({ total, needed: border > total ? null : border, power: chance });
  }
  return points;
}

/** The size with its borders and powers. */
function sizeAt(total: number | null, input: CriterionSizeInput, options: CriterionOptions): SizeValues {
  if (total === null) return NO_SIZE;
  const needed = metBorder(total, input, options);
  const before = total - 1;
  const neededBefore = before === 0 ? 1 : metBorder(before, input, options);
  return {
    total,
    needed,
    allowed: total - needed,
    power: chanceMet(needed, total, input.expected, input.direction),
    powerBefore: chanceMet(neededBefore, before, input.expected, input.direction),
  };
}

function notesOn({ first, stays }: CriterionSizeValues, options: CriterionSizeOptions): Note[] {
  const notes = [...ruleNotes(options)];
  const upTo = `up to ${options.horizon.toLocaleString("en-GB")} people`;
  if (first.total === null) {
    const message = `no total ${upTo} reaches the power wanted: set an easier threshold, choose a kit that is expected further beyond it, accept a lower power or level, or look beyond`;
    notes.push(note("beyond_horizon", "first", message), note("beyond_horizon", "stays", message));
  } else if (stays.total === null) {
    const message = `the power is reached, but not for good, ${upTo}: look beyond, or take the first total exactly as it is`;
    notes.push(note("beyond_horizon", "stays", message));
  }
  return notes;
}

/** Ways of judging that make a study look better than it is. */
function ruleNotes({ method, rule }: CriterionSizeOptions): Note[] {
  if (rule === "point") {
    const message =
      "judged by the estimate alone, a kit just at the threshold passes about half the time: let the interval decide";
    return [note("no_uncertainty", "first", message)];
  }
  if (method !== "wald") return [];
  const message =
    "Wald's interval has no width where nothing fails, so that a single person may do: choose another interval";
  return [note("no_uncertainty", "first", message)];
}

function neverFlawless({ horizon: most }: CriterionSizeOptions): string {
  return `even a result without a fault in ${most.toLocaleString("en-GB")} people would not meet the criterion: set an easier threshold, lower the level, or look beyond`;
}

export const planningCriterionSize = defineMethod({
  id: "planning.criterion_size",
  version: 1,
  title: "People needed to meet a criterion",
  question: "How many people does it take to show, with good probability, that the criterion is met?",
  formula:
    "power(n) = sum over k of P(k of n | proportion expected) where k of n meets the criterion; first: smallest n with power(n) at or above the one wanted; stays: one more than the largest n up to the horizon that misses it",
  caution:
    "people with the condition (or without it) are counted, not people enrolled. Power goes up and down with the total: one person more may lose it. Everything hangs on the proportion expected: a guess a little too high makes the study much too small",
  sources: ["flahault2005", "chernick2002"],
  input: Input,
  options: Options,
  values: Values,
  run: criterionSize,
  examples: criterionSizeExamples,
});
