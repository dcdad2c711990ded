import * as v from "valibot";
import { openProportion, proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { errorAllowed, lookList, powerWanted, singleLook } from "./looks.ts";
import { rulePaths } from "./rule-paths.ts";
import { type Demands, type SingleLook, smallestSingle } from "./single-look.ts";
import { twoStageExamples } from "./two-stage-examples.ts";
import { type TwoStages, twoStageSearch } from "./two-stage-search.ts";

const Input = v.strictObject({
  unacceptable: openProportion("proportion right that is too low: a kit like this should rarely pass"),
  expected: proportion("proportion right that is hoped for: a kit like this should pass"),
});
const Options = v.strictObject({
  error: errorAllowed(),
  power: powerWanted(),
  largest: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(2, "expected 2 or more"),
      v.maxValue(300, "expected at most 300"),
      v.description("most people that both stages together may need"),
    ),
    100,
  ),
});
const Design = (meaning: string) =>
  v.pipe(
    v.nullable(
      v.strictObject({
        looks: lookList("the two looks; the first only stops a kit that does badly"),
        expectedTotal: quantity("people", "mean number of people if the kit is unacceptable"),
        expectedIfGood: quantity("people", "mean number of people if the kit is as expected"),
        stopsEarly: quantity("probability", "probability of stopping at the first look if unacceptable"),
        error: quantity("probability", "probability of passing if the kit is unacceptable"),
        power: quantity("probability", "probability of passing if the kit is as expected"),
      }),
    ),
    v.description(meaning),
  );
const Values = v.strictObject({
  smallestExpected: Design("fewest people on average if the kit is unacceptable"),
  minimax: Design("fewest people at most; among these, fewest on average"),
  single: singleLook("one look at the end, to compare with; searched up to 10,000 people"),
});
export type TwoStageInput = v.InferOutput<typeof Input>;
export type TwoStageOptions = v.InferOutput<typeof Options>;
export type TwoStageValues = v.InferOutput<typeof Values>;
type Design = NonNullable<TwoStageValues["minimax"]>;

/** How far the yardstick of one look is searched. */
const SINGLE_HORIZON = 10_000;
const DESIGNS = ["smallestExpected", "minimax"] as const;

/**
 * Two-stage plans that stop a bad kit early: the one with the fewest people on average if the kit is
 * unacceptable, and the one with the fewest people at most.
 *
 * Found by trying every design, with exact binomial probabilities. The first look never passes a kit.
 *
 * @param input   two proportions right, in 0..1
 * @param options error and power, and the most people that both stages together may need
 * @returns `null` with a note where no design within `largest` does it, and for all three where what is
 *   expected is not above what is unacceptable
 * Behaves badly where the number seen at the first look differs from the plan: the borders then no longer hold.
 * Source: simon1989
 */
export function planTwoStages(input: TwoStageInput, options: TwoStageOptions): Finding<TwoStageValues> {
  if (input.expected <= input.unacceptable) {
    const message =
      "the expected proportion is not above the unacceptable one: no study can tell them apart in this direction. State a higher expected or a lower unacceptable proportion";
    return {
      values: { smallestExpected: null, minimax: null, single: null },
      notes: notesAt("not_above", [...DESIGNS, "single"], message),
    };
  }
  const demands = { ...input, error: options.error, power: options.power };
  const found = twoStageSearch(demands, options.largest);
  const single = smallestSingle(demands, SINGLE_HORIZON);
  const values = {
    smallestExpected: found.smallestExpected && describeDesign(found.smallestExpected, input),
    minimax: found.minimax && describeDesign(found.minimax, input),
    single,
  };
  return { values, notes: notesOn(values, demands, options.largest, single) };
}

function describeDesign(
  { first, failFirst, total, failLast }: TwoStages,
  { unacceptable, expected }: TwoStageInput,
): Design {
  const looks = [
    { total: first, passFrom: null, failAt: failFirst },
    { total, passFrom: failLast + 1, failAt: failLast },
  ];
  const bad = rulePaths(looks, unacceptable);
  const good = rulePaths(looks, expected);
  return {
    looks,
    expectedTotal: bad.expectedTotal,
    expectedIfGood: good.expectedTotal,
    stopsEarly: bad.fail[0] ?? 0,
    error: bad.passes,
    power: good.passes,
  };
}

function notesOn(
  values: TwoStageValues,
  demands: Demands,
  largest: number,
  single: SingleLook | null,
): Note[] {
  const notes: Note[] = [];
  if (values.minimax === null) {
    const needs =
      single === null
        ? `one look at the end would need more than ${SINGLE_HORIZON} people`
        : `one look at the end would need ${single.total} people`;
    const message = `no two-stage design of at most ${largest} people keeps an error of ${demands.error} with a power of ${demands.power}; ${needs}. Allow more people, accept more error or less power, or state proportions further apart`;
    notes.push(...notesAt("beyond_largest", DESIGNS, message));
  } else {
    const paths = DESIGNS.map((name) => `${name}.looks.0.passFrom`);
    notes.push(...notesAt("only_fails", paths, "the first look only stops a kit that does badly"));
  }
  if (single === null) {
    const message = `one look at the end would need more than ${SINGLE_HORIZON} people. Accept more error or less power, or state proportions further apart`;
    notes.push(note("beyond_horizon", "single", message));
  }
  return notes;
}

export const planningTwoStage = defineMethod({
  id: "planning.two_stage",
  version: 1,
  title: "Two stages: stop a bad kit early",
  question: "How can a study of one kit stop early if the kit does badly?",
  formula:
    "stop and fail if X1 <= r1 among the first n1; pass if X1 + X2 > r among all n. Error = sum over x > r1 of b(x; n1, p0) P(X2 > r - x; p0), power the same at p1. Of all (n1, r1, n, r) that keep the error and reach the power: the smallest n1 + (1 - P(X1 <= r1; p0)) (n - n1), and the smallest n",
  caution:
    "the borders hold for the planned numbers at each look only. Recruitment has to wait for the first results. The fewest people on average are sought among plans of at most the largest total allowed: a higher limit may find a plan with fewer. The estimate after a study that may stop early is biased, and the usual interval no longer covers what it says",
  sources: ["simon1989", "schultz1973"],
  input: Input,
  options: Options,
  values: Values,
  run: planTwoStages,
  examples: twoStageExamples,
});
