import * as v from "valibot";
import { choice, count, level, quantity, text } from "../../core/fields.ts";
import { LatentPriors } from "./prior-fields.ts";

export const ExactInput = v.strictObject({
  tests: v.pipe(
    v.array(text("name of the test")),
    v.minLength(1, "expected one test or two"),
    v.maxLength(2, "expected one test or two"),
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
                v.array(v.boolean()),
                v.description("one entry per test, same order as `tests`: reactive or not; none is missing"),
              ),
              people: count("people with these results"),
            }),
          ),
          v.minLength(1, "expected one pattern or more"),
          v.maxLength(100, "expected at most 100 patterns"),
          v.description("the patterns seen; those not listed were not seen"),
        ),
      }),
    ),
    v.length(1, "expected one population"),
    v.description("the people, of one population"),
  ),
  priors: LatentPriors,
});

export const ExactOptions = v.strictObject({ level: level(0.95) });

const finite = v.pipe(v.number(), v.finite("expected a finite number"));

const posterior = (meaning: string) =>
  v.pipe(
    v.strictObject({
      mean: quantity("proportion", "posterior mean"),
      median: quantity("proportion", "posterior median"),
      standardDeviation: quantity("proportion", "posterior standard deviation"),
      lower: quantity("proportion", "lower limit, equal tails"),
      upper: quantity("proportion", "upper limit, equal tails"),
      prior: v.strictObject({
        mean: quantity("proportion", "prior mean"),
        median: quantity("proportion", "prior median"),
        lower: quantity("proportion", "lower limit before these data"),
        upper: quantity("proportion", "upper limit before these data"),
      }),
      density: v.pipe(
        v.array(v.strictObject({ at: finite, posterior: finite, prior: finite })),
        v.description(
          "61 points: 21 evenly over the union of both central 99.8 % ranges, 40 more over the posterior's",
        ),
      ),
    }),
    v.description(meaning),
  );

export const ExactValues = v.strictObject({
  tests: v.pipe(
    v.array(
      v.strictObject({
        name: text("name of the test"),
        sensitivity: posterior("P(reactive | condition present)"),
        specificity: posterior("P(non-reactive | condition absent)"),
        ppv: posterior("P(condition present | reactive), in this population"),
        npv: posterior("P(condition absent | non-reactive), in this population"),
      }),
    ),
    v.description("one entry per test, same order"),
  ),
  populations: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the population"),
        people: quantity("people", "people observed"),
        prevalence: posterior("P(condition present)"),
      }),
    ),
    v.description("the one population"),
  ),
  patterns: v.pipe(
    v.array(
      v.strictObject({
        results: v.pipe(
          v.array(choice(["reactive", "nonreactive"], "what the test showed")),
          v.description("one entry per test, same order as `tests`"),
        ),
        people: quantity("people", "people seen"),
        diseased: quantity("people", "people of these who have the condition: posterior mean"),
      }),
    ),
    v.description("every pattern of results"),
  ),
  evidence: v.strictObject({
    logProbability: quantity(
      "statistic",
      "log of the probability that priors and model gave these counts: the marginal likelihood",
    ),
  }),
  identified: v.strictObject({
    rank: quantity("count", "unknowns that the counts alone can tell apart"),
    unknowns: quantity("count", "unknowns of the model"),
    byDataAlone: v.pipe(v.boolean(), v.description("whether the counts alone could tell all unknowns apart")),
  }),
  combinations: quantity("count", "ways to share the people out over the condition, all gone through"),
});

export type ExactInput = v.InferOutput<typeof ExactInput>;
export type ExactOptions = v.InferOutput<typeof ExactOptions>;
export type ExactValues = v.InferOutput<typeof ExactValues>;
/** What is known of one share before and after the data. */
export type ExactPosterior = v.InferOutput<ReturnType<typeof posterior>>;
