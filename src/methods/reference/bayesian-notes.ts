import { type Note, note } from "../../core/note.ts";
import type { Chain } from "./bayesian-chain.ts";
import type { BayesianInput, BayesianOptions, BayesianValues, Posterior } from "./bayesian-fields.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import { fromLogit } from "./latent-layout.ts";

/** Chains that agree have no R-hat above this. */
const MOST_R_HAT = 1.01;
/** Effective draws wanted of each chain. */
const FEWEST_PER_CHAIN = 100;
/** With fewer draws in all, limits and p-values are rough even where all are independent. */
const FEW_DRAWS = 2000;
/** Below this a p speaks of conflict, or of a poor fit. */
const DOUBTFUL = 0.05;

/** Whether the chains agree, and on which unknown they don't. */
export function chainNotes(
  posteriors: readonly { path: string; posterior: Posterior }[],
  { chains, draws }: BayesianOptions,
): Note[] {
  const notes = posteriors.flatMap(({ path, posterior: { rHat, bulkEffective, tailEffective } }) => {
    if (rHat === null || bulkEffective === null || tailEffective === null) {
      const message = "the draws of this unknown do not vary: nothing can be said of how chains agree";
      return [note("no_variation", path, message)];
    }
    const effective = Math.min(bulkEffective, tailEffective);
    if (rHat <= MOST_R_HAT && effective >= FEWEST_PER_CHAIN * chains) return [];
    const message = `the chains do not agree well enough on this unknown: R-hat ${rHat.toFixed(3)} (wanted: at most ${MOST_R_HAT}), ${Math.floor(effective)} effective draws (wanted: ${FEWEST_PER_CHAIN * chains} or more). Ask for more draws and a longer warm-up; if that does not help, the data and priors hold too little: state a narrower prior, or a simpler dependence`;
    return [note("not_converged", path, message)];
  });
  if (chains * draws < FEW_DRAWS) {
    const message = `fewer than ${FEW_DRAWS} draws in all: limits are rough`;
    notes.push(note("few_draws", "search.draws", message));
  }
  return notes;
}

/** What the priors do, and what they can't. */
export function priorNotes(
  { conflict, identified }: Pick<BayesianValues, "conflict" | "identified">,
  model: BayesianModel,
): Note[] {
  const notes = conflict.flatMap(({ parameter, p }) => {
    if (p === null || p >= DOUBTFUL) return [];
    const message =
      "what was believed of this share beforehand and what the data say do not go together: see where the prior comes from, or whether the model fits";
    return [note("prior_conflict", parameter, message)];
  });
  if (!identified.byDataAlone) {
    const message = `the counts alone can't tell the unknowns apart (${identified.rank} of ${identified.unknowns}): the answer rests on the priors, and more people would not change that`;
    notes.push(note("rests_on_priors", "identified", message));
  }
  if (model.symmetric) {
    const message =
      "the priors do not say which class has the condition: it is called so where the sensitivities and specificities add up to more than the number of tests";
    notes.push(note("classes_named", "tests", message));
  }
  return notes;
}

export function fitNotes(
  input: BayesianInput,
  model: BayesianModel,
  { check, search }: Pick<BayesianValues, "check" | "search">,
): Note[] {
  const notes: Note[] = [];
  const { p } = check.overall;
  if (p === null) {
    notes.push(note("no_people", "check.overall.p", "nobody was seen: the answer is the prior"));
  } else if (p < DOUBTFUL) {
    const message =
      "studies drawn from this model look unlike the people seen: tests may err together, or differently in each population";
    notes.push(note("poor_fit", "check.overall.p", message));
  }
  if (search.acceptance === null) {
    const message = "no proposal fitted the posterior well enough: plain Gibbs sweeps, which move slowly";
    notes.push(note("no_leaps", "search.acceptance", message));
  }
  if (model.data.groups.length > input.populations.length) {
    const message =
      "people with different tests done are held to be alike: that a test was not done must not hang on the condition";
    notes.push(note("missing_tests", "check", message));
  }
  if (input.dependence.kind === "independent") {
    const message =
      "tests are taken to err independently given the condition; where they err together, they look better than they are";
    notes.push(note("independence", "tests", message));
  }
  return notes;
}

/** Neither naming of the classes is left out where both have more than this share of the draws. */
const RARE = 0.005;

/** Where the posterior has two peaks, with the names of the classes exchanged. */
export function namingNotes(model: BayesianModel, chains: readonly Chain[]): Note[] {
  const { data, layout } = model;
  let draws = 0;
  let turned = 0;
  for (const { logits } of chains) {
    const length = logits[0]?.length ?? 0;
    const step = Math.ceil(length / 1000);
    for (let draw = 0; draw < length; draw += step) {
      let sum = 0;
      for (let test = 0; test < data.tests; test += 1) {
        sum += fromLogit(logits[layout.reactive(0, test)]?.[draw] as number);
        sum -= fromLogit(logits[layout.reactive(1, test)]?.[draw] as number);
      }
      draws += 1;
      if (sum < 0) turned += 1;
    }
  }
  const share = turned / draws;
  if (share < RARE) return [];
  const message =
    share > 1 - RARE
      ? "by these priors and data the tests are worse than chance: see whether the priors stand the right way round"
      : `in ${(100 * share).toFixed(0)} % of the draws the classes bear the other names (the tests are worse than chance): the priors hardly tell the classes apart, and means lie between two answers. State a narrower prior for a test`;
  return [note("two_namings", "tests", message)];
}
