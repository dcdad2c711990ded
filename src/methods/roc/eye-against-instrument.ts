import type { Estimate } from "../../core/estimate.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { percentileLimits } from "../clusters/bootstrap-limits.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { emptyNotes } from "./area-values.ts";
import { type EyeContrast, eyeContrast, eyeContrastsDrawn } from "./eye-drawn.ts";
import { eyeExamples } from "./eye-examples.ts";
import {
  type EyeInput as Asked,
  type EyeOptions as Chosen,
  EyeInput,
  EyeOptions,
  EyeValues,
  type EyeValues as Values,
} from "./eye-fields.ts";
import { ladderOf } from "./ladder.ts";
import { pairsBeyond } from "./placements.ts";

/**
 * Would an instrument find more than the eye does, were its cutoff set to be as specific as the eye (or as sensitive)?
 *
 * @param input   for each person what the eye called the device and what the instrument measured on it; which
 *   readings speak for the condition; what holds along a step of the curve
 * @param options level, replicates, seed
 * @returns instrument less eye; `null` with a note where a group is empty, or where a cutoff calls nobody reactive
 * @throws InputError where more is to be drawn than a page can wait for
 * Behaves badly where the eye's specificity or sensitivity is 0 or 1: the curve is known worst at its ends, and
 * limits can be too narrow
 * Source: efron1993; pepe2003 for the curve at a given specificity
 */
export function eyeAgainstInstrument(input: Asked, options: Chosen): Finding<Values> {
  const readings = (people: Asked["positives"]) => people.map(({ reading }) => reading);
  const ladder = ladderOf(readings(input.positives), readings(input.negatives), input.direction);
  const { totalPositives, totalNegatives } = ladder;
  const truePositives = input.positives.filter(({ reactive }) => reactive).length;
  const falsePositives = input.negatives.filter(({ reactive }) => reactive).length;
  const eye = {
    sensitivity: estimateProportion(truePositives, totalPositives, options),
    specificity: estimateProportion(totalNegatives - falsePositives, totalNegatives, options),
  };
  if (totalPositives === 0 || totalNegatives === 0) {
    const paths = ["eye", "atEyeSpecificity", "atEyeSensitivity", "area"];
    return { values: { eye, ...NOTHING }, notes: emptyNotes(ladder, paths) };
  }
  const seen = eyeContrast({ ladder, truePositives, falsePositives }, input.atSteps);
  const drawn = eyeContrastsDrawn(ladder, input, options);
  const limited = (key: keyof EyeContrast) => limitsOf(key, seen, drawn, options.level);
  const values: Values = {
    eye,
    atEyeSpecificity: {
      sensitivity: limited("sensitivity"),
      difference: limited("sensitivityDifference"),
      cutoff: limited("cutoffAtSpecificity"),
    },
    atEyeSensitivity: {
      specificity: limited("specificity"),
      difference: limited("specificityDifference"),
      cutoff: limited("cutoffAtSensitivity"),
    },
    area: pairsBeyond(ladder) / (totalPositives * totalNegatives),
  };
  return { values, notes: notesOn(values, input) };
}

const NONE = { value: null, lower: null, upper: null };
const NOTHING = {
  atEyeSpecificity: { sensitivity: NONE, difference: NONE, cutoff: NONE },
  atEyeSensitivity: { specificity: NONE, difference: NONE, cutoff: NONE },
  area: null,
};

/** Percentile limits; `null` where a replicate at the limit, or the value, does not exist. */
function limitsOf(
  key: keyof EyeContrast,
  seen: EyeContrast,
  drawn: readonly EyeContrast[],
  level: number,
): Estimate {
  const known = drawn.flatMap((contrast) => contrast[key] ?? []);
  if (seen[key] === null || known.length < drawn.length)
    return { value: seen[key], lower: null, upper: null };
  return { value: seen[key], ...percentileLimits(Float64Array.from(known).sort(), level) };
}

function notesOn(values: Values, { atSteps }: Asked): Note[] {
  const notes: Note[] = [];
  const { eye, atEyeSpecificity, atEyeSensitivity } = values;
  const cutoffs = [
    ["atEyeSpecificity.cutoff", atEyeSpecificity.cutoff],
    ["atEyeSensitivity.cutoff", atEyeSensitivity.cutoff],
  ] as const;
  for (const [path, { value, lower }] of cutoffs) {
    if (value === null)
      notes.push(note("nobody_reactive", path, "there the instrument calls nobody reactive"));
    else if (lower === null) {
      const message = "in some of the people drawn the instrument calls nobody reactive there";
      notes.push(note("unbounded", path, message));
    }
  }
  const ends = [
    ["atEyeSpecificity", "specificity", eye.specificity],
    ["atEyeSensitivity", "sensitivity", eye.sensitivity],
  ] as const;
  for (const [path, name, { count, total }] of ends) {
    if (count > 0 && count < total) continue;
    const message = `the eye's ${name} is ${count === 0 ? 0 : 1} in these people: the end of the curve hangs on a few readings, and limits may be too narrow`;
    notes.push(note("end_of_curve", path, message));
  }
  if (atSteps === "best") {
    const message =
      "the best cutoff of a step is taken, chosen in the same people: it flatters the instrument";
    notes.push(note("flatters_instrument", "atEyeSpecificity.difference", message));
    notes.push(note("flatters_instrument", "atEyeSensitivity.difference", message));
  }
  return notes;
}

export const rocEyeAgainstInstrument = defineMethod({
  id: "roc.eye_against_instrument",
  version: 1,
  title: "The eye against an instrument",
  question: "Would an instrument find more than the eye does, set to be as specific as the eye?",
  formula:
    "at equal specificity: height of the instrument's curve, its points joined by straight lines, at the eye's specificity, less the eye's sensitivity; at equal sensitivity the other way. Where the curve has that specificity along a whole step: the middle of the step, or its best end. Limits: percentiles over people drawn anew within each group, each with both results",
  caution:
    "the instrument's cutoff is set by these very people, which a cutoff in use is not. At the ends of the curve, and with few people, limits are too narrow. Equal specificity in these people is not equal specificity",
  sources: ["efron1993", "pepe2003"],
  input: EyeInput,
  options: EyeOptions,
  values: EyeValues,
  run: eyeAgainstInstrument,
  examples: eyeExamples,
});
