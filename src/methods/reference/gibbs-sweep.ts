import type { Dice } from "../../numeric/dice.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import { type ChainState, fillChances, setShare } from "./bayesian-state.ts";

/** How far the Metropolis steps reach, by unknown; settled in the warm-up, kept thereafter. */
export interface Reach {
  readonly widths: Float64Array;
  /** Raised in the warm-up only: rounds of adaptation done. */
  rounds: number;
  readonly adapting: boolean;
}

/** People with the condition by cell (drawn), summed as the steps need them. */
interface LatentCounts {
  /** People by pattern, with the condition and without. */
  readonly byPattern: readonly [Float64Array, Float64Array];
  readonly diseased: Float64Array;
}

/** Share of proposals of one unknown that is aimed at. */
const AIM = 0.44;

/**
 * One sweep of conditional draws, which leaves the posterior as it is: the people with the condition among those
 * of every pattern (binomial), prevalences and accuracies of tests that stand alone (beta), and, of pairs and of
 * the random effect, every unknown by a Metropolis step on its logit. The state's log posterior is left stale.
 *
 * Source: joseph1995; dendukuri2001 for pairs
 */
export function gibbsSweep(
  model: BayesianModel,
  state: ChainState,
  dice: Dice,
  reach: Reach,
  counts: LatentCounts,
): void {
  drawCounts(model, state, dice, counts);
  drawShares(model, state, dice, counts);
  for (const condition of [0, 1] as const) {
    if (model.coupled[condition].length > 0) stepsOf(model, state, condition, dice, reach, counts);
  }
  if (reach.adapting) reach.rounds += 1;
}

export function emptyCounts({ patterns, data }: BayesianModel): LatentCounts {
  return {
    byPattern: [new Float64Array(patterns.length), new Float64Array(patterns.length)],
    diseased: new Float64Array(data.populations),
  };
}

function drawCounts({ cells, data }: BayesianModel, state: ChainState, dice: Dice, counts: LatentCounts) {
  const [present, absent] = counts.byPattern;
  present.fill(0);
  absent.fill(0);
  counts.diseased.fill(0, 0, data.populations);
  for (let cell = 0; cell < cells.people.length; cell += 1) {
    const population = cells.population[cell] as number;
    const x = cells.pattern[cell] as number;
    const people = cells.people[cell] as number;
    const prevalence = state.shares[population] as number;
    const diseased = prevalence * (state.chances[0][x] as number);
    const both = diseased + (1 - prevalence) * (state.chances[1][x] as number);
    const drawn = dice.binomial(people, both > 0 ? diseased / both : 0.5);
    present[x] = (present[x] as number) + drawn;
    absent[x] = (absent[x] as number) + people - drawn;
    counts.diseased[population] = (counts.diseased[population] as number) + drawn;
  }
}

function drawShares(model: BayesianModel, state: ChainState, dice: Dice, counts: LatentCounts): void {
  const { alpha, beta, layout, patterns, peopleOf } = model;
  const draw = (place: number, inFavour: number, against: number) => {
    state.logits[place] = dice.betaLogit(
      (alpha[place] as number) + inFavour,
      (beta[place] as number) + against,
    );
    setShare(model, state, place);
  };
  for (let population = 0; population < peopleOf.length; population += 1) {
    const diseased = counts.diseased[population] as number;
    draw(layout.prevalence(population), diseased, (peopleOf[population] as number) - diseased);
  }
  for (const test of model.alone) {
    for (const condition of [0, 1] as const) {
      const people = counts.byPattern[condition];
      let reactive = 0;
      let nonreactive = 0;
      for (let x = 0; x < people.length; x += 1) {
        const { done, results } = patterns[x] as (typeof patterns)[0];
        if (((results >> test) & 1) === 1) reactive += people[x] as number;
        else if (((done >> test) & 1) === 1) nonreactive += people[x] as number;
      }
      draw(layout.reactive(condition, test), reactive, nonreactive);
    }
  }
}

/** A Metropolis step for every unknown of a class that is drawn from no beta distribution, one after another. */
function stepsOf(
  model: BayesianModel,
  state: ChainState,
  condition: 0 | 1,
  dice: Dice,
  reach: Reach,
  counts: LatentCounts,
): void {
  const people = counts.byPattern[condition];
  const kept = state.chances[condition];
  let likelihood = likelihoodOf(model, state, condition, people);
  const before = kept.slice();
  for (const place of model.coupled[condition]) {
    const here = state.logits[place] as number;
    const prior = setShare(model, state, place);
    const share = state.shares[place] as number;
    const width = reach.widths[place] as number;
    state.logits[place] = here + width * dice.normal();
    const priorThere = setShare(model, state, place);
    const likelihoodThere = likelihoodOf(model, state, condition, people);
    const gain = priorThere + likelihoodThere - prior - likelihood;
    const taken = Math.log(dice.uniform()) < gain;
    if (taken) {
      likelihood = likelihoodThere;
      before.set(kept);
    } else {
      state.logits[place] = here;
      state.shares[place] = share;
      kept.set(before);
    }
    if (reach.adapting) {
      const step = Math.min(0.5, 2 / Math.sqrt(1 + reach.rounds));
      reach.widths[place] = Math.min(20, width * Math.exp(step * ((taken ? 1 : 0) - AIM)));
    }
  }
}

/** Log-likelihood of a class's patterns, given who belongs to it. */
function likelihoodOf(
  model: BayesianModel,
  state: ChainState,
  condition: 0 | 1,
  people: Float64Array,
): number {
  fillChances(model, state, condition);
  const chances = state.chances[condition];
  let sum = 0;
  for (let x = 0; x < people.length; x += 1) {
    const seen = people[x] as number;
    if (seen > 0) sum += seen * Math.log(chances[x] as number);
  }
  return sum;
}
