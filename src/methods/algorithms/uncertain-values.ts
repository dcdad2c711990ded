import * as v from "valibot";
import { count, quantity, text, type Unit } from "../../core/fields.ts";

/** The values of `algorithms.uncertain`, part by part. */

function Drawn(unit: Unit, meaning: string) {
  return v.pipe(
    v.strictObject({
      mean: quantity(unit, "mean of the draws"),
      median: quantity(unit, "median of the draws"),
      lower: quantity(unit, "lower percentile limit"),
      upper: quantity(unit, "upper percentile limit"),
      error: quantity(unit, "standard error of the mean from the finite number of draws"),
    }),
    v.description(meaning),
  );
}
export type DrawnValues = v.InferOutput<ReturnType<typeof Drawn>>;

function Chance(meaning: string) {
  return v.pipe(
    v.strictObject({
      value: quantity("probability", "share of the draws"),
      error: quantity("probability", "its standard error from the finite number of draws"),
    }),
    v.description(meaning),
  );
}
export type ChanceValues = v.InferOutput<ReturnType<typeof Chance>>;

const AskedFor = (meaning: string) => v.nullable(Chance(`${meaning}; null: not asked for`));

const At = v.strictObject({
  label: text("name of the prevalence"),
  ppv: Drawn("proportion", "P(diseased | ends positive)"),
  npv: Drawn("proportion", "P(nondiseased | ends negative)"),
  missed: Drawn("people", "diseased who end negative, among the people stated"),
  falsePositives: Drawn("people", "nondiseased who end positive, among the people stated"),
  inconclusive: Drawn("people", "who end inconclusive, the lost included, among the people stated"),
  cost: Drawn("money", "cost per person tested"),
  reaches: v.pipe(
    v.strictObject({
      ppv: AskedFor("probability that the PPV reaches the lowest allowed"),
      npv: AskedFor("the same of the NPV"),
      inconclusive: AskedFor("probability that no more end inconclusive than allowed"),
      all: Chance("probability that every criterion is met"),
    }),
    v.description("the criteria one by one, and together"),
  ),
  best: Chance("probability that it is the best of the algorithms, by the objective stated"),
});

export const UncertainValues = v.strictObject({
  algorithms: v.pipe(
    v.array(
      v.strictObject({
        id: text("id of the algorithm"),
        sensitivity: Drawn("proportion", "P(ends positive | diseased)"),
        specificity: Drawn("proportion", "P(ends negative | nondiseased)"),
        at: v.pipe(v.array(At), v.description("one entry for each prevalence, in the order given")),
      }),
    ),
    v.description("one entry for each algorithm, in the order given"),
  ),
  noneBest: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the prevalence"),
        chance: Chance("probability that no algorithm meets the criteria, so that none is best"),
      }),
    ),
    v.description("one entry for each prevalence; with it the probabilities of being best sum to 1"),
  ),
  draws: count("number of random draws"),
});
export type UncertainValues = v.InferOutput<typeof UncertainValues>;
