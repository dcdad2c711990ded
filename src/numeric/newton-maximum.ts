import { ldlFactors, solveLdl } from "./ldl.ts";

/** A function at one place: its value, and its first and second derivatives (row by row). */
export interface Local {
  readonly value: number;
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
}

export interface NewtonOptions {
  /** Places that keep their value. */
  readonly held?: readonly number[];
  /** Places whose value may not go below 0. */
  readonly nonNegative?: readonly number[];
  /** The climb ends when a step is expected to gain less than this, as a share of 1 + |value|. */
  readonly leastGain?: number;
  readonly mostSteps?: number;
  /** Longest step of one place; 2 by default. */
  readonly longest?: number;
}

export interface Summit {
  readonly at: Float64Array;
  readonly local: Local;
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * A maximum of a smooth function by Newton's steps: where the second derivatives do not bend downwards they are
 * bent until they do; a step that does not climb is halved; places at a border of 0 that would leave it outwards
 * stay there.
 *
 * Finds the top of the hill on which it begins. Near a top the number of right digits doubles with each step; the
 * derivatives may be slightly wrong, which costs steps and no accuracy as long as the gradient is right.
 *
 * @param locally the function with its derivatives; a value of NaN or -Infinity is taken as a place not to go to
 * @param start   where to begin; its value must be finite
 * Source: Nocedal and Wright 2006, Numerical Optimization, sections 3.1 and 3.4 (memory)
 */
export function newtonMaximum(
  locally: (at: Float64Array) => Local,
  start: ArrayLike<number>,
  options: NewtonOptions = {},
): Summit {
  const { leastGain = 1e-12, mostSteps = 60 } = options;
  let at: Float64Array = Float64Array.from(start);
  let local = locally(at);
  for (let step = 0; step < mostSteps; step += 1) {
    const free = freePlaces(at, local.gradient, options);
    if (free.length === 0) return { at, local, iterations: step, converged: true };
    const { direction, gain } = uphill(local, free);
    const scale = 1 + Math.abs(local.value);
    const next = stepUp(locally, at, local, free, direction, options);
    if (next === null || gain < leastGain * scale) {
      // With no gain left within rounding, the last step still sharpens the place.
      const last = next ?? { at, local };
      return { ...last, iterations: step + 1, converged: gain < 1e-9 * scale };
    }
    ({ at, local } = next);
  }
  return { at, local, iterations: mostSteps, converged: false };
}

function freePlaces(
  at: Float64Array,
  gradient: Float64Array,
  { held = [], nonNegative = [] }: NewtonOptions,
): number[] {
  const places: number[] = [];
  for (let place = 0; place < at.length; place += 1) {
    const pinned =
      nonNegative.includes(place) && (at[place] as number) <= 0 && (gradient[place] as number) <= 0;
    if (!pinned && !held.includes(place)) places.push(place);
  }
  return places;
}

/** Newton's direction on the free places, and half of what it gains by the first derivatives. */
function uphill(local: Local, free: readonly number[]): { direction: Float64Array; gain: number } {
  const size = free.length;
  const whole = local.gradient.length;
  const slope = Float64Array.from(free, (place) => local.gradient[place] as number);
  const bend = Float64Array.from({ length: size * size }, (_, cell) => {
    const row = free[Math.floor(cell / size)] as number;
    return -(local.hessian[row * whole + (free[cell % size] as number)] as number);
  });
  const widest = Math.max(1e-8, ...free.map((_, k) => Math.abs(bend[k * size + k] as number)));
  for (let ridge = 0; ; ridge = Math.max(ridge * 10, 1e-10 * widest)) {
    const bent = Float64Array.from(bend);
    for (let k = 0; k < size; k += 1) bent[k * size + k] = (bend[k * size + k] as number) + ridge;
    const factors = ldlFactors(bent, size);
    const firm = factors.positive && factors.diagonal.every((pivot) => pivot > 1e-11 * widest);
    if (!firm && ridge < 1e6 * widest) continue;
    const direction = factors.positive ? solveLdl(factors, slope) : slope;
    const gain = direction.reduce((sum, part, k) => sum + part * (slope[k] as number), 0) / 2;
    return { direction, gain };
  }
}

/** The place one step up, the step being halved until it climbs; `null` where it never does. */
function stepUp(
  locally: (at: Float64Array) => Local,
  at: Float64Array,
  local: Local,
  free: readonly number[],
  direction: Float64Array,
  { nonNegative = [], longest = 2 }: NewtonOptions,
): { at: Float64Array; local: Local } | null {
  const reach = direction.reduce((most, part) => Math.max(most, Math.abs(part)), 0);
  const whole = Math.min(1, longest / reach);
  for (let share = whole; share > 1e-6 * whole; share /= 2) {
    const next = Float64Array.from(at);
    free.forEach((place, k) => {
      const value = (at[place] as number) + share * (direction[k] as number);
      next[place] = nonNegative.includes(place) ? Math.max(0, value) : value;
    });
    const there = locally(next);
    if (there.value >= local.value) return { at: next, local: there };
  }
  return null;
}
