import { randomStream, taskNumber } from "../../core/random.ts";
import { type Dice, diceOf } from "../../numeric/dice.ts";
import { drawLeap, type Leap, leapDensity, leapOver } from "./bayesian-leap.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import { type ChainState, emptyState, evaluate, setShare, youdenOf } from "./bayesian-state.ts";
import { emptyCounts, gibbsSweep, type Reach } from "./gibbs-sweep.ts";
import { classesExchanged } from "./latent-layout.ts";

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
/** Leaps after every sweep of the warm-up. */
const LEAPS = 3;
/** With leaps taken less often than this, none are tried any more. */
const HOPELESS = 0.05;

/**
 * Draws from the posterior, one chain: the same whatever other chains there are, and in whatever thread or order
 * they run, for its stream hangs on seed and chain number alone. It begins at a place drawn from the prior.
 *
 * The first 40 % of the warm-up are plain Gibbs sweeps. A t distribution is laid over their second half, and
 * proposals from it (leaps) follow every sweep for the next 30 %; a second one is laid over those for the
 * last 30 %, and the last of all over both. From there on nothing is adapted. Every kept draw is a leap, taken or
 * not by Metropolis and Hastings' rule, which leaves the posterior as it is; a sweep comes before every 8th (leaps
 * taken more than half the time), every 3rd (a quarter), every one (fewer). Where fewer than one leap in 20 is
 * taken there are none. Every 10th draw, where the prior tells the classes apart, their names are exchanged with
 * the odds that the prior gives, so that a second peak with the names the other way round has its due weight.
 */
export function chainOf(model: BayesianModel, seed: number, chain: number, length: ChainLength): Chain {
  const task = (taskNumber("latent class chains") + chain) >>> 0;
  const walk = walkOf(model, diceOf(randomStream(seed, task)));
  const { leap, acceptance } = warmUp(walk, length.warmup);
  const every = leap === null ? 1 : acceptance > 0.5 ? 8 : acceptance > 0.25 ? 3 : 1;
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
      const density = walk.leap(leap, known);
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

function warmUp(walk: Walk, warmup: number): { leap: Leap | null; acceptance: number } {
  const first = Math.floor(0.4 * warmup);
  const second = Math.floor(0.7 * warmup);
  let rows: Float64Array[] = [];
  const sweeps = (from: number, to: number, leap: Leap | null) => {
    let taken = 0;
    for (let draw = from; draw < to; draw += 1) {
      walk.sweep();
      if (draw % EXCHANGE === 0) walk.exchange();
      rows.push(walk.here().logits.slice());
      for (let leaps = 0; leaps < LEAPS && leap !== null; leaps += 1) {
        if (walk.leap(leap, walk.density(leap)) !== null) taken += 1;
        rows.push(walk.here().logits.slice());
      }
    }
    return taken / (LEAPS * (to - from));
  };
  sweeps(0, first, null);
  const begun = leapOver(rows.slice(Math.floor(first / 2)));
  rows = [];
  sweeps(first, second, begun);
  const better = leapOver(rows);
  const acceptance = sweeps(second, warmup, better);
  walk.settle();
  return { leap: acceptance < HOPELESS ? null : leapOver(rows), acceptance };
}

interface Walk {
  readonly here: () => ChainState;
  readonly sweep: () => void;
  /** Exchanges the names of the classes, with the odds of the prior; whether it was done. */
  readonly exchange: () => boolean;
  readonly density: (leap: Leap) => number;
  /** The log density of the new place where the leap was taken, else `null`. */
  readonly leap: (leap: Leap, density: number) => number | null;
  /** Ends the adapting of the sweep's steps. */
  readonly settle: () => void;
}

function walkOf(model: BayesianModel, dice: Dice): Walk {
  let here = startOf(model, dice);
  let there = emptyState(model);
  const counts = emptyCounts(model);
  let reach: Reach = { widths: new Float64Array(model.layout.size).fill(0.5), rounds: 0, adapting: true };
  const move = () => {
    [here, there] = [there, here];
  };
  return {
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
    density: (leap) => leapDensity(leap, here.logits),
    leap: (leap, density) => {
      const densityThere = drawLeap(leap, dice, there.logits);
      evaluate(model, there);
      const gain = there.logPosterior - here.logPosterior + density - densityThere;
      if (!(Math.log(dice.uniform()) < gain)) return null;
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
