import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";

/** What a kit gets right, as known. */
export function kitAccuracy(meaning: string) {
  return v.pipe(
    v.strictObject({
      sensitivity: proportion("P(reactive | condition present)"),
      specificity: proportion("P(non-reactive | condition absent)"),
    }),
    v.description(meaning),
  );
}

const number = (least: number, meaning: string) =>
  v.pipe(
    v.number(),
    v.minValue(least, `expected ${least} to 1`),
    v.maxValue(1, `expected ${least} to 1`),
    v.description(meaning),
  );

/** How the results of two kits hang together once the truth is known. Never independent unless said so. */
export function twoKitDependence() {
  return v.pipe(
    v.variant("kind", [
      v.strictObject({ kind: v.literal("independent") }),
      v.strictObject({
        kind: v.literal("covariance"),
        diseased: number(-1, "covariance of the two results among people with the condition"),
        nondiseased: number(-1, "covariance of the two results among people without it"),
      }),
      v.strictObject({
        kind: v.literal("phi"),
        diseased: number(-1, "correlation (phi) of the two results among people with the condition"),
        nondiseased: number(-1, "correlation (phi) of the two results among people without it"),
      }),
    ]),
    v.description("how the two results hang together among people of the same truth"),
  );
}
export type TwoKitDependence = v.InferOutput<ReturnType<typeof twoKitDependence>>;

/** The joint distribution of two results among people of one truth, with what the margins allow. */
export function jointResults(meaning: string) {
  return v.pipe(
    v.strictObject({
      bothReactive: quantity("probability", "both reactive"),
      firstOnly: quantity("probability", "only the first reactive"),
      secondOnly: quantity("probability", "only the second reactive"),
      neither: quantity("probability", "neither reactive"),
      covariance: quantity("statistic", "covariance of the two results"),
      lowestCovariance: quantity("statistic", "smallest covariance that these two kits allow"),
      highestCovariance: quantity("statistic", "largest covariance that these two kits allow"),
      phi: quantity("statistic", "correlation of the two results"),
      lowestPhi: quantity("statistic", "smallest correlation that these two kits allow"),
      highestPhi: quantity("statistic", "largest correlation that these two kits allow"),
    }),
    v.description(meaning),
  );
}
