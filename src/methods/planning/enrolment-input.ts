import * as v from "valibot";
import { count, proportion } from "../../core/fields.ts";
import { whole } from "./fields.ts";

const shape = (meaning: string) =>
  v.pipe(
    v.number(),
    v.minValue(1e-3, "expected 0.001 or more"),
    v.maxValue(1e9, "expected at most 1,000,000,000"),
    v.description(meaning),
  );
const Prevalence = v.variant("kind", [
  v.strictObject({ kind: v.literal("fixed"), value: proportion("prevalence, taken as known") }),
  v.strictObject({
    kind: v.literal("counts"),
    positive: count("people with the condition in an earlier survey"),
    total: count("of how many surveyed, 1 or more"),
  }),
  v.strictObject({
    kind: v.literal("beta"),
    a: shape("first parameter of a beta distribution"),
    b: shape("second parameter of a beta distribution"),
  }),
  v.strictObject({
    kind: v.literal("range"),
    low: proportion("lowest prevalence thought possible"),
    high: proportion("highest prevalence thought possible"),
  }),
]);
const loss = (meaning: string) => v.optional(proportion(meaning), 0);
/** What `planning.enrolment` is asked. */
export const EnrolmentFields = v.strictObject({
  positives: whole(0, 1_000_000, "people with the condition needed, each with a usable pair of results"),
  negatives: whole(0, 1_000_000, "people without it needed, each with a usable pair of results"),
  prevalence: v.pipe(Prevalence, v.description("share of the people enrolled who have the condition")),
  losses: v.optional(
    v.strictObject({
      invalid: loss("share of people without a valid kit result"),
      lost: loss("share of people lost for another reason"),
      unverified: loss("share of people without a reference result"),
      unverifiedNegative: v.optional(
        v.nullable(proportion("the same among people without the condition; absent: as for all")),
        null,
      ),
    }),
    {},
  ),
});
export type EnrolmentInput = v.InferOutput<typeof EnrolmentFields>;
