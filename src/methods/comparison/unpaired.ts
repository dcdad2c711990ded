import * as v from "valibot";
import { estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { notesAt } from "../notes-at.ts";
import { differenceInterval, type Share } from "../proportion/difference-interval.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { type RatioEstimate, ratioInterval } from "../proportion/ratio-interval.ts";
import { fisherProbabilities } from "../strata/fisher-probabilities.ts";
import { ratioMethod, requireGroups, twoGroups, unpairedMethod } from "./fields.ts";
import { unpairedExamples } from "./unpaired-examples.ts";

const Input = v.strictObject(twoGroups);
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  differenceInterval: unpairedMethod(),
  ratioInterval: ratioMethod(),
  truncate: v.optional(
    v.pipe(
      v.boolean(),
      v.description(
        "cut limits of the difference to -1..1; false leaves Wald's and Agresti-Caffo's as they come",
      ),
    ),
    true,
  ),
});
const Values = v.strictObject({
  first: proportionEstimate("proportion in the first group"),
  second: proportionEstimate("proportion in the second group"),
  difference: estimate("proportion", "first minus second proportion"),
  ratio: estimate("ratio", "first over second proportion"),
  pearson: v.pipe(
    v.strictObject({
      chiSquare: quantity("statistic", "Pearson's chi-square, 1 degree of freedom, not corrected"),
      pValue: quantity("probability", "its p-value"),
    }),
    v.description("large-sample test of no difference"),
  ),
  fisher: v.pipe(
    v.strictObject({
      twoSided: quantity("probability", "p-value: tables no more probable than the one seen"),
      greater: quantity("probability", "p-value: first group as high as seen, or higher"),
      less: quantity("probability", "p-value: first group as low as seen, or lower"),
    }),
    v.description("Fisher's exact test of no difference"),
  ),
});
export type UnpairedInput = v.InferOutput<typeof Input>;
export type UnpairedOptions = v.InferOutput<typeof Options>;
export type UnpairedValues = v.InferOutput<typeof Values>;

/**
 * A proportion in two groups of different people: does it differ, and by how much?
 *
 * @param input   counts of independent people; the same person must not be in both groups
 * @param options intervals of the difference, of the ratio and of the single proportions
 * @returns `null` with a note: an empty group (`no_observations`), no events or nothing else
 *   (`no_variation`), an infinite ratio (`unbounded`)
 * @throws InputError where a count is larger than its total
 * Sources: newcombe1998difference, miettinen1985, mee1984, agresti2000, koopman1984, fisher1935
 */
export function compareUnpaired(input: UnpairedInput, options: UnpairedOptions): Finding<UnpairedValues> {
  const { first, second } = input;
  requireGroups({ first, second }, ["input"]);
  const ratio = ratioInterval(first, second, options.ratioInterval, options.level);
  const groups = {
    first: estimateProportion(first.count, first.total, options),
    second: estimateProportion(second.count, second.total, options),
    difference: differenceInterval(
      first,
      second,
      options.differenceInterval,
      options.level,
      options.truncate,
    ),
    ratio: { value: ratio.value, lower: ratio.lower, upper: ratio.upper },
  };
  if (first.total === 0 || second.total === 0) {
    const values = {
      ...groups,
      pearson: { chiSquare: null, pValue: null },
      fisher: { twoSided: null, greater: null, less: null },
    };
    const empty = [...(first.total === 0 ? ["first"] : []), ...(second.total === 0 ? ["second"] : [])];
    const paths = [...empty, "difference", "ratio", "pearson", "fisher"];
    return { values, notes: notesAt("no_observations", paths, "a group is empty: nothing to compare") };
  }
  const pearson = pearsonOf(first, second);
  const values = { ...groups, pearson: pearson.values, fisher: fisherProbabilities(first, second) };
  const width = values.difference.lower === values.difference.upper;
  const notes = [...pearson.notes, ...ratioNotes(ratio, options)];
  if (width) {
    const message = "both proportions are 0 or 1: Wald's interval has no width, take another";
    notes.push(note("no_width", "difference", message));
  }
  return { values, notes };
}

function pearsonOf(first: Share, second: Share): { values: UnpairedValues["pearson"]; notes: Note[] } {
  const both = first.count + second.count;
  const people = first.total + second.total;
  if (both === 0 || both === people) {
    const message = "all people have the same result: nothing varies";
    const notes = notesAt("no_variation", ["pearson"], message);
    return { values: { chiSquare: null, pValue: null }, notes };
  }
  const apart = first.count * (second.total - second.count) - second.count * (first.total - first.count);
  const margins = [first.total, second.total, both, people - both];
  // Divided step by step: the product of four margins may leave the range of whole numbers.
  const chiSquare = margins.reduce((quotient, margin) => quotient / margin, people * apart * apart);
  const smallest = (Math.min(first.total, second.total) * Math.min(both, people - both)) / people;
  const notes: Note[] = [];
  if (smallest < 5) {
    const message = `the smallest expected count is ${smallest.toFixed(1)}, below 5: prefer an exact p-value`;
    notes.push(note("small_expected_counts", "pearson", message));
  }
  return { values: { chiSquare, pValue: chiSquareCdf(chiSquare, 1, "upper") }, notes };
}

function ratioNotes(ratio: RatioEstimate, options: UnpairedOptions): Note[] {
  if (ratio.kind === "not_estimable") {
    return [note("not_estimable", "ratio", "no such result in either group: 0 divided by 0")];
  }
  const notes: Note[] = [];
  if (ratio.kind === "infinite") {
    const message = "no such result in the second group: the ratio is infinite, only a lower limit exists";
    notes.push(note("unbounded", "ratio", message));
  }
  if (ratio.used !== options.ratioInterval) {
    const message = "the log interval has no answer here: score interval instead";
    notes.push(note("score_interval", "ratio", message));
  }
  return notes;
}

export const unpaired = defineMethod({
  id: "comparison.unpaired",
  version: 1,
  title: "A proportion in two groups of different people",
  question: "Do two kits differ, each used on its own people?",
  formula:
    "difference d = x/m - y/n. Score limits: all d with |x/m - y/n - d| <= z sqrt(p1 (1 - p1)/m + p2 (1 - p2)/n), p1 and p2 = p1 - d the most likely proportions under d (Mee); the standard error times sqrt(N/(N - 1)) (Miettinen and Nurminen). Newcombe: d ± sqrt of the summed squares of the distances to the Wilson limits. Agresti and Caffo: Wald after adding one of each kind to both groups. Ratio: exp(log ratio ± z sqrt(1/x - 1/m + 1/y - 1/n)), or the ratios a score test does not reject. chi-square = N (x (n - y) - y (m - x))² / product of the margins",
  caution:
    "for two groups of different people: on the same people take comparison.paired. Groups that were not made by chance may differ in more than the kit. Wald's interval is too narrow near 0 and 1",
  sources: [
    "miettinen1985",
    "newcombe1998difference",
    "mee1984",
    "agresti2000",
    "koopman1984",
    "simel1991",
    "fisher1935",
  ],
  input: Input,
  options: Options,
  values: Values,
  run: compareUnpaired,
  examples: unpairedExamples,
});
