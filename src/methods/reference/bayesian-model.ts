import type { BayesianInput } from "./bayesian-fields.ts";
import { type LatentData, latentData } from "./latent-data.ts";
import { type LatentLayout, latentLayout } from "./latent-layout.ts";
import { type BetaPrior, FLAT, requirePriors } from "./prior-fields.ts";

/**
 * A latent class model with priors, every unknown being a share that has a beta prior: prevalences, P(reactive)
 * in either class, and for dependence the place of a pair's covariance between its least and its most, or the
 * latent correlation over 0.9 (both flat). Shares stand in the order of the layout, as logits.
 */
export interface BayesianModel {
  readonly data: LatentData;
  readonly layout: LatentLayout;
  /** Shapes of every unknown's prior. */
  readonly alpha: Float64Array;
  readonly beta: Float64Array;
  /** Tests in the order in which tables of results are built: those of pairs first, side by side. */
  readonly order: readonly number[];
  /** Where P(reactive) of each test stands, by class, the tests in that order. */
  readonly reactive: readonly [Int32Array, Int32Array];
  /** Every pattern that somebody showed, whatever the population. */
  readonly patterns: readonly SeenPattern[];
  /** Places, within a table of complete results, that agree with each pattern, one pattern after another. */
  readonly places: Int32Array;
  /** Where the places of each pattern begin, and at last where all end. */
  readonly starts: Int32Array;
  /** Everybody, by population and pattern. */
  readonly cells: {
    readonly population: Int32Array;
    readonly pattern: Int32Array;
    readonly people: Float64Array;
  };
  readonly peopleOf: Float64Array;
  /** Unknowns whose conditional distribution is no beta distribution, by class; empty where tests err independently. */
  readonly coupled: readonly [readonly number[], readonly number[]];
  /** Tests that stand alone, whose accuracies are drawn from beta distributions. */
  readonly alone: readonly number[];
  /** Whether the prior is the same with the names of the two classes exchanged: nothing then tells them apart. */
  readonly symmetric: boolean;
}

export interface SeenPattern {
  readonly done: number;
  readonly results: number;
}

/** @throws InputError where patterns, pairs or priors do not fit the tests and populations */
export function bayesianModel(input: BayesianInput): BayesianModel {
  const data = latentData(input);
  requirePriors(input.priors, data.tests, data.populations);
  const layout = latentLayout(data);
  const priors = priorsByPlace(input, layout);
  const paired = data.pairs.flat();
  const single = Array.from({ length: data.tests }, (_, test) => test).filter(
    (test) => !paired.includes(test),
  );
  const order = [...paired, ...single];
  const coupledOf = (condition: number) => [
    ...(data.randomEffect ? order : paired).map((test) => layout.reactive(condition, test)),
    ...Array.from({ length: layout.dependences }, (_, place) => layout.dependence(condition, place)),
  ];
  return {
    data,
    layout,
    alpha: Float64Array.from(priors, ({ alpha }) => alpha),
    beta: Float64Array.from(priors, ({ beta }) => beta),
    order,
    reactive: [
      Int32Array.from(order, (test) => layout.reactive(0, test)),
      Int32Array.from(order, (test) => layout.reactive(1, test)),
    ],
    ...cellsOf(data, order),
    peopleOf: Float64Array.from({ length: data.populations }, (_, population) =>
      data.groups.reduce((sum, group) => sum + (group.population === population ? group.people : 0), 0),
    ),
    coupled: [coupledOf(0), coupledOf(1)],
    alone: data.randomEffect ? [] : single,
    symmetric: isSymmetric(priors, data, layout),
  };
}

/** The same model with one unknown's prior made flat. */
export function withFlatPrior(model: BayesianModel, place: number): BayesianModel {
  const alpha = model.alpha.slice();
  const beta = model.beta.slice();
  alpha[place] = FLAT.alpha;
  beta[place] = FLAT.beta;
  const priors = [...alpha].map((shape, at) => ({ alpha: shape, beta: beta[at] as number }));
  return { ...model, alpha, beta, symmetric: isSymmetric(priors, model.data, model.layout) };
}

function priorsByPlace({ priors }: BayesianInput, layout: LatentLayout): BetaPrior[] {
  const all = new Array<BetaPrior>(layout.size).fill(FLAT);
  priors.populations.forEach((prior, population) => {
    all[layout.prevalence(population)] = prior;
  });
  priors.tests.forEach(({ sensitivity, specificity }, test) => {
    all[layout.reactive(0, test)] = sensitivity;
    all[layout.reactive(1, test)] = { alpha: specificity.beta, beta: specificity.alpha };
  });
  return all;
}

function isSymmetric(priors: readonly BetaPrior[], data: LatentData, layout: LatentLayout): boolean {
  const at = (place: number) => priors[place] as BetaPrior;
  for (let population = 0; population < data.populations; population += 1) {
    const { alpha, beta } = at(layout.prevalence(population));
    if (alpha !== beta) return false;
  }
  for (let test = 0; test < data.tests; test += 1) {
    const present = at(layout.reactive(0, test));
    const absent = at(layout.reactive(1, test));
    if (present.alpha !== absent.alpha || present.beta !== absent.beta) return false;
  }
  return true;
}

type Cells = Pick<BayesianModel, "patterns" | "places" | "starts" | "cells">;

function cellsOf(data: LatentData, order: readonly number[]): Cells {
  const patterns: SeenPattern[] = [];
  const places: number[] = [];
  const starts = [0];
  const known = new Map<number, number>();
  const rows: { population: number; pattern: number; people: number }[] = [];
  for (const { population, done, cells } of data.groups) {
    for (const { results, people, complete } of cells) {
      if (people === 0) continue;
      const key = done * 2 ** data.tests + results;
      if (!known.has(key)) {
        known.set(key, patterns.length);
        patterns.push({ done, results });
        for (const x of complete) places.push(reordered(x, order));
        starts.push(places.length);
      }
      rows.push({ population, pattern: known.get(key) as number, people });
    }
  }
  return {
    patterns,
    places: Int32Array.from(places),
    starts: Int32Array.from(starts),
    cells: {
      population: Int32Array.from(rows, ({ population }) => population),
      pattern: Int32Array.from(rows, ({ pattern }) => pattern),
      people: Float64Array.from(rows, ({ people }) => people),
    },
  };
}

/** A pattern's bits brought into the order in which tables are built. */
export function reordered(pattern: number, order: readonly number[]): number {
  return order.reduce((sum, test, bit) => sum + (((pattern >> test) & 1) << bit), 0);
}
