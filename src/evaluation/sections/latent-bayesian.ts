import type { Note } from "../../core/note.ts";
import { referenceBayesian } from "../../methods/reference/bayesian.ts";
import type { BayesianValues, Posterior } from "../../methods/reference/bayesian-fields.ts";
import type { LatentInput } from "../../methods/reference/latent-fields.ts";
import type { LatentClass } from "../document.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import type { ModelPriors } from "./latent-priors.ts";

/** Chains, and draws kept of each. */
const CHAINS = 4;
const DRAWS = 5000;
/** Draws of each chain that the document carries for the eye. */
const SHOWN = 100;

export interface Believed {
  readonly bayesian: LatentClass["bayesian"];
  readonly notes: readonly Note[];
}

/** The model with the priors of the study file; nothing where it states none. */
export function bayesianModelOf(
  worktop: Worktop,
  input: LatentInput,
  { tests, prevalence }: ModelPriors,
  seed: number,
): Believed {
  if (tests === null || prevalence === null) return { bayesian: null, notes: [] };
  const priors = { tests: [...tests], populations: input.populations.map(() => prevalence) };
  const { values, notes } = worktop.compute(
    referenceBayesian,
    { ...input, priors },
    { level: worktop.interval.level, chains: CHAINS, draws: DRAWS, seed },
  );
  return { bayesian: thinned(values), notes: notesAtPlace(notes, "bayesian") };
}

/** Every second of the draws that the method shows: enough for the eye, and half the bytes. */
function thinned(values: BayesianValues): BayesianValues {
  return {
    ...values,
    tests: values.tests.map(({ name, sensitivity, specificity }) => ({
      name,
      sensitivity: fewer(sensitivity),
      specificity: fewer(specificity),
    })),
    populations: values.populations.map((population) => ({
      ...population,
      prevalence: fewer(population.prevalence),
    })),
    couplings: values.couplings.map(({ between, diseased, nondiseased }) => ({
      between,
      diseased: fewer(diseased),
      nondiseased: fewer(nondiseased),
    })),
  };
}

function fewer(posterior: Posterior): Posterior {
  const trace = posterior.trace.map((chain) => {
    const every = Math.max(1, Math.ceil(chain.length / SHOWN));
    return chain.filter((_, draw) => draw % every === 0);
  });
  return { ...posterior, trace };
}
