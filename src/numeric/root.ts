import { InputError } from "../core/input-error.ts";

export interface RootOptions {
  /** Largest allowed distance from the root; 0 by default. */
  readonly absolute?: number;
  /** The same as a share of the root's size; 4 units in the last place by default. */
  readonly relative?: number;
  readonly maxIterations?: number;
}

export interface Root {
  readonly root: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * A root of a continuous function between two points at which it has opposite signs.
 * Slow, but certain, where the function jumps: it then returns the place of the jump.
 *
 * @param f a function of one number, finite on the interval
 * @throws InputError where the signs are the same, or a value is not a number
 * Source: Brent 1973, Algorithms for Minimization without Derivatives, chapter 4.
 */
export function findRoot(
  f: (x: number) => number,
  lower: number,
  upper: number,
  options: RootOptions = {},
): Root {
  const { absolute = 0, relative = 4 * Number.EPSILON, maxIterations = 200 } = options;
  let before = lower;
  let best = upper;
  let valueBefore = value(f, before, "lower");
  let valueBest = value(f, best, "upper");
  if (valueBefore === 0) return { root: before, iterations: 0, converged: true };
  if (valueBest === 0) return { root: best, iterations: 0, converged: true };
  if (valueBefore > 0 === valueBest > 0) {
    throw new InputError(["lower", "upper"], "function values of opposite sign", [valueBefore, valueBest]);
  }
  let opposite = before;
  let valueOpposite = valueBefore;
  let step = best - before;
  let stepBefore = step;
  for (let iteration = 1; iteration <= maxIterations; iteration++) {
    if (valueBest > 0 === valueOpposite > 0) {
      opposite = before;
      valueOpposite = valueBefore;
      step = best - before;
      stepBefore = step;
    }
    if (Math.abs(valueOpposite) < Math.abs(valueBest)) {
      [before, best, opposite] = [best, opposite, best];
      [valueBefore, valueBest, valueOpposite] = [valueBest, valueOpposite, valueBest];
    }
    const tolerance = 0.5 * (relative * Math.abs(best) + absolute);
    const half = 0.5 * (opposite - best);
    if (Math.abs(half) <= tolerance || valueBest === 0)
      return { root: best, iterations: iteration - 1, converged: true };
    const trial =
      Math.abs(stepBefore) >= tolerance && Math.abs(valueBefore) > Math.abs(valueBest)
        ? interpolate(before, best, opposite, valueBefore, valueBest, valueOpposite)
        : Number.NaN;
    const accepted =
      2 * Math.abs(trial) < Math.min(3 * Math.abs(half) - tolerance, Math.abs(stepBefore)) &&
      trial * half > 0;
    stepBefore = accepted ? step : half;
    step = accepted ? trial : half;
    before = best;
    valueBefore = valueBest;
    best += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance;
    valueBest = value(f, best, "f");
  }
  return { root: best, iterations: maxIterations, converged: false };
}

/** The step of inverse quadratic interpolation, or of the secant where only two points are known. */
function interpolate(
  before: number,
  best: number,
  opposite: number,
  atBefore: number,
  atBest: number,
  atOpposite: number,
): number {
  const s = atBest / atBefore;
  if (before === opposite) return ((best - opposite) * s) / (1 - s);
  const q = atBefore / atOpposite;
  const r = atBest / atOpposite;
  const top = s * ((opposite - best) * q * (q - r) - (best - before) * (r - 1));
  return -top / ((q - 1) * (r - 1) * (s - 1));
}

function value(f: (x: number) => number, x: number, place: string): number {
  const at = f(x);
  if (Number.isNaN(at)) throw new InputError([place], `a function with a value at ${x}`, at);
  return at;
}
