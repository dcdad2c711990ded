import * as v from "valibot";
import { count, proportion, quantity, text } from "../../core/fields.ts";

/** The values of `algorithms.frontier`, part by part. */

const share = (meaning: string) => quantity("probability", meaning);

const Searched = v.strictObject({
  id: text("its kind and its kits, in the order of use"),
  preset: text("its kind, a trade term"),
  kits: v.pipe(v.array(text("id of a kit")), v.description("the kits in the order of use")),
  minutes: quantity(
    "minutes",
    "longest way through it, no run invalid; kits run on everybody at the same time",
  ),
  sensitivity: share("P(ends positive | diseased)"),
  specificity: share("P(ends negative | nondiseased)"),
  inconclusiveDiseased: share("P(ends inconclusive | diseased)"),
  inconclusiveNondiseased: share("P(ends inconclusive | nondiseased)"),
});

const Standing = v.strictObject({
  algorithm: text("id of the algorithm"),
  keeps: v.pipe(v.boolean(), v.description("whether it keeps all the limits at this prevalence")),
  ppv: quantity("proportion", "P(diseased | ends positive)"),
  npv: quantity("proportion", "P(nondiseased | ends negative)"),
  missed: quantity("people", "diseased who are missed, among the people stated"),
  falsePositives: quantity("people", "nondiseased who end positive, among the people stated"),
  inconclusive: quantity("people", "who end inconclusive, among the people stated"),
  cost: quantity("money", "cost per person tested"),
});
export type StandingValues = v.InferOutput<typeof Standing>;

const best = (meaning: string) =>
  v.pipe(v.nullable(v.string()), v.description(`${meaning}; null: none keeps the limits`));

const Drawn = v.strictObject({
  draws: count("number of random draws"),
  at: v.pipe(
    v.array(
      v.strictObject({
        prevalence: proportion("the prevalence"),
        algorithms: v.pipe(
          v.array(
            v.strictObject({
              algorithm: text("id of the algorithm"),
              notBeaten: share("probability that no other beats it"),
              best: share("probability that it is the best"),
            }),
          ),
          v.description("those not beaten, or best, in some draw; in the order of the algorithms"),
        ),
        none: share(
          "probability that none keeps the limits; with it the probabilities of being best sum to 1",
        ),
      }),
    ),
    v.description("one entry for each prevalence"),
  ),
});

export const FrontierValues = v.strictObject({
  algorithms: v.pipe(
    v.array(Searched),
    v.description("every algorithm searched, with the kits at their medians"),
  ),
  at: v.pipe(
    v.array(
      v.strictObject({
        prevalence: proportion("the prevalence"),
        best: best("id of the cheapest algorithm that keeps the limits"),
        notBeaten: v.pipe(
          v.array(Standing),
          v.description(
            "the algorithms that no other beats: none misses no more, has no more false positives and costs no more, and is better in one of these",
          ),
        ),
      }),
    ),
    v.description("one entry for each prevalence"),
  ),
  switches: v.pipe(
    v.array(
      v.strictObject({
        prevalence: proportion("prevalence from which another is the best, exactly"),
        from: best("the best just below"),
        to: best("the best just above"),
      }),
    ),
    v.description("where the best changes between the lowest and the highest prevalence, going up"),
  ),
  drawn: v.pipe(v.nullable(Drawn), v.description("null unless draws were asked for")),
});
export type FrontierValues = v.InferOutput<typeof FrontierValues>;
