import * as v from "valibot";
import { proportion } from "../../core/fields.ts";

const people = (meaning: string) =>
  v.pipe(
    v.number(),
    v.minValue(0, "expected 0 or more"),
    v.maxValue(1e12, "expected at most 1,000,000,000,000"),
    v.description(meaning),
  );

/** People by kit and reference result; expected numbers, which need not be whole, are as welcome. */
export const CrossedCounts = v.pipe(
  v.strictObject({
    bothReactive: people("kit reactive, reference positive"),
    kitOnly: people("kit reactive, reference negative"),
    referenceOnly: people("kit non-reactive, reference positive"),
    neither: people("kit non-reactive, reference negative"),
  }),
  v.description("people by kit and reference result"),
);
export type CrossedCounts = v.InferOutput<typeof CrossedCounts>;

/** What is right of a test of which nothing is uncertain. */
export function knownAccuracy(meaning: string) {
  return v.pipe(
    v.strictObject({
      sensitivity: proportion("P(positive | condition present)"),
      specificity: proportion("P(negative | condition absent)"),
    }),
    v.description(meaning),
  );
}
export type KnownAccuracy = v.InferOutput<ReturnType<typeof knownAccuracy>>;

const covariance = (meaning: string) =>
  v.pipe(
    v.number(),
    v.minValue(-0.25, "expected a covariance between -0.25 and 0.25"),
    v.maxValue(0.25, "expected a covariance between -0.25 and 0.25"),
    v.description(meaning),
  );

/** How far kit and reference err together: no default, since independence is an assumption. */
export const ErrorCovariance = v.pipe(
  v.strictObject({
    diseased: covariance("covariance of both results among people with the condition; 0: independent"),
    nondiseased: covariance("covariance of both results among people without it; 0: independent"),
  }),
  v.description("how kit and reference hang together among people of the same truth"),
);
export type ErrorCovariance = v.InferOutput<typeof ErrorCovariance>;
