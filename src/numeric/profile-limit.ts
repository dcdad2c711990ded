import { findRoot } from "./root.ts";

export interface ProfileLimit {
  /** The limit, or `end` where the loss is never reached on the way there. */
  readonly limit: number;
  readonly reached: boolean;
}

/**
 * One limit of a profile interval: the place at which a function, 0 at the estimate and growing away from it, has
 * grown to `drop`. The root is sought of sqrt(loss) - sqrt(drop), which is nearly straight.
 *
 * @param lossAt  how much of the log-likelihood is lost at a value, 0 or more
 * @param from    the estimate, at which nothing is lost
 * @param guess   a first place to look, between `from` and `end`
 * @param end     the farthest place
 */
export function profileLimit(
  lossAt: (value: number) => number,
  drop: number,
  from: number,
  guess: number,
  end: number,
): ProfileLimit {
  const known = new Map<number, number>([[from, -Math.sqrt(drop)]]);
  const excess = (value: number): number => {
    const before = known.get(value);
    if (before !== undefined) return before;
    const loss = lossAt(value);
    const now = Number.isFinite(loss) ? Math.sqrt(Math.max(0, loss)) - Math.sqrt(drop) : FAR;
    known.set(value, now);
    return now;
  };
  let inside = from;
  let outside = guess;
  while (excess(outside) < 0) {
    if (outside === end) return { limit: end, reached: false };
    const next = outside + 1.6 * (outside - inside);
    inside = outside;
    outside = end > from ? Math.min(end, next) : Math.max(end, next);
  }
  return { limit: findRoot(excess, inside, outside, NEARLY).root, reached: true };
}

/** A loss that has no number counts as far too much. */
const FAR = 1e3;
const NEARLY = { absolute: 1e-7, relative: 1e-7, maxIterations: 60 };
