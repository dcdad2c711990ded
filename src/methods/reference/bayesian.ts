import { defineMethod, type Finding } from "../../core/method.ts";
import { type Chain, chainOf } from "./bayesian-chain.ts";
import { predictiveCheck } from "./bayesian-check.ts";
import { conflictOf } from "./bayesian-conflict.ts";
import { bayesianExamples } from "./bayesian-examples.ts";
import {
  type BayesianInput as Asked,
  BayesianInput,
  BayesianOptions,
  BayesianValues,
  type BayesianOptions as Chosen,
  type Posterior,
  type BayesianValues as Values,
} from "./bayesian-fields.ts";
import { identifiedAt } from "./bayesian-identified.ts";
import { type BayesianModel, bayesianModel } from "./bayesian-model.ts";
import { chainNotes, fitNotes, namingNotes, priorNotes } from "./bayesian-notes.ts";
import { posteriorOf } from "./bayesian-posterior.ts";
import { priorOf } from "./bayesian-priors.ts";
import { columnOf, unknownsOf } from "./bayesian-unknowns.ts";

/**
 * How good are the tests, and how common is the condition, where no test is beyond doubt but something is known
 * beforehand?
 *
 * The model of `reference.latent_class` with a beta prior for every share; the covariance of a pair is flat between
 * the limits that its two shares set, the latent correlation of the random effect flat from 0 to 0.9, in either
 * class. Chains of Gibbs sweeps with leaps between (see `chainOf`) draw from the posterior.
 *
 * @param input   people by pattern of results, and what was believed before
 * @param options level, chains, draws kept and thrown away, seed
 * @throws InputError where patterns, pairs or priors do not fit the tests and populations
 * Behaves badly where the counts can't tell the unknowns apart and priors are wide: chains then move slowly, and
 * the answer is the prior's. Where priors do not tell the classes apart they are named as by maximum likelihood
 * Source: joseph1995; dendukuri2001 for pairs; vehtari2021 for how chains agree
 */
export function bayesianLatentClass(input: Asked, options: Chosen): Finding<Values> {
  const model = bayesianModel(input);
  const chains = Array.from({ length: options.chains }, (_, chain) =>
    chainOf(model, options.seed, chain, options),
  );
  const unknowns = unknownsOf(model);
  const posteriors = unknowns.map((unknown) => ({
    path: unknown.path,
    posterior: posteriorOf(
      unknown,
      columnOf(unknown, chains),
      priorOf(unknown, model),
      options.level,
      conflictOf(unknown, model, options.seed),
    ),
  }));
  const at = new Map(posteriors.map(({ path, posterior }) => [path, posterior]));
  const values: Values = {
    ...reported(input, model, (path) => at.get(path) as Posterior),
    conflict: unknowns
      .filter(({ kind }) => kind === "share")
      .map(({ path }) => ({ parameter: path, p: at.get(path)?.outsidePrior ?? null })),
    check: predictiveCheck(input, model, chains, options.level, options.seed),
    identified: identifiedAt(
      model,
      unknowns,
      posteriors.map(({ posterior }) => posterior.mean as number),
    ),
    search: searchOf(options, chains, [...at.values()]),
  };
  return {
    values,
    notes: [
      ...chainNotes(posteriors, options),
      ...priorNotes(values, model),
      ...namingNotes(model, chains),
      ...fitNotes(input, model, values),
    ],
  };
}

function reported(
  input: Asked,
  { data, peopleOf }: BayesianModel,
  at: (path: string) => Posterior,
): Pick<Values, "tests" | "populations" | "couplings"> {
  const between = data.randomEffect
    ? ["all tests"]
    : data.pairs.map(([first, second]) => `${input.tests[first]}, ${input.tests[second]}`);
  return {
    tests: input.tests.map((name, test) => ({
      name,
      sensitivity: at(`tests.${test}.sensitivity`),
      specificity: at(`tests.${test}.specificity`),
    })),
    populations: input.populations.map(({ label }, place) => ({
      label,
      people: peopleOf[place] as number,
      prevalence: at(`populations.${place}.prevalence`),
    })),
    couplings: between.map((tests, place) => ({
      between: tests,
      diseased: at(`couplings.${place}.diseased`),
      nondiseased: at(`couplings.${place}.nondiseased`),
    })),
  };
}

function searchOf(
  { chains, draws, warmup }: Chosen,
  drawn: readonly Chain[],
  posteriors: readonly Posterior[],
): Values["search"] {
  const tried = drawn.reduce((sum, chain) => sum + chain.tried, 0);
  const taken = drawn.reduce((sum, chain) => sum + chain.taken, 0);
  const known = (numbers: readonly (number | null)[]) => numbers.filter((number) => number !== null);
  const rHats = known(posteriors.map(({ rHat }) => rHat));
  const effective = known(
    posteriors.flatMap(({ bulkEffective, tailEffective }) => [bulkEffective, tailEffective]),
  );
  return {
    chains,
    draws,
    warmup,
    acceptance: tried > 0 ? taken / tried : null,
    worstRHat: rHats.length > 0 ? Math.max(...rHats) : null,
    fewestEffective: effective.length > 0 ? Math.min(...effective) : null,
  };
}

export const referenceBayesian = defineMethod({
  id: "reference.bayesian",
  version: 1,
  title: "Latent class model with priors",
  question:
    "How good are the tests, and how common is the condition, where no test is beyond doubt but something is known beforehand?",
  formula:
    "posterior = prior × likelihood / constant; likelihood as of reference.latent_class; every share has its beta prior; pair: P(both) = p q + covariance, flat between max(0, p + q - 1) - p q and min(p, q) - p q in either class (its prior shown by 20,000 draws); random effect: latent correlation flat from 0 to 0.9 in either class. Drawn by chains of Gibbs sweeps and Metropolis-Hastings leaps; limits are equal tails of the draws; R-hat and effective draws of ranks turned into normal scores; conflict: p = 2 min(P(prior draw < share), P(prior draw > share)), the share drawn with its own prior flat; sides on which the prior's density does not fall are left out; predictive p = share of repetitions with G² at least that of the people seen. Densities: normal kernels, for shares and latent correlations on the logit scale",
  caution:
    "where the counts alone can't tell the unknowns apart, the answer is as good as the priors, however many people were seen. Priors must come from elsewhere, not from these people. Tests that err together look better than they are unless the model says so. A prior that lets the names of the classes be exchanged gives two answers. Draws are random: mind the Monte Carlo error",
  sources: ["joseph1995", "dendukuri2001", "vehtari2021", "presanis2013", "gelman1996"],
  input: BayesianInput,
  options: BayesianOptions,
  values: BayesianValues,
  run: bayesianLatentClass,
  examples: bayesianExamples,
});
