import type { Note } from "../../core/note.ts";
import { referenceBayesian } from "../../methods/reference/bayesian.ts";
import type { BayesianValues, Posterior } from "../../methods/reference/bayesian-fields.ts";
import type { LatentInput } from "../../methods/reference/latent-fields.ts";
import { priorSensitivityMethod } from "../../methods/reference/prior-sensitivity.ts";
import type { SensitivityValues } from "../../methods/reference/prior-sensitivity-fields.ts";
import type { LatentClass } from "../document.ts";
import { notesAtPlace } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import type { ModelPriors } from "./latent-priors.ts";

const CHAINS = 4;
/** Draws kept of each chain; the longer run where the shorter one leaves an unknown with too few effective draws. */
const DRAWS = 2000;
const LONG = 5000;
const FEWEST_EFFECTIVE = 2000;
/** Under other priors, for each set of them: shifts of a twentieth of a standard deviation show. */
const OTHER = { draws: 800, warmup: 300 };
/** Draws of each chain that the document carries for the eye. */
const SHOWN = 100;

export interface Believed {
  readonly bayesian: LatentClass["bayesian"];
  readonly priorSensitivity: LatentClass["priorSensitivity"];
  readonly notes: readonly Note[];
}

/** The model with the priors of the study file, and with others; nothing where it states none. */
export function bayesianModelOf(
  worktop: Worktop,
  input: LatentInput,
  { tests, prevalence }: ModelPriors,
  seed: number,
): Believed {
  if (tests === null || prevalence === null) return NOTHING;
  const priors = { tests: [...tests], populations: input.populations.map(() => prevalence) };
  const { level } = worktop.interval;
  const asked = { ...input, priors };
  const run = (draws: number) =>
    worktop.compute(referenceBayesian, asked, { level, chains: CHAINS, draws, seed });
  const first = run(DRAWS);
  const enough = (first.values.search.fewestEffective ?? 0) >= FEWEST_EFFECTIVE;
  const { values, notes } = enough ? first : run(LONG);
  const others = worktop.compute(priorSensitivityMethod, asked, { level, chains: CHAINS, ...OTHER, seed });
  return {
    bayesian: thinned(values),
    priorSensitivity: { alternatives: others.values.alternatives.map(alternative) },
    notes: [...notesAtPlace(notes, "bayesian"), ...notesAtPlace(others.notes.map(here), "priorSensitivity")],
  };
}

/** The document carries shares, and no list of the largest shifts. */
function here({ code, path, message }: Note): Note {
  return {
    code,
    path: path.replace(/^largest\b.*/, "alternatives").replace(".parameters.", ".shares."),
    message,
  };
}

const NOTHING: Believed = { bayesian: null, priorSensitivity: null, notes: [] };

type Alternative = SensitivityValues["alternatives"][number];

/** Where one prior alone was made flat, the name says which. */
function alternative({ name, changed, parameters }: Alternative) {
  const shares = parameters.map(({ parameter, median, lower, upper, shift }) => ({
    parameter,
    median,
    lower,
    upper,
    shift,
  }));
  const shifts = shares.flatMap(({ shift }) => shift ?? []);
  const [largestShift = null] = shifts.toSorted((one, other) => Math.abs(other) - Math.abs(one));
  return { name: name === "flat_alone" ? `${name}.${changed.join("+")}` : name, largestShift, shares };
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
