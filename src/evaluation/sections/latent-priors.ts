import { type Note, note } from "../../core/note.ts";
import { elicitedBetaMethod } from "../../methods/reference/elicited-beta.ts";
import type { BetaPrior } from "../../methods/reference/prior-fields.ts";
import type { LatentClass as Planned, Prior } from "../../records/latent-class-fields.ts";
import type { Worktop } from "../worktop.ts";

/** The priors of a model as beta distributions; `null` where none are stated, or no beta says what is. */
export interface ModelPriors {
  /** In the order of the tests. */
  readonly tests: readonly { readonly sensitivity: BetaPrior; readonly specificity: BetaPrior }[] | null;
  readonly prevalence: BetaPrior | null;
  readonly notes: readonly Note[];
}

export function modelPriors(worktop: Worktop, { tests, priors }: Planned): ModelPriors {
  if (priors === undefined) return { tests: null, prevalence: null, notes: [] };
  const notes: Note[] = [];
  const shapes = (prior: Prior, path: string): BetaPrior | null => {
    const found = shapesOf(worktop, prior);
    if (found === null) {
      const message = `no beta distribution says what the study file says of ${path}: state its alpha and beta`;
      notes.push(note("no_such_prior", `priors.${path}`, message));
    }
    return found;
  };
  const ofTests = tests.flatMap(({ id }) => {
    const stated = priors[id];
    if (stated === undefined) return [];
    const sensitivity = shapes(stated.sensitivity, `${id}.sensitivity`);
    const specificity = shapes(stated.specificity, `${id}.specificity`);
    return sensitivity === null || specificity === null ? [] : [{ sensitivity, specificity }];
  });
  const prevalence = shapes(priors.prevalence, "prevalence");
  const complete = ofTests.length === tests.length && prevalence !== null;
  return complete ? { tests: ofTests, prevalence, notes } : { tests: null, prevalence: null, notes };
}

function shapesOf(worktop: Worktop, prior: Prior): BetaPrior | null {
  if (prior.alpha !== undefined && prior.beta !== undefined) return { alpha: prior.alpha, beta: prior.beta };
  const kind = (["mean", "median", "mode"] as const).find((name) => prior[name] !== undefined);
  const value = kind === undefined ? undefined : prior[kind];
  const { percentile: at, chance } = prior;
  if (kind === undefined || value === undefined || at === undefined || chance === undefined) return null;
  const { values } = worktop.compute(elicitedBetaMethod, {
    middle: { kind, value },
    percentile: { at, chance },
  });
  const { alpha, beta } = values;
  return alpha === null || beta === null ? null : { alpha, beta };
}
