import { ldlFactors, solveLdl } from "../../numeric/ldl.ts";
import type { LatentData } from "./latent-data.ts";
import type { LatentLayout } from "./latent-layout.ts";
import { informationRows, latentLikelihood } from "./latent-likelihood.ts";

export interface Summit {
  readonly theta: Float64Array;
  readonly logLikelihood: number;
  readonly converged: boolean;
  readonly iterations: number;
}

const MOST_STEPS = 100;
/** Longest step of one unknown. */
const LONGEST = 2;
/** An unknown this far out (a share of 6 in a million) is tried at its border. */
const FAR = 12;
/** A step that is expected to gain less than this ends the climb. */
const LEAST_GAIN = 1e-13;

/**
 * Steps to a maximum of the likelihood over the unknowns that are free; those that run to a border are put there,
 * and stay, where the likelihood is not lower for it.
 *
 * @param held which unknowns keep their value
 * @param by   scoring (expected information: cheap steps) or Newton (observed information: few steps)
 */
export function climb(
  start: Float64Array,
  held: readonly boolean[],
  data: LatentData,
  layout: LatentLayout,
  by: "scoring" | "newton",
): Summit {
  let theta = start;
  let here = latentLikelihood(theta, data, layout);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const bordered = toBorders(theta, here.logLikelihood, held, data, layout);
    if (bordered !== theta) {
      theta = bordered;
      here = latentLikelihood(theta, data, layout);
    }
    const free = freeOf(theta, held);
    const slope = free.map((place) => here.gradient[place] as number);
    const informationBy = by === "newton" ? observedInformation : expectedInformation;
    const { direction, gain } = directionOf(slope, informationBy(theta, free, data, layout));
    const scale = 1 + Math.abs(here.logLikelihood);
    if (gain < LEAST_GAIN * scale) {
      const last = stepped(theta, free, direction, 1);
      const there = latentLikelihood(last, data, layout).logLikelihood;
      const iterations = step + 1;
      return there >= here.logLikelihood - 1e-14 * scale
        ? { theta: last, logLikelihood: there, converged: true, iterations }
        : { theta, logLikelihood: here.logLikelihood, converged: true, iterations };
    }
    const next = higher(theta, here.logLikelihood, free, direction, data, layout);
    if (next === null) {
      // No step gains anything within rounding: the summit, if little was to be gained.
      return { theta, logLikelihood: here.logLikelihood, converged: gain < 1e-9 * scale, iterations: step };
    }
    theta = next;
    here = latentLikelihood(theta, data, layout);
  }
  return { theta, logLikelihood: here.logLikelihood, converged: false, iterations: MOST_STEPS };
}

/** The first place higher up, the step being halved until there is one; `null` where there is none. */
function higher(
  theta: Float64Array,
  logLikelihood: number,
  free: readonly number[],
  direction: Float64Array,
  data: LatentData,
  layout: LatentLayout,
): Float64Array | null {
  const longest = Math.max(...direction.map(Math.abs));
  for (let share = Math.min(1, LONGEST / longest); share > 1e-10; share /= 2) {
    const next = stepped(theta, free, direction, share);
    if (latentLikelihood(next, data, layout).logLikelihood > logLikelihood) return next;
  }
  return null;
}

function stepped(
  theta: Float64Array,
  free: readonly number[],
  direction: Float64Array,
  share: number,
): Float64Array {
  const next = Float64Array.from(theta);
  for (const [k, place] of free.entries())
    next[place] = (theta[place] as number) + share * (direction[k] as number);
  return next;
}

/** The places of the unknowns that are neither held nor at a border. */
export function freeOf(theta: Float64Array, held: readonly boolean[]): number[] {
  return [...theta.keys()].filter((place) => !held[place] && Number.isFinite(theta[place]));
}

/** The Newton direction, with as much added to the diagonal as makes it one of ascent. */
function directionOf(
  slope: readonly number[],
  information: Float64Array,
): { direction: Float64Array; gain: number } {
  if (slope.length === 0) return { direction: new Float64Array(0), gain: 0 };
  const size = slope.length;
  let most = 0;
  for (let k = 0; k < size; k += 1) most = Math.max(most, Math.abs(information[k * size + k] as number));
  for (let added = 0; added <= 1e6 * most + 1; added = Math.max(added * 10, 1e-9 * most, 1e-12)) {
    const raised = Float64Array.from(information);
    for (let k = 0; k < size; k += 1) raised[k * size + k] = (raised[k * size + k] as number) + added;
    const factors = ldlFactors(raised, size);
    if (!factors.positive) continue;
    const direction = solveLdl(factors, slope);
    const gain = direction.reduce((sum, part, k) => sum + part * (slope[k] as number), 0) / 2;
    return { direction, gain };
  }
  return { direction: new Float64Array(size), gain: Number.POSITIVE_INFINITY };
}

/** What the log-likelihood is expected to curve by at this place, were the model true. */
function expectedInformation(
  theta: Float64Array,
  free: readonly number[],
  data: LatentData,
  layout: LatentLayout,
): Float64Array {
  const size = free.length;
  const information = new Float64Array(size * size);
  for (const row of informationRows(theta, data, layout)) {
    for (let a = 0; a < size; a += 1) {
      const first = row[free[a] as number] as number;
      for (let b = 0; b < size; b += 1) {
        information[a * size + b] =
          (information[a * size + b] as number) + first * (row[free[b] as number] as number);
      }
    }
  }
  return information;
}

const STEP = 1e-4;

/** Minus the second derivatives of the log-likelihood: central differences (two widths) of the exact slopes. */
export function observedInformation(
  theta: Float64Array,
  free: readonly number[],
  data: LatentData,
  layout: LatentLayout,
): Float64Array {
  const size = free.length;
  const raw = free.map((place) => {
    const at = (step: number) => {
      const moved = Float64Array.from(theta);
      moved[place] = (theta[place] as number) + step;
      return latentLikelihood(moved, data, layout).gradient;
    };
    const [plus, minus, plusTwo, minusTwo] = [at(STEP), at(-STEP), at(2 * STEP), at(-2 * STEP)];
    return free.map((other) => {
      const near = (plus[other] as number) - (minus[other] as number);
      const far = (plusTwo[other] as number) - (minusTwo[other] as number);
      return -(8 * near - far) / (12 * STEP);
    });
  });
  const information = new Float64Array(size * size);
  for (let a = 0; a < size; a += 1) {
    for (let b = 0; b < size; b += 1) {
      information[a * size + b] = ((raw[a]?.[b] as number) + (raw[b]?.[a] as number)) / 2;
    }
  }
  return information;
}

function toBorders(
  theta: Float64Array,
  logLikelihood: number,
  held: readonly boolean[],
  data: LatentData,
  layout: LatentLayout,
): Float64Array {
  let found = theta;
  let best = logLikelihood;
  for (const place of freeOf(theta, held)) {
    const value = theta[place] as number;
    if (Math.abs(value) < FAR) continue;
    const tried = Float64Array.from(found);
    tried[place] = value > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
    const there = latentLikelihood(tried, data, layout).logLikelihood;
    if (there >= best - 1e-12 * Math.abs(best)) {
      found = tried;
      best = there;
    }
  }
  return found;
}
