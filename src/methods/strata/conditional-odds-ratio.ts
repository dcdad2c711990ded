import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { hypergeometricLogMass } from "../../numeric/hypergeometric.ts";
import { findRoot } from "../../numeric/root.ts";
import type { Share } from "../proportion/difference-interval.ts";

/**
 * Conditional odds ratio of two independent proportions, first over second, with its exact interval:
 * both margins are held fixed, so the first count follows a noncentral hypergeometric distribution.
 *
 * @returns value 0 or `null` (infinite) where the first count is the smallest or largest the margins
 *   allow; all `null` where they allow only one table. Limits that are infinite are `null`
 * Source: agresti2002, section 3.5
 */
export function conditionalOddsRatio(first: Share, second: Share, level: number): Estimate {
  const both = first.count + second.count;
  const least = Math.max(0, both - second.total);
  const most = Math.min(both, first.total);
  if (least === most) return NOT_ESTIMABLE;
  const logMasses = Array.from({ length: most - least + 1 }, (_, step) =>
    hypergeometricLogMass(least + step, first.total, second.total, both),
  );
  const seen = first.count - least;
  const last = logMasses.length - 1;
  const outside = Math.log((1 - level) / 2);
  const atLeast = (logRatio: number) => tiltedLogTail(logMasses, logRatio, seen, last) - outside;
  const atMost = (logRatio: number) => tiltedLogTail(logMasses, logRatio, 0, seen) - outside;
  const mean = (logRatio: number) => tiltedMean(logMasses, logRatio) - seen;
  return {
    value: seen === 0 ? 0 : seen === last ? null : Math.exp(rootNearZero(mean)),
    lower: seen === 0 ? 0 : Math.exp(rootNearZero(atLeast)),
    upper: seen === last ? null : Math.exp(rootNearZero(atMost)),
  };
}

/** Log of the probability of the results from..to after tilting by the odds ratio. */
function tiltedLogTail(logMasses: readonly number[], logRatio: number, from: number, to: number): number {
  return logSum(logMasses, logRatio, from, to) - logSum(logMasses, logRatio, 0, logMasses.length - 1);
}

function logSum(logMasses: readonly number[], logRatio: number, from: number, to: number): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (let at = from; at <= to; at += 1) {
    highest = Math.max(highest, (logMasses[at] as number) + at * logRatio);
  }
  let sum = 0;
  for (let at = from; at <= to; at += 1) {
    sum += Math.exp((logMasses[at] as number) + at * logRatio - highest);
  }
  return highest + Math.log(sum);
}

function tiltedMean(logMasses: readonly number[], logRatio: number): number {
  const highest = logMasses.reduce((most, mass, at) => Math.max(most, mass + at * logRatio), -Infinity);
  let sum = 0;
  let weighted = 0;
  logMasses.forEach((mass, at) => {
    const weight = Math.exp(mass + at * logRatio - highest);
    sum += weight;
    weighted += at * weight;
  });
  return weighted / sum;
}

/** The root of a monotone function of the log odds ratio, looked for ever further from 0. */
function rootNearZero(f: (logRatio: number) => number): number {
  let reach = 1;
  while (f(-reach) > 0 === f(reach) > 0) reach *= 2;
  return findRoot(f, -reach, reach, { relative: 4 * Number.EPSILON, absolute: 1e-15 }).root;
}
