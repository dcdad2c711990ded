import * as v from "valibot";
import { choice, proportion, text } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";

/** The words of the area: kits, the steps of an algorithm, what a path ends with. */

/** What a path ends with. */
export const STATUSES = ["positive", "negative", "inconclusive"] as const;
export type Status = (typeof STATUSES)[number];

/** What one step may find: a valid result, or none even after the last repeat. */
export const RESULTS = ["reactive", "nonreactive", "invalid"] as const;
export type Result = (typeof RESULTS)[number];

/** The reference status of a person, of the analyte that the algorithm is for. */
export const TRUTHS = ["diseased", "nondiseased"] as const;
export type Truth = (typeof TRUTHS)[number];

/** Most steps of one algorithm, and most repeats of an invalid run at a step. */
export const MOST_STEPS = 30;
export const MOST_REPEATS = 3;

/** A kit: how its runs do, one by one. */
export const Kit = v.strictObject({
  id: text("short name of the kit, used by the steps"),
  sensitivity: proportion("P(reactive | diseased, valid run)"),
  specificity: proportion("P(non-reactive | nondiseased, valid run)"),
  invalid: v.pipe(
    v.number(),
    v.minValue(0, "expected a share from 0 to below 1"),
    v.ltValue(1, "expected a share from 0 to below 1"),
    v.description("share of runs without a valid result, whatever the truth"),
  ),
});
export type Kit = v.InferOutput<typeof Kit>;

/** Where a path goes on: the id of a step, or a status in which it ends. */
function next(meaning: string) {
  return text(`${meaning}: the id of a step, or positive, negative or inconclusive`);
}

/** A place in the algorithm where one kit is run. */
export const Step = v.strictObject({
  id: text("short name of the step; not one of the statuses"),
  kit: text("id of the kit that is run"),
  reactive: next("after a reactive result"),
  nonreactive: next("after a non-reactive result"),
  again: whole(0, MOST_REPEATS, "how often an invalid run is repeated at once, with a new device"),
  invalid: next("after the last repeat, if that was invalid too"),
});
export type Step = v.InferOutput<typeof Step>;

/** Inconclusive people who come back. */
export const Retest = v.pipe(
  v.nullable(
    v.strictObject({
      share: proportion(
        "share of the inconclusive people who return and go through the algorithm once more; the others are lost",
      ),
    }),
  ),
  v.description("what becomes of inconclusive people; null: nobody is asked to return"),
);
export type Retest = v.InferOutput<typeof Retest>;

/** The parts of an algorithm, to be spread into the input of a method. The first step is where it starts. */
export const algorithmFields = {
  steps: v.pipe(
    v.array(Step),
    v.minLength(1, "expected one step or more"),
    v.maxLength(MOST_STEPS, `expected at most ${MOST_STEPS} steps`),
    v.description("the steps; a person starts with the first"),
  ),
  retest: Retest,
};
export const Algorithm = v.strictObject(algorithmFields);
export type Algorithm = v.InferOutput<typeof Algorithm>;

/** The kits that steps may name. */
export const Kits = v.pipe(
  v.array(Kit),
  v.minLength(1, "expected one kit or more"),
  v.maxLength(20, "expected at most 20 kits"),
  v.description("the kits, each with its own id"),
);

/** Prevalences at which an algorithm is looked at. */
export const Prevalences = v.pipe(
  v.array(proportion("a prevalence")),
  v.minLength(1, "expected one prevalence or more"),
  v.maxLength(1001, "expected at most 1,001 prevalences"),
  v.description("share of diseased among those tested, in the order wanted"),
);

/** A result at a step, by name. */
export const PathStep = v.strictObject({
  step: text("id of the step"),
  result: choice(RESULTS, "what it found; invalid: the last repeat too"),
});

export function isStatus(next: string): next is Status {
  return (STATUSES as readonly string[]).includes(next);
}
