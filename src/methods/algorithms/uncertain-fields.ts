import * as v from "valibot";
import { count, proportion, text } from "../../core/fields.ts";

/** What is known of shares and prices, each as a distribution: shared by the methods that draw or vary them. */

/** A distribution's parameter, as of so many observations. */
function weight(meaning: string) {
  return v.pipe(
    v.number(),
    v.gtValue(0, "expected a number above 0"),
    v.maxValue(1e9, "expected at most 1,000,000,000"),
    v.description(meaning),
  );
}

/** An amount of money, in any one currency. */
export function money(meaning: string) {
  return v.pipe(
    v.number(),
    v.minValue(0, "expected 0 or more"),
    v.maxValue(1e9, "expected at most 1,000,000,000"),
    v.description(meaning),
  );
}

/** What is known of a share, such as a sensitivity or a prevalence. */
export function UncertainShare(meaning: string) {
  const parts = [
    v.strictObject({
      kind: v.literal("counts"),
      right: count("seen with it: the share has the Jeffreys posterior of these counts"),
      total: count("of so many"),
    }),
    v.strictObject({
      kind: v.literal("beta"),
      a: weight("first parameter of the beta distribution"),
      b: weight("second parameter"),
    }),
    v.strictObject({
      kind: v.literal("range"),
      low: proportion("lowest: every value up to the highest is equally probable"),
      high: proportion("highest"),
    }),
    v.strictObject({ kind: v.literal("value"), value: proportion("taken as known") }),
  ] as const;
  return v.pipe(v.variant("kind", parts), v.description(meaning));
}
export type UncertainShare = v.InferOutput<ReturnType<typeof UncertainShare>>;

/** What is known of a price. */
export function UncertainMoney(meaning: string) {
  const parts = [
    v.strictObject({
      kind: v.literal("range"),
      low: money("lowest: every value up to the highest is equally probable"),
      high: money("highest"),
    }),
    v.strictObject({ kind: v.literal("value"), value: money("taken as known") }),
  ] as const;
  return v.pipe(v.variant("kind", parts), v.description(meaning));
}
export type UncertainMoney = v.InferOutput<ReturnType<typeof UncertainMoney>>;

/** The parts of a kit of which something is known, to be spread into a kit. */
export const uncertainKitFields = {
  id: text("short name of the kit, used by the steps"),
  sensitivity: UncertainShare("P(reactive | diseased, valid run)"),
  specificity: UncertainShare("P(non-reactive | nondiseased, valid run)"),
  invalid: UncertainShare("share of runs without a valid result, whatever the truth"),
  price: UncertainMoney("price of one device"),
};
export const UncertainKit = v.strictObject(uncertainKitFields);
export type UncertainKit = v.InferOutput<typeof UncertainKit>;

/** The most kits that can be drawn. */
export const MOST_KITS = 20;

/** What testing costs besides kits. */
export const Costs = v.pipe(
  v.strictObject({
    perPerson: UncertainMoney("for each person tested, kits apart"),
    perInconclusive: UncertainMoney("for each person who ends inconclusive: the cost of settling it"),
  }),
  v.description("costs besides the kits, in the money of their prices"),
);
export type Costs = v.InferOutput<typeof Costs>;

const limit = (meaning: string) => v.nullable(proportion(`${meaning}; null: not asked for`));

/** What an algorithm must reach. */
export const criteriaFields = {
  minimumPpv: limit("lowest PPV allowed"),
  minimumNpv: limit("lowest NPV allowed"),
  mostInconclusive: limit("largest share of people allowed to end inconclusive, the lost included"),
};
export const Criteria = v.pipe(
  v.strictObject(criteriaFields),
  v.description("what an algorithm must reach, at the prevalence looked at"),
);
export type Criteria = v.InferOutput<typeof Criteria>;

/** A prevalence of which something is known, with a name. */
export const UncertainPrevalence = v.strictObject({
  label: text("name of the people tested, or of the prevalence"),
  share: UncertainShare("share of diseased among those tested"),
});
export type UncertainPrevalence = v.InferOutput<typeof UncertainPrevalence>;
