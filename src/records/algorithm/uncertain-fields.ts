import * as v from "valibot";

/** How sure a number is: known, counted, a range, or a beta distribution. */

const OPEN = "expected a proportion above 0 and below 1 (nothing is certain: write 0.999, say, instead of 1)";
const OpenShare = v.pipe(v.number(), v.gtValue(0, OPEN), v.ltValue(1, OPEN));
const HALF_OPEN = "expected a proportion from 0 to below 1";
const HalfOpenShare = v.pipe(v.number(), v.minValue(0, HALF_OPEN), v.ltValue(1, HALF_OPEN));
export const CountOf = v.pipe(
  v.number(),
  v.integer("expected a whole number"),
  v.minValue(0, "expected 0 or more"),
  v.maxValue(1e9, "expected at most 1,000,000,000"),
);
export const AtLeastOne = v.pipe(CountOf, v.minValue(1, "expected 1 or more"));
const SHAPE = "expected 0.001 to 1,000,000,000";
const Shape = v.pipe(v.number(), v.minValue(0.001, SHAPE), v.maxValue(1e9, SHAPE));
const AMOUNT = "expected 0 to 100,000,000";
export const Amount = v.pipe(v.number(), v.minValue(0, AMOUNT), v.maxValue(1e8, AMOUNT));

/** The forms that are possible, each a list of fields that stand together. */
function oneForm(forms: readonly (readonly string[])[]) {
  return <Stated extends object>(stated: Stated) => {
    const given = Object.entries(stated).flatMap(([key, value]) => (value === undefined ? [] : [key]));
    return forms.some((form) => form.length === given.length && form.every((key) => given.includes(key)));
  };
}

interface Limits {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

const upward = <Stated extends Limits>({ low, high }: Stated) =>
  low === undefined || high === undefined || low < high;

const beta = {
  a: v.optional(v.pipe(Shape, v.description("first shape of a beta distribution"))),
  b: v.optional(v.pipe(Shape, v.description("second shape of a beta distribution"))),
};
const range = {
  low: v.optional(v.pipe(OpenShare, v.description("lowest value to be ready for"))),
  high: v.optional(v.pipe(OpenShare, v.description("highest value to be ready for"))),
};

/** Sensitivity or specificity: people who were rightly called, of those tested. */
export const UncertainAccuracy = v.pipe(
  v.strictObject({
    value: v.optional(v.pipe(OpenShare, v.description("taken as known exactly"))),
    right: v.optional(v.pipe(CountOf, v.description("people with the right result"))),
    total: v.optional(v.pipe(AtLeastOne, v.description("people with any valid result"))),
    ...range,
    ...beta,
  }),
  v.check(
    oneForm([["value"], ["right", "total"], ["low", "high"], ["a", "b"]]),
    "expected value; or right and total; or low and high; or a and b",
  ),
  v.check(
    ({ right, total }) => right === undefined || total === undefined || right <= total,
    "expected right not above total",
  ),
  v.check(upward, "expected low below high"),
);

/** The share of runs without a valid result. */
export const UncertainInvalid = v.pipe(
  v.strictObject({
    value: v.optional(v.pipe(HalfOpenShare, v.description("taken as known exactly"))),
    invalid: v.optional(v.pipe(CountOf, v.description("runs without a valid result"))),
    tested: v.optional(v.pipe(AtLeastOne, v.description("all runs"))),
    ...range,
    ...beta,
  }),
  v.check(
    oneForm([["value"], ["invalid", "tested"], ["low", "high"], ["a", "b"]]),
    "expected value; or invalid and tested; or low and high; or a and b",
  ),
  v.check(
    ({ invalid, tested }) => invalid === undefined || tested === undefined || invalid < tested,
    "expected invalid below tested",
  ),
  v.check(upward, "expected low below high"),
);

/** How common the condition is among the people of a channel. */
export const UncertainPrevalence = v.pipe(
  v.strictObject({
    value: v.optional(v.pipe(OpenShare, v.description("taken as known exactly"))),
    positive: v.optional(v.pipe(CountOf, v.description("truly positive among those tested before"))),
    tested: v.optional(v.pipe(AtLeastOne, v.description("people tested before"))),
    ...range,
    ...beta,
  }),
  v.check(
    oneForm([["value"], ["positive", "tested"], ["low", "high"], ["a", "b"]]),
    "expected value; or positive and tested; or low and high; or a and b",
  ),
  v.check(
    ({ positive, tested }) => positive === undefined || tested === undefined || positive <= tested,
    "expected positive not above tested",
  ),
  v.check(upward, "expected low below high"),
);

/** A price: known, or somewhere in a range. */
export const UncertainPrice = v.pipe(
  v.strictObject({
    value: v.optional(Amount),
    low: v.optional(Amount),
    high: v.optional(Amount),
  }),
  v.check(oneForm([["value"], ["low", "high"]]), "expected value; or low and high"),
  v.check(upward, "expected low below high"),
);

/** Any of the shares above. */
export type Uncertain = Partial<
  v.InferOutput<typeof UncertainAccuracy> &
    v.InferOutput<typeof UncertainInvalid> &
    v.InferOutput<typeof UncertainPrevalence>
>;
