import * as v from "valibot";
import { openProportion, proportion, quantity } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";

const Input = v.strictObject({
  clients: whole(1, 100_000_000, "people who will go through the algorithm"),
  situations: v.pipe(
    v.array(
      v.strictObject({
        weight: v.pipe(
          v.number(),
          v.gtValue(0, "expected a number above 0"),
          v.maxValue(1e9, "expected at most 1e9"),
          v.description("how likely this situation is, relative to the others"),
        ),
        perPerson: v.pipe(
          v.array(
            v.strictObject({
              runs: whole(0, 40, "devices of this kit that a person uses up"),
              probability: proportion("share of people who use up so many"),
            }),
          ),
          v.minLength(1, "expected one entry or more"),
          v.maxLength(41, "expected at most 41 entries"),
          v.description("devices of this kit per person; the probabilities add up to 1"),
        ),
      }),
    ),
    v.minLength(1, "expected one situation or more"),
    v.maxLength(1001, "expected at most 1001 situations"),
    v.description("one situation where the prevalence is known; else several, e.g. one per prevalence"),
  ),
  waste: v.pipe(
    v.number(),
    v.minValue(0, "expected a proportion from 0 to below 1"),
    v.ltValue(1, "expected a proportion from 0 to below 1"),
    v.description("share of devices lost before use: expired, damaged, spent on controls"),
  ),
  packSize: whole(1, 10_000, "devices in a pack"),
});
const Options = v.strictObject({
  stockOutRisk: v.optional(openProportion("accepted probability that the devices run out"), 0.05),
});
const Order = (meaning: string) =>
  v.pipe(
    v.strictObject({
      runs: quantity("count", "devices that can be used up"),
      kits: quantity("count", "devices to have, with those that will be lost"),
      packs: quantity("count", "packs to order"),
      runsOut: quantity("probability", "probability that more would be used up than so many runs"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  mean: quantity("count", "mean number of devices used up"),
  standardDeviation: quantity("count", "standard deviation of that number"),
  ordered: Order("fewest with the accepted probability of running out"),
  orderedByMean: Order("what would be ordered for the mean, to compare with"),
  method: v.pipe(
    v.picklist(["exact", "cornish_fisher"]),
    v.description("exact: the distribution itself; cornish_fisher: from its first four moments"),
  ),
});
export type StockInput = v.InferOutput<typeof Input>;
export type StockOptions = v.InferOutput<typeof Options>;
export type StockValues = v.InferOutput<typeof Values>;
