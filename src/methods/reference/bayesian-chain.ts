import { randomStream, taskNumber } from "../../core/random.ts";
import { type Dice, diceOf } from "../../numeric/dice.ts";
import { drawLeap, type Leap, leapDensity, leapOver } from "./bayesian-leap.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import { type ChainState, emptyState, evaluate, setShare, youdenOf } from "./bayesian-state.ts";
import { emptyCounts, gibbsSweep, type Reach } from "./gibbs-sweep.ts";
import { classesExchanged, youdenSum } from "./latent-layout.ts";

/** What a chain kept: every unknown's logit, in the order of the layout, draw by draw. */
export interface Chain {
  readonly logits: readonly Float64Array[];
  /** Leaps taken and tried among the draws kept. */
  readonly taken: number;
  readonly tried: number;
}

export interface ChainLength {
  readonly draws: number;
  readonly warmup: number;
}

/** Every so many draws the names of the classes are tried the other way round. */
const EXCHANGE = 10;
/** How leaps hang on where the chain stands: to the other side of the centre, so that neighbouring draws cancel. */
const ACROSS = -0.5;
/** And those between, which stay near: a chain in a corner that leaps seldom reach gets out by them. */
const NEAR = 0.9;
/** Leaps after every sweep of the warm-up. */
const LEAPS = 3;
/** With leaps taken less often than this, none are tried any more. */
const HOPELESS = 0.05;

/**
 * Draws from the posterior, one chain: the same whatever other chains there are, and in whatever thread or order
 * they run, for its stream hangs on seed and chain number alone. It begins at a place drawn from the prior.
 *
 * The first 40 % of the warm-up are plain Gibbs sweeps. A bent t distribution is laid over their second half, and
 * three proposals from it (leaps) follow every sweep for the next 30 %; a second one is laid over those for the
 * last 30 %, and the last of all over these. From there on nothing is adapted. Every kept draw is a leap, taken or
 * not by Metropolis and Hastings' rule, which leaves the posterior as it is; sweeps come between, and so do small
 * steps of the same kind (see `scheduleOf`). Where fewer than one leap in 20 is taken there are none, and every draw
 * is a sweep. Every 10th draw, where the prior tells the classes apart, their names are exchanged with the odds
 * that the prior gives, so that a second peak with the names the other way round has its due weight. Where it does
 * not, they are named by the sum of accuracies, sweeps being begun with either naming by the toss of a coin.
 *
 * Measured on the counts of Hui and Walter with flat priors, 4 x 25,000 draws: plain Gibbs sweeps give some 30,000
 * effective draws of the worst unknown in more than twice the time, leaps 128,000; with two tests in one population
 * (Joseph, Gyorkos and Coupal) 3,000 and some 25,000, with a dependent pair 240 and 4,000.
 */
export function chainOf(model: BayesianModel, seed: number, chain: number, length: ChainLength): Chain {
  const task = (taskNumber("latent class chains") + chain) >>> 0;
  const walk = walkOf(model, diceOf(randomStream(seed, task)));
  const { leap, acceptance } = warmUp(walk, length.warmup);
  const { every, near } = scheduleOf(leap === null ? 0 : acceptance);
  const logits = Array.from({ length: model.layout.size }, () => new Float64Array(length.draws));
  let taken = 0;
  let known = Number.NaN;
  for (let draw = 0; draw < length.draws; draw += 1) {
    if (draw % every === 0) {
      walk.sweep();
      known = Number.NaN;
    }
    if (draw % EXCHANGE === 0 && walk.exchange()) known = Number.NaN;
    if (leap !== null) {
      if (Number.isNaN(known)) known = walk.density(leap);
      const density = walk.leap(leap, known, draw % near === 1 ? NEAR : ACROSS);
      if (density !== null) {
        known = density;
        taken += 1;
      }
    }
    const here = walk.here().logits;
    for (let place = 0; place < here.length; place += 1) {
      (logits[place] as Float64Array)[draw] = here[place] as number;
    }
  }
  return { logits, taken, tried: leap === null ? 0 : length.draws };
}

/** How often sweeps (every so many draws) and small steps (one in so many) come between the leaps. */
function scheduleOf(acceptance: number): { every: number; near: number } {
  if (acceptance > 0.75) return { every: 8, near: Number.POSITIVE_INFINITY };
  if (acceptance > 0.5) return { every: 8, near: 4 };
  return { every: acceptance > 0.25 ? 3 : 1, near: 2 };
}

function warmUp(walk: Walk, warmup: number): { leap: Leap | null; acceptance: number } {
  const first = Math.floor(0.4 * warmup);
  const second = Math.floor(0.7 * warmup);
  let rows: Float64Array[] = [];
  const laidOver = (from: number) => leapOver(walk.oneNaming(rows.slice(from)));
  const sweeps = (from: number, to: number, leap: Leap | null) => {
    let taken = 0;
    for (let draw = from; draw < to; draw += 1) {
      walk.sweep();
      if (draw % EXCHANGE === 0) walk.exchange();
      rows.push(walk.here().logits.slice());
      for (let leaps = 0; leaps < LEAPS && leap !== null; leaps += 1) {
        if (walk.leap(leap, walk.density(leap), ACROSS) !== null) taken += 1;
        rows.push(walk.here().logits.slice());
      }
    }
    return taken / (LEAPS * (to - from));
  };
  sweeps(0, first, null);
  const begun = laidOver(Math.floor(first / 2));
  rows = [];
  sweeps(first, second, begun);
  const better = laidOver(0);
  const acceptance = sweeps(second, warmup, better);
  walk.settle();
  return { leap: acceptance < HOPELESS ? null : laidOver(0), acceptance };
}

interface Walk {
  /** Places under whichever names of the classes most of them have. */
  readonly oneNaming: (rows: readonly Float64Array[]) => Float64Array[];
  readonly here: () => ChainState;
  readonly sweep: () => void;
  /** Exchanges the names of the classes, with the odds of the prior; whether it was done. */
  readonly exchange: () => boolean;
  readonly density: (leap: Leap) => number;
  /** The log density of the new place where the leap was taken, else `null`. */
  readonly leap: (leap: Leap, density: number, along: number) => number | null;
  /** Ends the adapting of the sweep's steps. */
  readonly settle: () => void;
}

function walkOf(model: BayesianModel, dice: Dice): Walk {
  let here = startOf(model, dice);
  let there = emptyState(model);
  let steps = new Float64Array(model.layout.size);
  let stepsThere = new Float64Array(model.layout.size);
  const counts = emptyCounts(model);
  let reach: Reach = { widths: new Float64Array(model.layout.size).fill(0.5), rounds: 0, adapting: true };
  const move = () => {
    [here, there] = [there, here];
  };
  return {
    oneNaming: (rows) => {
      const sums = rows.map((row) => youdenSum(row, model.data, model.layout));
      const most = 2 * sums.filter((sum) => sum < 0).length > rows.length ? -1 : 1;
      return rows.map((row, k) =>
        most * (sums[k] as number) < 0 ? classesExchanged(row, model.data, model.layout) : row,
      );
    },
    here: () => here,
    sweep: () => {
      if (model.symmetric && dice.uniform() < 0.5) exchanged(model, here);
      gibbsSweep(model, here, dice, reach, counts);
      if (model.symmetric && youdenOf(model, here) < 0) exchanged(model, here);
      evaluate(model, here);
    },
    exchange: () => {
      if (model.symmetric) return false;
      there.logits.set(classesExchanged(here.logits, model.data, model.layout));
      const gain = priorOf(model, there) - priorOf(model, here);
      if (!(Math.log(dice.uniform()) < gain)) return false;
      evaluate(model, there);
      move();
      return true;
    },
    density: (leap) => leapDensity(leap, here.logits, steps),
    leap: (leap, density, along) => {
      const densityThere = drawLeap(leap, dice, steps, stepsThere, there.logits, along);
      evaluate(model, there);
      const gain = there.logPosterior - here.logPosterior + density - densityThere;
      if (!(Math.log(dice.uniform()) < gain)) return null;
      [steps, stepsThere] = [stepsThere, steps];
      move();
      return densityThere;
    },
    settle: () => {
      reach = { ...reach, adapting: false };
    },
  };
}

function priorOf(model: BayesianModel, state: ChainState): number {
  let sum = 0;
  for (let place = 0; place < state.logits.length; place += 1) sum += setShare(model, state, place);
  return sum;
}

/** A place drawn from the prior; where the prior does not tell the classes apart, under their right names. */
function startOf(model: BayesianModel, dice: Dice): ChainState {
  const state = emptyState(model);
  const { alpha, beta } = model;
  for (let place = 0; place < alpha.length; place += 1) {
    const logit = dice.betaLogit(alpha[place] as number, beta[place] as number);
    state.logits[place] = Math.min(30, Math.max(-30, logit));
  }
  evaluate(model, state);
  if (model.symmetric && youdenOf(model, state) < 0) exchanged(model, state);
  return state;
}

/** The names of the classes exchanged. */
function exchanged(model: BayesianModel, state: ChainState): void {
  state.logits.set(classesExchanged(state.logits, model.data, model.layout));
  evaluate(model, state);
}
