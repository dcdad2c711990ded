import * as v from "valibot";
import { choice, proportion, quantity, text } from "../../core/fields.ts";
import { PathStep, STATUSES } from "./model.ts";

/** The values of `algorithms.outcomes`, part by part. */

const probability = (meaning: string) => quantity("probability", meaning);

const Path = v.strictObject({
  steps: v.pipe(v.array(PathStep), v.description("what is found at each step, in order")),
  status: choice(STATUSES, "what the path ends with"),
  diseased: probability("probability of the path among the diseased"),
  nondiseased: probability("probability of the path among the nondiseased"),
});

/** What one truth ends with; positive + negative + inconclusive + lost = 1. */
const Ends = v.strictObject({
  positive: probability("probability of ending positive"),
  negative: probability("probability of ending negative"),
  inconclusive: probability("probability of ending inconclusive, after the second pass if there is one"),
  lost: probability("probability of being inconclusive and not returning, where people are asked to"),
  runs: v.pipe(
    v.array(
      v.strictObject({
        kit: text("id of the kit"),
        mean: quantity("count", "mean number of devices used for one person, invalid ones and both passes"),
        distribution: v.pipe(
          v.array(
            v.strictObject({
              runs: v.pipe(v.number(), v.integer(), v.description("devices used for one person")),
              probability: probability("probability that it is so many"),
            }),
          ),
          v.description("how many devices of the kit one person uses"),
        ),
      }),
    ),
    v.description("one entry for each kit, in the order of the kits"),
  ),
});

export const Net = v.strictObject({
  sensitivity: quantity("proportion", "P(ends positive | diseased)"),
  specificity: quantity("proportion", "P(ends negative | nondiseased)"),
  sensitivityDecided: quantity("proportion", "P(positive | diseased, ends positive or negative)"),
  specificityDecided: quantity("proportion", "P(negative | nondiseased, ends positive or negative)"),
});
export type Net = v.InferOutput<typeof Net>;

const predictive = {
  prevalence: proportion("the prevalence"),
  ppv: quantity("proportion", "P(diseased | ends positive)"),
  npv: quantity("proportion", "P(nondiseased | ends negative)"),
};

const At = v.strictObject({
  ...predictive,
  positive: probability("share that ends positive"),
  negative: probability("share that ends negative"),
  inconclusive: probability("share that ends inconclusive"),
  lost: probability("share that is inconclusive and does not return"),
  runs: v.pipe(
    v.array(
      v.strictObject({
        kit: text("id of the kit"),
        perPerson: quantity("count", "mean number of devices for one person tested"),
      }),
    ),
    v.description("one entry for each kit, in the order of the kits"),
  ),
  perPeople: v.pipe(
    v.strictObject({
      truePositives: quantity("people", "diseased who end positive"),
      falsePositives: quantity("people", "nondiseased who end positive"),
      missed: quantity("people", "diseased who end negative"),
      trueNegatives: quantity("people", "nondiseased who end negative"),
      inconclusive: quantity("people", "end inconclusive"),
      lost: quantity("people", "inconclusive and do not return"),
    }),
    v.description("expected numbers among the people stated, not rounded"),
  ),
});
export type At = v.InferOutput<typeof At>;

export const OutcomesValues = v.strictObject({
  paths: v.pipe(
    v.array(Path),
    v.description("every path of the first pass; for each truth the probabilities sum to 1"),
  ),
  secondPass: v.pipe(
    v.strictObject({
      diseased: probability("probability of a second pass among the diseased"),
      nondiseased: probability("probability of a second pass among the nondiseased"),
      paths: v.pipe(
        v.array(Path),
        v.description("every path of the second pass, whatever the first: probability of returning and it"),
      ),
    }),
    v.description("inconclusive people who returned; no paths where nobody is asked to"),
  ),
  byTruth: v.pipe(
    v.strictObject({ diseased: Ends, nondiseased: Ends }),
    v.description("what becomes of the diseased and of the nondiseased"),
  ),
  net: v.pipe(Net, v.description("the algorithm taken as one test")),
  runsAtStep: v.pipe(
    v.array(
      v.strictObject({
        step: text("id of the step"),
        diseased: probability("probability that a diseased person comes to it in the first pass"),
        nondiseased: probability("probability that a nondiseased person comes to it in the first pass"),
        runsDiseased: quantity(
          "count",
          "mean number of devices used there for a diseased person, both passes",
        ),
        runsNondiseased: quantity("count", "the same for a nondiseased person"),
      }),
    ),
    v.description("one entry for each step, in the order of the steps"),
  ),
  at: v.pipe(v.array(At), v.description("one entry for each prevalence, in the order given")),
  independent: v.pipe(
    v.strictObject({
      net: Net,
      at: v.array(v.strictObject(predictive)),
    }),
    v.description("the same if all runs erred independently: always beside, an assumption seldom true"),
  ),
});
export type OutcomesValues = v.InferOutput<typeof OutcomesValues>;
