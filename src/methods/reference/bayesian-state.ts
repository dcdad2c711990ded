import type { BayesianModel } from "./bayesian-model.ts";
import { fillTable } from "./bayesian-tables.ts";

/** Where a chain stands, with what is worked out from it. */
export interface ChainState {
  /** Every unknown's logit, in the order of the layout. */
  readonly logits: Float64Array;
  readonly shares: Float64Array;
  /** P(pattern | class) of every pattern seen. */
  readonly chances: readonly [Float64Array, Float64Array];
  readonly table: Float64Array;
  readonly node: Float64Array;
  /** Log of prior (per logit) times likelihood; minus infinity where it can't be. */
  logPosterior: number;
}

export function emptyState({ data, layout, patterns }: BayesianModel): ChainState {
  return {
    logits: new Float64Array(layout.size),
    shares: new Float64Array(layout.size),
    chances: [new Float64Array(patterns.length), new Float64Array(patterns.length)],
    table: new Float64Array(2 ** data.tests),
    node: new Float64Array(2 ** data.tests),
    logPosterior: Number.NEGATIVE_INFINITY,
  };
}

/** Works out everything from the logits. */
export function evaluate(model: BayesianModel, state: ChainState): void {
  let sum = 0;
  for (let place = 0; place < state.logits.length; place += 1) sum += setShare(model, state, place);
  fillChances(model, state, 0);
  fillChances(model, state, 1);
  const { population, pattern, people } = model.cells;
  const diseased = state.chances[0];
  const nondiseased = state.chances[1];
  for (let cell = 0; cell < people.length; cell += 1) {
    const present = state.shares[population[cell] as number] as number;
    const x = pattern[cell] as number;
    const probability = present * (diseased[x] as number) + (1 - present) * (nondiseased[x] as number);
    sum += (people[cell] as number) * Math.log(probability);
  }
  if (model.symmetric && youdenOf(model, state) < 0) sum = Number.NEGATIVE_INFINITY;
  state.logPosterior = Number.isNaN(sum) ? Number.NEGATIVE_INFINITY : sum;
}

/** The share of a logit, and the log of its prior (per logit, without the constant). */
export function setShare({ alpha, beta }: BayesianModel, state: ChainState, place: number): number {
  const logit = state.logits[place] as number;
  const a = alpha[place] as number;
  const b = beta[place] as number;
  if (logit > 0) {
    const small = Math.exp(-logit);
    state.shares[place] = 1 / (1 + small);
    return -(a + b) * Math.log(1 + small) - b * logit;
  }
  const small = Math.exp(logit);
  state.shares[place] = small / (1 + small);
  return -(a + b) * Math.log(1 + small) + a * logit;
}

/** P(pattern | class) of every pattern seen, in one class. */
export function fillChances(model: BayesianModel, state: ChainState, condition: 0 | 1): void {
  fillTable(model, state.shares, condition, state.table, state.node);
  const chances = state.chances[condition];
  const { table } = state;
  const { places, starts } = model;
  for (let x = 0; x < chances.length; x += 1) {
    let sum = 0;
    for (let k = starts[x] as number; k < (starts[x + 1] as number); k += 1) {
      sum += table[places[k] as number] as number;
    }
    chances[x] = sum;
  }
}

/** Sum over the tests of sensitivity + specificity - 1. */
export function youdenOf({ reactive }: BayesianModel, { shares }: ChainState): number {
  const present = reactive[0];
  const absent = reactive[1];
  let sum = 0;
  for (let test = 0; test < present.length; test += 1) {
    sum += (shares[present[test] as number] as number) - (shares[absent[test] as number] as number);
  }
  return sum;
}
