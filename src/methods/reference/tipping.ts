import * as v from "valibot";
import { choice, level, proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { VERDICTS } from "../proportion/criterion.ts";
import { totalOf } from "./known-errors.ts";
import { CrossedCounts, ErrorCovariance, knownAccuracy } from "./known-errors-fields.ts";
import { tippingBorders } from "./tipping-borders.ts";
import { tippingExamples } from "./tipping-examples.ts";
import { type Judged, judgedAt } from "./tipping-verdict.ts";

const axis = (meaning: string) =>
  v.pipe(
    v.array(proportion(meaning)),
    v.maxLength(101, "expected at most 101 values"),
    v.description(`${meaning}: the values of the grid`),
  );
const Input = v.strictObject({
  counts: CrossedCounts,
  criterion: v.pipe(
    v.strictObject({
      measure: choice(["sensitivity", "specificity"], "what is judged"),
      threshold: proportion("the proportion demanded"),
      direction: choice(["at_least", "at_most"], "which side of the threshold is demanded"),
    }),
    v.description("what the corrected accuracy is held against"),
  ),
  reference: knownAccuracy("what is believed of the reference: where the borders are measured from"),
  covariance: ErrorCovariance,
  grid: v.pipe(
    v.strictObject({
      sensitivities: axis("sensitivity of the reference"),
      specificities: axis("specificity of the reference"),
      covariances: v.pipe(
        v.array(ErrorCovariance),
        v.maxLength(21, "expected at most 21 pairs of covariances"),
        v.description("covariances of the grid; an empty list: only those believed"),
      ),
    }),
    v.description("references to look at, every combination; an empty list of the first two: no grid"),
  ),
});
const Options = v.strictObject({
  level: level(),
  sides: v.optional(
    choice(["two", "one"], "two: limits of the two-sided interval; one: each limit one-sided at the level"),
    "two",
  ),
  rule: v.optional(
    choice(["interval", "point"], "interval: the limits decide; point: the estimate alone"),
    "interval",
  ),
});
const judged = {
  value: quantity("proportion", "corrected estimate"),
  lower: quantity("proportion", "lower limit, profile likelihood"),
  upper: quantity("proportion", "upper limit, profile likelihood"),
  verdict: choice(VERDICTS, "is the criterion met"),
  fits: v.pipe(
    v.boolean(),
    v.description("whether the table allows this reference: no corrected number of people is negative"),
  ),
};
const Cell = v.strictObject({
  referenceSensitivity: proportion("sensitivity of the reference"),
  referenceSpecificity: proportion("specificity of the reference"),
  covariance: ErrorCovariance,
  ...judged,
});
const Border = (meaning: string) =>
  v.pipe(
    v.strictObject({
      at: quantity("statistic", "where the verdict changes; the rest as believed"),
      verdict: v.pipe(
        v.nullable(choice(VERDICTS, "the verdict beyond")),
        v.description("the verdict beyond"),
      ),
    }),
    v.description(meaning),
  );
const Borders = (meaning: string) =>
  v.pipe(
    v.strictObject({
      below: Border("the next change going down"),
      above: Border("the next change going up"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  believed: v.pipe(v.strictObject(judged), v.description("under what is believed of the reference")),
  perfect: v.pipe(v.strictObject(judged), v.description("if the reference never erred")),
  borders: v.pipe(
    v.strictObject({
      referenceSensitivity: Borders("sensitivity of the reference"),
      referenceSpecificity: Borders("specificity of the reference"),
      covarianceDiseased: Borders("covariance among the diseased"),
      covarianceNondiseased: Borders("covariance among the nondiseased"),
    }),
    v.description("how far each may go, alone, before the verdict changes"),
  ),
  cells: v.pipe(
    v.array(Cell),
    v.maxLength(250_000),
    v.description(
      "one entry for each combination of the grid, the sensitivities slowest, the covariances fastest",
    ),
  ),
});
export type TippingInput = v.InferOutput<typeof Input>;
export type TippingOptions = v.InferOutput<typeof Options>;
export type TippingValues = v.InferOutput<typeof Values>;

const MOST_CELLS = 20_000;

/**
 * How bad the reference would have to be for the verdict on a kit to change.
 *
 * @param input   people by kit and reference result; criterion; what is believed of the reference; a grid
 * @param options level and sides of the limits, or the rule that the estimate alone decides
 * @returns verdict for every reference of the grid, and on each axis the first change going down and up from
 *   what is believed, to 1e-12. Where the verdict stays up to the end of the axis, `null` with a note
 * @throws InputError where the grid has more than 20,000 cells, or a one-sided level is 0.5 or less
 * A reference under which some corrected number of people is negative (`fits` false) can only be so by chance.
 * With independent errors the reference's sensitivity alone never changes the kit's sensitivity.
 * Source: staquet1981, vacek1985
 */
export function tippingPoints(input: TippingInput, options: TippingOptions): Finding<TippingValues> {
  requireOptions(options);
  const { grid, reference, covariance } = input;
  const covariances = grid.covariances.length > 0 ? grid.covariances : [covariance];
  requireSize(grid.sensitivities.length * grid.specificities.length * covariances.length);
  const cells = grid.sensitivities.flatMap((sensitivity) =>
    grid.specificities.flatMap((specificity) =>
      covariances.map((pair) => ({
        referenceSensitivity: sensitivity,
        referenceSpecificity: specificity,
        covariance: pair,
        ...judgedAt(input, { reference: { sensitivity, specificity }, covariance: pair }, options),
      })),
    ),
  );
  const perfect = {
    reference: { sensitivity: 1, specificity: 1 },
    covariance: { diseased: 0, nondiseased: 0 },
  };
  const values = {
    believed: judgedAt(input, { reference, covariance }, options),
    perfect: judgedAt(input, perfect, options),
    borders: tippingBorders(input, options),
    cells,
  };
  return { values, notes: notesOn(values, input) };
}

function requireOptions({ level: wanted, sides }: TippingOptions): void {
  if (sides === "two" || wanted > 0.5) return;
  throw new InputError(["options", "level"], "above 0.5 for one-sided limits", wanted);
}

function requireSize(cells: number): void {
  if (cells <= MOST_CELLS) return;
  const expected = `at most ${MOST_CELLS.toLocaleString("en-GB")} combinations`;
  throw new InputError(["input", "grid"], expected, cells);
}

function notesOn(values: TippingValues, { counts }: TippingInput): Note[] {
  if (totalOf(counts) === 0) {
    return Object.keys(values).map((path) => note("no_observations", path, "nobody was observed"));
  }
  const notes = [...absentNotes(values.believed, "believed"), ...absentNotes(values.perfect, "perfect")];
  const absent = values.cells.filter(({ value, lower }) => value === null || lower === null).length;
  if (absent > 0) {
    const message = `under ${absent} of ${values.cells.length} references the formula leaves 0 to 1 or has no value: they hardly fit the table`;
    notes.push(note("incompatible", "cells", message));
  }
  for (const [name, both] of Object.entries(values.borders)) {
    for (const side of ["below", "above"] as const) {
      if (both[side].at !== null) continue;
      const message = `the verdict stays the same all the way ${side === "below" ? "down" : "up"}`;
      notes.push(note("no_border", `borders.${name}.${side}`, message));
    }
  }
  return notes;
}

function absentNotes({ value, lower }: Judged, path: string): Note[] {
  if (value !== null && lower !== null) return [];
  const message = "the formula leaves 0 to 1 or has no value: the table hardly allows this reference";
  return [note("incompatible", path, message)];
}

export const referenceTipping = defineMethod({
  id: "reference.tipping",
  version: 1,
  title: "How bad must the reference be to change the verdict?",
  question: "Does the verdict hold unless the reference misses, or falsely finds, more than so many?",
  formula:
    "the criterion is judged on the accuracy corrected for a supposed reference (reference.corrected, profile likelihood limits): at least c is met if the lower limit is c or above, not met if the upper limit is below c. Borders: from what is believed along one axis to the first change of the verdict, by halving",
  caution:
    "each border moves one thing alone; the grid shows them together. A border close to what is believed says that the verdict hangs on the reference. Limits take each supposed reference as known and are those of the likelihood: near the threshold another interval of the study may say otherwise. Errors shared with the kit can hide any number of faults: no border guards against a covariance that was not looked at",
  sources: ["staquet1981", "vacek1985", "owen1988"],
  input: Input,
  options: Options,
  values: Values,
  run: tippingPoints,
  examples: tippingExamples,
});
