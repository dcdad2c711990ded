import * as v from "valibot";
import { choice, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { type OutcomeOf, oneOutcomeFields, outcomeOf } from "./one-outcome.ts";
import { centres, KIT_QUANTITIES, placesOf } from "./quantities.ts";
import { scaledDependence } from "./scaled-dependence.ts";
import { twoWayExamples } from "./two-way-examples.ts";

const MOST_VALUES = 101;
const values = (meaning: string) =>
  v.pipe(
    v.array(
      v.pipe(
        v.number(),
        v.minValue(0, "expected 0 or more"),
        v.maxValue(1e9, "expected at most 1,000,000,000"),
      ),
    ),
    v.minLength(1, "expected one value or more"),
    v.maxLength(MOST_VALUES, `expected at most ${MOST_VALUES} values`),
    v.description(meaning),
  );
const axis = (meaning: string) =>
  v.pipe(
    v.variant("kind", [
      v.strictObject({
        kind: v.literal("kit"),
        kit: text("id of a kit"),
        quantity: choice(KIT_QUANTITIES, "what of the kit is moved"),
        values: values("the values that it takes"),
      }),
      v.strictObject({ kind: v.literal("prevalence"), values: values("the prevalences") }),
      v.strictObject({
        kind: v.literal("dependence"),
        values: values("multiples of the dependence stated: 0 is independence, 1 is as stated"),
      }),
    ]),
    v.description(meaning),
  );
const Input = v.strictObject({
  ...oneOutcomeFields,
  first: axis("input that is moved from row to row"),
  second: axis("another input, moved from column to column"),
});
const Options = v.strictObject({});
const Values = v.strictObject({
  first: text("what is moved from row to row"),
  second: text("what is moved from column to column"),
  rows: v.pipe(
    v.array(v.array(quantity("statistic", "the outcome; null where it can't be had, see the notes"))),
    v.description(
      "a row for each value of the first, a column for each of the second, all else at its median",
    ),
  ),
});
export type TwoWayInput = v.InferOutput<typeof Input>;
export type TwoWayValues = v.InferOutput<typeof Values>;
type Axis = TwoWayInput["first"];

/**
 * An outcome over a grid of two inputs, all others at their medians: two sensitivities, a specificity and the
 * prevalence, or the strength of the dependence and anything else.
 *
 * @param input one algorithm, what is known of kits, prevalence and costs, the outcome, and two axes
 * @returns `null` where nobody ends so, or where the kits do not allow the error correlations there
 * @throws InputError where an axis names no kit or leaves its range, or both are the same
 */
export function twoWay(input: TwoWayInput): Finding<TwoWayValues> {
  const names = [nameOf(input.first), nameOf(input.second)] as const;
  if (names[0] === names[1])
    throw new InputError(["input", "second"], `another input than ${names[0]}`, names[1]);
  const outcome = outcomesOf(input);
  const middle = centres(outcome(1).prepared.quantities);
  const axes = [placeOf(input, "first"), placeOf(input, "second")] as const;
  const missing = { undefined: 0, impossible: 0 };
  const rows = input.first.values.map((one) =>
    input.second.values.map((other) => {
      const vector = middle.slice();
      let strength = 1;
      for (const [place, value] of [
        [axes[0], one],
        [axes[1], other],
      ] as const) {
        if (place === null) strength = value;
        else vector[place] = value;
      }
      const { value, possible } = outcome(strength).at(vector);
      if (!possible) missing.impossible += 1;
      else if (value === null) missing.undefined += 1;
      return possible ? value : null;
    }),
  );
  return { values: { first: names[0], second: names[1], rows }, notes: notesOn(missing) };
}

/** The algorithm under each strength of dependence, made ready once. */
function outcomesOf(input: TwoWayInput): (strength: number) => OutcomeOf {
  const ready = new Map<number, OutcomeOf>();
  return (strength) => {
    const known = ready.get(strength);
    if (known !== undefined) return known;
    const dependence = scaledDependence(input.dependence, strength);
    const made = outcomeOf({ ...input, dependence }, strength === 1);
    ready.set(strength, made);
    return made;
  };
}

function nameOf(axis: Axis): string {
  if (axis.kind === "kit") return `${axis.kit} ${axis.quantity}`;
  return axis.kind === "prevalence" ? "prevalence" : "strength of the dependence";
}

/** Where the axis stands among the quantities; `null` for the dependence. */
function placeOf(input: TwoWayInput, side: "first" | "second"): number | null {
  const axis = input[side];
  if (axis.kind === "dependence") {
    if (input.dependence.kind !== "independent") return null;
    throw new InputError(["input", side], "an input that can be moved: no dependence is stated", axis.kind);
  }
  const isPrice = axis.kind === "kit" && axis.quantity === "price";
  for (const [at, value] of axis.values.entries()) {
    if (isPrice || value <= 1) continue;
    throw new InputError(["input", side, "values", at], "a share between 0 and 1", value);
  }
  if (axis.kind === "prevalence") return placesOf(input.kits.length).prevalences;
  const kit = input.kits.findIndex(({ id }) => id === axis.kit);
  if (kit < 0) throw new InputError(["input", side, "kit"], "the id of one of the kits", axis.kit);
  return kit * KIT_QUANTITIES.length + KIT_QUANTITIES.indexOf(axis.quantity);
}

function notesOn(missing: { readonly undefined: number; readonly impossible: number }): Note[] {
  const notes: Note[] = [];
  if (missing.undefined > 0) {
    notes.push(note("undefined_outcome", "rows", `in ${missing.undefined} cells nobody ends so`));
  }
  if (missing.impossible > 0) {
    const message = `in ${missing.impossible} cells the kits do not allow an error correlation so strong`;
    notes.push(note("dependence_not_possible", "rows", message));
  }
  return notes;
}

export const algorithmsTwoWay = defineMethod({
  id: "algorithms.two_way",
  version: 1,
  title: "An algorithm's outcome over two inputs",
  question: "How does the outcome of an algorithm change with two inputs together?",
  formula:
    "the exact outcome at every pair of values, all other inputs at their medians; a multiple of the dependence multiplies every error correlation, or the spread of every shared effect",
  caution:
    "all other inputs are held at their medians. Values are as probable as they are, not as often as they stand in the grid",
  sources: ["brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: twoWay,
  examples: twoWayExamples,
});
