import * as v from "valibot";
import {
  choice,
  count,
  draws,
  estimate,
  level,
  proportionEstimate,
  quantity,
  seed,
} from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";

const Counts = (meaning: string) =>
  v.pipe(
    v.strictObject({
      bothReactive: count("people reactive with both kits"),
      firstOnly: count("people reactive with the first kit only"),
      secondOnly: count("people reactive with the second kit only"),
      neither: count("people reactive with neither"),
    }),
    v.description(meaning),
  );
const Input = v.strictObject({
  diseased: Counts("people with the condition, tested with both kits"),
  nondiseased: Counts("people without the condition, tested with both kits"),
});
export const PHI_INTERVALS = ["jeffreys", "bootstrap", "delta"] as const;
const Options = v.strictObject({
  level: level(),
  method: v.optional(
    choice(
      PHI_INTERVALS,
      "jeffreys: drawn from what the counts leave possible, half a person added to each cell; bootstrap: people drawn again; delta: standard error, by Fisher's z for phi",
    ),
    "jeffreys",
  ),
  draws: draws("draws of the interval", 10_000, 1_000_000),
  seed: seed(1),
  people: v.optional(whole(1, 1_000_000_000, "people for whom errors of both kits are counted"), 100_000),
});
const Truth = (wrong: string, meaning: string) =>
  v.pipe(
    v.strictObject({
      people: quantity("people", "people tested with both kits"),
      firstReactive: proportionEstimate("P(first reactive), exact interval"),
      secondReactive: proportionEstimate("P(second reactive), exact interval"),
      covariance: estimate("statistic", "covariance of the two results"),
      phi: estimate("statistic", "correlation of the two results"),
      lowestCovariance: quantity("statistic", "smallest covariance that these shares allow"),
      highestCovariance: quantity("statistic", "largest covariance that these shares allow"),
      lowestPhi: quantity("statistic", "smallest correlation that these shares allow"),
      highestPhi: quantity("statistic", "largest correlation that these shares allow"),
      fisher: v.pipe(
        v.strictObject({
          twoSided: quantity("probability", "tables no more probable than the one seen"),
          greater: quantity("probability", "as many alike as seen, or more"),
          less: quantity("probability", "as many alike as seen, or fewer"),
        }),
        v.description("Fisher's exact test of independence, p-values"),
      ),
      bothWrong: v.pipe(
        v.strictObject({
          observed: proportionEstimate(`${wrong}, exact interval`),
          ifIndependent: quantity("people", `${wrong}: expected here if the kits were independent`),
          perPeople: quantity("people", `${wrong}: as observed, among so many people of this truth`),
          perPeopleIfIndependent: quantity("people", "the same if the kits were independent"),
        }),
        v.description("people whom both kits get wrong"),
      ),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  diseased: Truth("neither reactive: missed by both", "people with the condition"),
  nondiseased: Truth("both reactive: false positives of both", "people without the condition"),
});
export type ObservedDependenceInput = v.InferOutput<typeof Input>;
export type ObservedDependenceOptions = v.InferOutput<typeof Options>;
export type ObservedDependenceValues = v.InferOutput<typeof Values>;
