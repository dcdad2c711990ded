import * as v from "valibot";
import { choice, level, openProportion, quantity } from "../../core/fields.ts";
import { CRITERION_RULES } from "../proportion/criterion.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";

/** A whole number within bounds, both allowed. */
export function whole(least: number, most: number, meaning: string) {
  return v.pipe(
    v.number(),
    v.integer("expected a whole number"),
    v.minValue(least, `expected ${least.toLocaleString("en-GB")} or more`),
    v.maxValue(most, `expected at most ${most.toLocaleString("en-GB")}`),
    v.description(meaning),
  );
}

/** Which side of a threshold a criterion demands. */
export function direction() {
  return choice(["at_least", "at_most"], "which side of the threshold is demanded");
}

/** The options of `proportion.criterion`, to be spread into the options of a method. */
export const criterionOptions = {
  method: intervalMethod(),
  level: level(),
  sides: v.optional(choice(["two", "one"], "as of proportion.criterion"), "two"),
  rule: v.optional(choice(CRITERION_RULES, "as of proportion.criterion")),
};

/** The power wanted; absent means the default. */
export function power(standard = 0.8) {
  return v.optional(
    openProportion("power wanted: probability that the study shows what it is to show"),
    standard,
  );
}

/** How far a size is looked for; absent means the default. */
export function horizon(standard = 10_000, most = 100_000) {
  return v.optional(whole(1, most, "most people looked at"), standard);
}

/** The size of a study with the power it has. All are `null` together, with a note that says why. */
export function Size(meaning: string) {
  return v.pipe(
    v.strictObject({
      total: quantity("people", "people needed"),
      needed: quantity("count", "fewest of them in favour that meet the criterion"),
      allowed: quantity("count", "most of them against with which it is still met"),
      power: quantity("probability", "probability that it will be met"),
      powerBefore: quantity("probability", "the same with one person fewer"),
    }),
    v.description(meaning),
  );
}
export type SizeValues = v.InferOutput<ReturnType<typeof Size>>;

/** A size that can't be had. */
export const NO_SIZE: SizeValues = {
  total: null,
  needed: null,
  allowed: null,
  power: null,
  powerBefore: null,
};
