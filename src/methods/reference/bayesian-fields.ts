import * as v from "valibot";
import { choice, level, quantity, seed, text } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";
import { LatentInput } from "./latent-fields.ts";
import { LatentPriors } from "./prior-fields.ts";

export const BayesianInput = v.strictObject({
  ...LatentInput.entries,
  priors: LatentPriors,
});

export const BayesianOptions = v.strictObject({
  level: level(0.95),
  chains: v.optional(whole(1, 16, "chains, each begun elsewhere"), 4),
  draws: v.optional(whole(100, 100_000, "draws kept of each chain"), 5000),
  warmup: v.optional(whole(100, 100_000, "draws of each chain thrown away at its beginning"), 1000),
  seed: seed(1),
});

const finite = v.pipe(v.number(), v.finite("expected a finite number"));
type ShareUnit = "proportion" | "statistic";

const posterior = (unit: ShareUnit, meaning: string) =>
  v.pipe(
    v.strictObject({
      mean: quantity(unit, "posterior mean"),
      median: quantity(unit, "posterior median"),
      standardDeviation: quantity(unit, "posterior standard deviation"),
      lower: quantity(unit, "lower limit, equal tails"),
      upper: quantity(unit, "upper limit, equal tails"),
      prior: v.strictObject({
        mean: quantity(unit, "prior mean"),
        median: quantity(unit, "prior median"),
        lower: quantity(unit, "lower limit before these data"),
        upper: quantity(unit, "upper limit before these data"),
      }),
      rHat: quantity("ratio", "rank-normalised split R-hat of the chains: 1 where they agree"),
      bulkEffective: quantity("count", "independent draws that tell as much of the middle"),
      tailEffective: quantity("count", "independent draws that tell as much of the tails (5 % and 95 %)"),
      monteCarloError: quantity(unit, "standard error of the posterior mean from drawing"),
      outsidePrior: quantity(
        "probability",
        "how well prior and data agree: p of prior-data conflict; small where the data speak against the prior",
      ),
      density: v.pipe(
        v.array(v.strictObject({ at: finite, posterior: finite, prior: finite })),
        v.description(
          "61 points: 21 evenly over the union of both central 99.8 % ranges, 40 more over the posterior's",
        ),
      ),
      trace: v.pipe(
        v.array(v.array(finite)),
        v.description("one entry per chain: at most 200 of its draws, evenly thinned"),
      ),
      ranks: v.pipe(
        v.array(v.array(finite)),
        v.description(
          "one entry per chain: its draws in each twentieth of all draws by rank; even where chains agree",
        ),
      ),
    }),
    v.description(meaning),
  );

export const BayesianValues = v.strictObject({
  tests: v.pipe(
    v.array(
      v.strictObject({
        name: text("name of the test"),
        sensitivity: posterior("proportion", "P(reactive | condition present)"),
        specificity: posterior("proportion", "P(non-reactive | condition absent)"),
      }),
    ),
    v.description("one entry per test, same order"),
  ),
  populations: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the population"),
        people: quantity("people", "people observed"),
        prevalence: posterior("proportion", "P(condition present)"),
      }),
    ),
    v.description("one entry per population, same order"),
  ),
  couplings: v.pipe(
    v.array(
      v.strictObject({
        between: text("the tests whose errors may go together"),
        diseased: posterior("statistic", "among people with the condition"),
        nondiseased: posterior("statistic", "among people without the condition"),
      }),
    ),
    v.description(
      "pairs: conditional covariances, one entry per pair; random effect: latent correlation of all tests",
    ),
  ),
  conflict: v.pipe(
    v.array(
      v.strictObject({
        parameter: text("path of the share, e.g. tests.0.sensitivity"),
        p: quantity("probability", "p of prior-data conflict, its own prior made flat"),
      }),
    ),
    v.description("every share that has a prior of its own"),
  ),
  check: v.strictObject({
    patterns: v.pipe(
      v.array(
        v.strictObject({
          population: text("name of the population"),
          results: v.pipe(
            v.array(choice(["reactive", "nonreactive", "not_done"], "what the test showed")),
            v.description("one entry per test, same order as `tests`"),
          ),
          observed: quantity("people", "people seen"),
          expected: quantity("people", "people expected in a repetition: mean of the posterior prediction"),
          lower: quantity("people", "lower limit of the prediction, equal tails"),
          upper: quantity("people", "upper limit of the prediction, equal tails"),
          p: quantity("probability", "two-sided predictive p of the people seen"),
        }),
      ),
      v.description("every pattern of the tests done, in every population"),
    ),
    overall: v.strictObject({
      p: quantity("probability", "share of repetitions whose G² is at least that of the people seen"),
    }),
  }),
  identified: v.strictObject({
    rank: quantity("count", "unknowns that the counts alone can tell apart at the posterior mean"),
    unknowns: quantity("count", "unknowns of the model"),
    byDataAlone: v.pipe(v.boolean(), v.description("whether the counts alone could tell all unknowns apart")),
  }),
  search: v.strictObject({
    chains: quantity("count", "chains"),
    draws: quantity("count", "draws kept of each"),
    warmup: quantity("count", "draws of each thrown away"),
    acceptance: quantity("proportion", "share of proposals taken; null where none were made"),
    worstRHat: quantity("ratio", "largest R-hat of any unknown"),
    fewestEffective: quantity("count", "fewest effective draws of any unknown, bulk or tail"),
  }),
});

export type BayesianInput = v.InferOutput<typeof BayesianInput>;
export type BayesianOptions = v.InferOutput<typeof BayesianOptions>;
export type BayesianValues = v.InferOutput<typeof BayesianValues>;
/** What is known of one unknown after the data, and how well the chains agree on it. */
export type Posterior = v.InferOutput<ReturnType<typeof posterior>>;
