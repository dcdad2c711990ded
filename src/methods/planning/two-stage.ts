import * as v from "valibot";
import { count, openProportion, proportion, quantity } from "../../core/fields.ts";
import { lookList } from "./looks.ts";

const Input = v.strictObject({
  unacceptable: openProportion("proportion right that is too low: a kit like this should rarely pass"),
  expected: proportion("proportion right that is hoped for: a kit like this should pass"),
});
const Options = v.strictObject({
  error: v.optional(
    openProportion("most probability that a kit at the unacceptable proportion passes"),
    0.05,
  ),
  power: v.optional(openProportion("least probability that a kit at the expected proportion passes"), 0.8),
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
  single: v.pipe(
    v.nullable(
      v.strictObject({
        total: count("fewest people that reach the power with one look"),
        passFrom: count("this many right or more: the kit passes"),
        error: quantity("probability", "probability of passing if the kit is unacceptable"),
        power: quantity("probability", "probability of passing if the kit is as expected"),
      }),
    ),
    v.description("one look at the end, to compare with; searched up to 10,000 people"),
  ),
});
export type TwoStageInput = v.InferOutput<typeof Input>;
export type TwoStageOptions = v.InferOutput<typeof Options>;
export type TwoStageValues = v.InferOutput<typeof Values>;
