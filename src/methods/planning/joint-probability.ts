import { type BinomialWindow, binomialWindow } from "./binomial-window.ts";
import { chanceMet } from "./criterion-chance.ts";

/** One of two counts: among so many people, each speaking for it with this probability, so many are needed. */
export interface Counted {
  readonly total: number;
  readonly share: number;
  readonly needed: number;
}

/** What the covariance of two events with these probabilities can be (Fréchet). */
export function covarianceRange(first: number, second: number): { least: number; most: number } {
  return {
    least: -Math.min(first * second, (1 - first) * (1 - second)),
    most: Math.min(first * (1 - second), second * (1 - first)),
  };
}

/** P(as many as needed, or more). */
function enough({ total, share, needed }: Counted): number {
  return chanceMet(needed, total, share, "at_least");
}

/**
 * P(both counts reach what they need), when some people are counted in both.
 *
 * Given how many of the shared people speak for the first, the second count is a sum of three binomial
 * ones: those people, the other shared people, and the second's own. The tail of the last two is carried
 * from one number to the one below it: one more person joins them.
 *
 * @param shared     people in both totals, at most the smaller
 * @param covariance of the two events in a shared person, within `covarianceRange`
 * Source: aitken1936
 */
export function bothEnough(first: Counted, second: Counted, shared: number, covariance: number): number {
  if (first.needed > first.total || second.needed > second.total) return 0;
  const given = givenFirst(first.share, second.share, covariance);
  const own = { ...first, total: first.total - shared };
  const window = binomialWindow(shared, first.share);
  const most = window.from + window.masses.length - 1;
  const least = Math.max(window.from, first.needed - own.total);
  if (least > most) return 0;
  const tails = tailsOfOthers(second, shared, given, { least, most });
  let sum = 0;
  for (let speaking = most; speaking >= least; speaking -= 1) {
    const weight = window.masses[speaking - window.from] as number;
    const alone = enough({ ...own, needed: first.needed - speaking });
    sum += weight * alone * tails.with(binomialWindow(speaking, given.speaking));
    tails.join();
  }
  return Math.min(1, sum);
}

/** Probability of speaking for the second, in people who speak for the first and in those who don't. */
function givenFirst(first: number, second: number, covariance: number) {
  const within = (value: number) => Math.min(1, Math.max(0, value));
  return {
    speaking: first > 0 ? within(second + covariance / first) : second,
    silent: first < 1 ? within(second - covariance / (1 - first)) : second,
  };
}

/**
 * P(the second's own people and the silent shared ones together reach t), for every t that is asked for
 * while the speaking ones go from most to least; at first for the most.
 */
function tailsOfOthers(
  second: Counted,
  shared: number,
  given: { speaking: number; silent: number },
  { least, most }: { least: number; most: number },
) {
  const fewest = binomialWindow(least, given.speaking);
  const largest = binomialWindow(most, given.speaking);
  const high = Math.max(0, second.needed - fewest.from);
  // The lowest of them are wrong after a step, one more after each: so many more are kept.
  const low = Math.max(0, second.needed - largest.from - largest.masses.length + 1 - (most - least) - 1);
  const own = second.total - shared;
  const silent = binomialWindow(shared - most, given.silent);
  const ownTail = new Map<number, number>();
  const tails = Float64Array.from({ length: Math.max(0, high - low) + 1 }, (_, at) =>
    silent.masses.reduce((sum, mass, step) => {
      const needed = low + at - silent.from - step;
      const known = ownTail.get(needed) ?? enough({ total: own, share: second.share, needed });
      ownTail.set(needed, known);
      return sum + mass * known;
    }, 0),
  );
  return {
    /** P(they and these together reach what is needed). */
    with({ from, masses }: BinomialWindow): number {
      return masses.reduce((sum, mass, step) => {
        const needed = second.needed - from - step;
        return sum + mass * (needed <= 0 ? 1 : (tails[needed - low] as number));
      }, 0);
    },
    /** One more person joins them, who is silent for the first. */
    join(): void {
      for (let at = tails.length - 1; at > 0; at -= 1) {
        tails[at] = (1 - given.silent) * (tails[at] as number) + given.silent * (tails[at - 1] as number);
      }
    },
  };
}
