import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { assuredWidth } from "./assured-width.ts";
import { expectedWidth } from "./expected-width.ts";
import { precisionExamples } from "./precision-examples.ts";
import { PrecisionInput, PrecisionOptions, PrecisionValues } from "./precision-fields.ts";
import { roundUp } from "./round-up.ts";

/**
 * How many people an interval needs to be as short as wanted.
 *
 * Adds up over every result that so many people may bring, weighted by its probability if the truth is the
 * proportion expected; the interval of each result is that of `proportion.interval`.
 *
 * @param input   proportion expected 0..1; half the length allowed, above 0, at most 0.5
 * @param options interval and level; the assurance; how far to look
 * @returns people, by the mean length, by the assurance, and by the textbook formula. `null` with a note
 *   where the horizon is too near
 * Behaves badly near 0 and 1: there the interval is lopsided, the formula plans for too few, and a mean
 * length is an even bet. The assurance goes up and down from one total to the next
 * Sources: beal1989, piegorsch2004
 */
export function precisionSize(input: PrecisionInput, options: PrecisionOptions): Finding<PrecisionValues> {
  const z = normalQuantile((1 - options.level) / 2, "upper");
  const unrounded = (z * z * input.expected * (1 - input.expected)) / (input.halfWidth * input.halfWidth);
  const values = {
    expectedWidth: expectedWidth(input, options),
    assured: assuredWidth(input, options),
    normal: { unrounded, total: roundUp(unrounded) },
  };
  const notes = [
    ...beyond("expectedWidth", "halfWidth", values.expectedWidth, options.horizon),
    ...beyond("assured", "probability", values.assured, options.horizon),
  ];
  return { values, notes };
}

function beyond(
  kind: string,
  last: string,
  { first, stays }: { readonly first: number | null; readonly stays: number | null },
  horizonAt: number,
): Note[] {
  const people = horizonAt.toLocaleString("en-GB");
  const message = `up to ${people} people the interval is not reliably that short: allow a wider one, or look further`;
  const absent = [...(first === null ? ["first"] : []), ...(stays === null ? ["stays", last] : [])];
  return absent.map((field) => note("beyond_horizon", `${kind}.${field}`, message));
}

export const planningPrecision = defineMethod({
  id: "planning.precision",
  version: 1,
  title: "Size for a precise proportion",
  question: "How many people does it take for the interval to be as short as wanted?",
  formula:
    "mean half-width(n) = sum over k of P(k | n, p) (upper(k) - lower(k)) / 2 <= h; assurance(n) = sum of P(k | n, p) over all k with (upper(k) - lower(k)) / 2 <= h; by the formula: n = z² p (1 - p) / h²",
  caution:
    "a precise estimate is not a criterion met: where a threshold is to be shown, plan for that. By the mean length about every second study is not as precise as wanted. With the intervals of Wald few people seem to do, because theirs have no length where all are alike",
  sources: ["beal1989", "piegorsch2004"],
  input: PrecisionInput,
  options: PrecisionOptions,
  values: PrecisionValues,
  run: precisionSize,
  examples: precisionExamples,
});
