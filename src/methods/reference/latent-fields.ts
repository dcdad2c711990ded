import * as v from "valibot";
import { choice, count, draws, estimate, level, quantity, seed, text } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";

export const LatentInput = v.strictObject({
  tests: v.pipe(
    v.array(text("name of the test")),
    v.minLength(2, "expected two tests or more"),
    v.maxLength(8, "expected at most 8 tests"),
    v.description("names of the tests, the kit and the reference alike"),
  ),
  populations: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the population"),
        patterns: v.pipe(
          v.array(
            v.strictObject({
              reactive: v.pipe(
                v.array(v.nullable(v.boolean())),
                v.description("one entry per test, same order as `tests`: reactive or not; null if not done"),
              ),
              people: count("people with these results"),
            }),
          ),
          v.minLength(1, "expected one pattern or more"),
          v.maxLength(6560, "expected at most 6560 patterns"),
          v.description("the patterns seen; those not listed were not seen"),
        ),
      }),
    ),
    v.minLength(1, "expected one population or more"),
    v.maxLength(10, "expected at most 10 populations"),
    v.description("groups of people whose prevalences may differ"),
  ),
  dependence: v.variant("kind", [
    v.strictObject({ kind: v.literal("independent") }),
    v.strictObject({
      kind: v.literal("pairs"),
      pairs: v.pipe(
        v.array(v.strictObject({ first: text("name of a test"), second: text("name of another test") })),
        v.minLength(1, "expected one pair or more"),
        v.maxLength(4, "expected at most 4 pairs"),
        v.description("tests whose errors may go together; a test stands in one pair at most"),
      ),
    }),
    v.strictObject({ kind: v.literal("random_effect") }),
  ]),
});

export const LatentOptions = v.strictObject({
  level: level(0.95),
  interval: v.optional(
    choice(
      ["profile", "wald", "bootstrap"],
      "profile likelihood; Wald on the logit scale; percentiles of people drawn from the fitted model",
    ),
    "profile",
  ),
  replicates: draws("replicates of the bootstrap", 1000, 100_000),
  starts: v.optional(whole(1, 500, "random places from which the search is begun"), 20),
  seed: seed(1),
});

const measured = (meaning: string) =>
  v.strictObject({
    estimate: estimate("proportion", meaning),
    standardError: quantity("proportion", "standard error, from the observed information"),
  });
const coupling = (meaning: string) =>
  v.strictObject({
    estimate: estimate("statistic", meaning),
    standardError: quantity("statistic", "standard error, from the observed information"),
  });

export const LatentValues = v.strictObject({
  tests: v.pipe(
    v.array(
      v.strictObject({
        name: text("name of the test"),
        sensitivity: measured("P(reactive | condition present)"),
        specificity: measured("P(non-reactive | condition absent)"),
      }),
    ),
    v.description("one entry per test, same order"),
  ),
  populations: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the population"),
        people: quantity("people", "people observed"),
        prevalence: measured("P(condition present)"),
      }),
    ),
    v.description("one entry per population, same order"),
  ),
  couplings: v.pipe(
    v.array(
      v.strictObject({
        between: text("the tests whose errors may go together"),
        diseased: coupling("among people with the condition"),
        nondiseased: coupling("among people without the condition"),
      }),
    ),
    v.description(
      "pairs: conditional covariances, one entry per pair; random effect: latent correlation of all tests",
    ),
  ),
  fit: v.strictObject({
    logLikelihood: quantity("statistic", "log-likelihood, without the multinomial constant"),
    deviance: quantity("statistic", "likelihood ratio statistic G² against the saturated model"),
    pearson: quantity("statistic", "Pearson's chi-square X²"),
    freeCounts: quantity("degrees of freedom", "counts that the data leave free"),
    unknowns: quantity("count", "parameters of the model"),
    degreesOfFreedom: quantity("degrees of freedom", "free counts less parameters"),
    p: quantity("probability", "p-value of G² by the chi-square distribution"),
    rank: quantity("count", "parameters that the data can tell apart"),
  }),
  patterns: v.pipe(
    v.array(
      v.strictObject({
        population: text("name of the population"),
        results: v.pipe(
          v.array(choice(["reactive", "nonreactive", "not_done"], "what the test showed")),
          v.description("one entry per test, same order as `tests`"),
        ),
        observed: quantity("people", "people seen"),
        expected: quantity("people", "people expected by the fitted model"),
        residual: quantity("statistic", "(observed - expected) over its standard deviation"),
        diseased: quantity("probability", "probability of the condition in a person with these results"),
      }),
    ),
    v.description("every pattern of the tests done, in every population"),
  ),
  search: v.strictObject({
    starts: quantity("count", "random places from which the search was begun"),
    reachedBest: quantity("count", "starts that ended at the highest likelihood found"),
    iterations: quantity("count", "Newton steps of the best start"),
    converged: v.pipe(v.boolean(), v.description("whether the search ended at a maximum")),
  }),
});

export type LatentInput = v.InferOutput<typeof LatentInput>;
export type LatentOptions = v.InferOutput<typeof LatentOptions>;
export type LatentValues = v.InferOutput<typeof LatentValues>;
