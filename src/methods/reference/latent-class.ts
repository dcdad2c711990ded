import { defineMethod, type Finding } from "../../core/method.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { latentExamples } from "./latent-class-examples.ts";
import { latentData } from "./latent-data.ts";
import { latentEstimates, noEstimates } from "./latent-estimates.ts";
import { distanceOf, type ExpectedPattern, expectedPatterns } from "./latent-expected.ts";
import {
  type LatentInput as Asked,
  type LatentOptions as Chosen,
  LatentInput,
  LatentOptions,
  LatentValues,
  type LatentValues as Values,
} from "./latent-fields.ts";
import { freeCounts, rankOfDesign, untold } from "./latent-identified.ts";
import { latentLayout } from "./latent-layout.ts";
import { chanceNotes, dataNotes, designNotes, fitNotes, namesOf } from "./latent-notes.ts";
import { type Found, searchOf } from "./latent-search.ts";

/**
 * How good are the tests, and how common is the condition, where no test is beyond doubt?
 *
 * Everybody has the condition or has not, which nobody sees; the tests err independently given that, save for
 * pairs named or for a normal variable shared by all. The likeliest model is searched from many random places
 * (expectation and maximisation, then scoring and Newton steps). The classes are named so that the sum of all
 * sensitivities and specificities is above the number of tests.
 *
 * @param input   people by pattern of results, in one or more populations whose tests err alike; results may lack
 * @param options level, kind of interval (and replicates of the bootstrap), number of starts, seed
 * @returns `null` with a note `not_identifiable` (the design can't tell) or `not_identified_here` (the counts can't)
 * @throws InputError for a pattern of the wrong length or without results, or a pair that names no two tests
 * Behaves badly where tests err together and the model says they don't: the estimates are then too good, and the
 * fit may not show it
 * Source: hui1980; dempster1977 for the search; goodman1974 for the rank; qu1996 for the random effect; plackett1965 for pairs;
 * efron1993 for the bootstrap
 */
export function latentClassFit(input: Asked, options: Chosen): Finding<Values> {
  const data = latentData(input);
  const layout = latentLayout(data);
  const free = freeCounts(data);
  const rank = rankOfDesign(data, layout);
  const design = {
    freeCounts: free,
    unknowns: layout.size,
    degreesOfFreedom: Math.max(0, free - layout.size),
  };
  if (rank < layout.size) {
    return {
      values: {
        ...noEstimates(input, data),
        fit: { ...design, rank, logLikelihood: null, deviance: null, pearson: null, p: null },
        patterns: [],
        search: { starts: 0, reachedBest: 0, iterations: 0, converged: false },
      },
      notes: designNotes(input, free, layout.size, rank),
    };
  }
  const found = searchOf(data, layout, options.starts, options.seed);
  const patterns = expectedPatterns(found.best.theta, data, layout);
  const notes = fitNotes(input, found, patterns, free - layout.size, data);
  const unknown = untold(found.best.theta, data, layout);
  const told = unknown.length === 0 && !found.several;
  const estimates = told
    ? latentEstimates(input, options, found.best, data, layout, notes)
    : noEstimates(input, data);
  notes.push(
    ...(told
      ? chanceNotes(found.best.theta, data, layout)
      : dataNotes(unknown, found.several, namesOf(input, data, layout))),
  );
  return {
    values: {
      ...estimates,
      fit: { ...design, rank: layout.size - unknown.length, ...fitOf(found, patterns, free - layout.size) },
      patterns: patternsOf(input, patterns, told),
      search: searchedOf(options, found),
    },
    notes,
  };
}

function fitOf({ best }: Found, patterns: readonly ExpectedPattern[], freedom: number) {
  const { deviance, pearson } = distanceOf(patterns);
  return {
    logLikelihood: best.logLikelihood,
    deviance,
    pearson,
    p: freedom > 0 ? chiSquareCdf(deviance, freedom, "upper") : null,
  };
}

function patternsOf(input: Asked, patterns: readonly ExpectedPattern[], told: boolean): Values["patterns"] {
  return patterns.map(({ population, diseased, ...pattern }) => ({
    population: input.populations[population]?.label ?? "",
    ...pattern,
    diseased: told ? diseased : null,
  }));
}

function searchedOf({ starts }: Chosen, { reachedBest, best }: Found): Values["search"] {
  return { starts, reachedBest, iterations: best.iterations, converged: best.converged };
}

export const latentClass = defineMethod({
  id: "reference.latent_class",
  version: 1,
  title: "Latent class model by maximum likelihood",
  question: "How good are the tests, and how common is the condition, where no test is beyond doubt?",
  formula:
    "P(pattern) = prevalence × P(pattern | condition) + (1 - prevalence) × P(pattern | none); independent: P(pattern | class) = product of P(result | class); pair: P(both) = p q + covariance; random effect: P(reactive | z) = Phi((Phi^-1(p) + sqrt(rho) z) / sqrt(1 - rho)), rho up to 0.9, summed over a standard normal z. Likelihood product of P(pattern)^people; classes named so that sensitivities + specificities > tests; profile limits where 2 (log-likelihood lost) = chi-square quantile, 1 degree of freedom; bootstrap limits: percentiles of fits to people drawn from the fitted model; G² = 2 sum observed ln(observed / expected)",
  caution:
    "the condition is whatever the tests have in common, which need not be the disease. Tests that err together look better than they are, and a good fit does not show they don't. Populations must differ in prevalence, and tests must err alike in all of them. With few people limits are rough; two tests in one population say nothing",
  sources: ["hui1980", "dempster1977", "goodman1974", "qu1996", "plackett1965", "efron1993"],
  input: LatentInput,
  options: LatentOptions,
  values: LatentValues,
  run: latentClassFit,
  examples: latentExamples,
});
